"""Symbols of snow loads; units psf, ft, pcf, plf as ASCE 7 prints them."""

from outrigger.symbol import Symbol

SNOW: dict[str, Symbol] = {}
