"""ASCE 7 chapter 7: roof snow, drift, sliding, unbalanced; in feet and psf, as the standard.

May import `base` to `wood`, and `loads`.
"""
