"""Drawings and plots.

May import `base` to `studies`, and `report`.
"""
