"""Results as JSON and CSV.

May import `base` to `studies`.
"""
