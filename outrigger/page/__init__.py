"""Looking instead of typing: the local page of `show`, and the page of gaps for a phone.

May import `base` to `report`.
"""
