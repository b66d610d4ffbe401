"""A formula stated once, its steps, a check; the notation; its printers.

May import `base`.
"""
