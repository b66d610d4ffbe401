"""From a case to the forces on one outrigger: geometry, loads by part, statics, combinations.

May import `base` to `cases`.
"""
