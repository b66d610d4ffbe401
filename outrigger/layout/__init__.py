"""What to cut and buy for a run of outriggers: cutting from stock, materials, the whole layout.

May import `base` to `verdict`.
"""
