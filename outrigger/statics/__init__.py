"""A beam on any supports by the force method; the same in exact fractions.

May import nothing of ours.
"""
