"""The row along the wall: marks, what each carries, framing under the clips.

May import `base` to `actions`.
"""
