"""Printers: they compute nothing.

May import `base` to `studies`.
"""
