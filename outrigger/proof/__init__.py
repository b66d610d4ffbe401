"""Published values worked again by the functions of a check: the data, and one file a group.

May import `base` to `studies`.
"""
