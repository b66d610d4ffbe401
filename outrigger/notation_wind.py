"""Symbols of wind loads; units psf, ft, sf, mph as ASCE 7 prints them."""

from outrigger.symbol import Symbol

WIND: dict[str, Symbol] = {}
