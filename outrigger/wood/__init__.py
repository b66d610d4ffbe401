"""NDS chapters 3 and 4 and the Supplement: lumber, adjusted values, what a member takes.

May import `base`, `formula`, `statics`.
"""
