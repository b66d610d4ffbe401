"""Results on a terminal, a file for each command.

May import `base` to `studies`, and `report`.
"""
