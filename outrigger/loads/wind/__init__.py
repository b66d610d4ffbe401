"""ASCE 7 chapters 26 to 30: velocity pressure, coefficients, components, main system.

May import `base` to `wood`, and `loads`.
"""
