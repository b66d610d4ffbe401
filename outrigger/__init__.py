"""Checks the small wood outriggers that carry a garage wall across an insulation gap."""

__version__ = "0.1.0"
