"""The command line: a command reads its input, makes one call, prints.

May import every folder.
"""
