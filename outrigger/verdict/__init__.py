"""`design(case)`: checks, verdict, what is not given, notes, what is near the line.

May import `base` to `checks`.
"""
