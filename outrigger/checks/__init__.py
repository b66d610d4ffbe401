"""One file a check; `every` lists them in the order of the load path.

May import `base` to `marks`.
"""
