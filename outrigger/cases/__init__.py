"""What the user states: the model, its fields, reading a file with every fault at once.

May import `base` to `fasteners`.
"""
