"""NDS chapters 11 and 12: trade names, bearing, yield modes, withdrawal, listed values, bent leg.

May import `base` to `loads`.
"""
