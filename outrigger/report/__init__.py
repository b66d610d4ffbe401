"""Printers: they compute nothing."""
