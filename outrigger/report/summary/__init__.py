"""What the calculation summary says, part by part.

May import `base` to `studies`, and `report`.
"""
