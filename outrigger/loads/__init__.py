"""Provisions of ASCE 7: gravity, snow, wind, earthquake, combinations. They never see a case.

May import `base` to `wood`.
"""
