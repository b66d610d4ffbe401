"""Many designs at once: search, gaps, sizes, reserve, mishaps, card, compare, changes that work.

May import `base` to `layout`.
"""
