"""Units, quantities as the trade writes them, published tables, errors, files written whole.

May import nothing of ours.
"""
