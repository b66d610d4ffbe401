"""What the tests of whole designs share: a check's demand and ratio in every combination.

A check may hold only the demand of the largest force under each CD or lambda. It then has the
force of every combination, and the demand is in proportion to it; nothing presses below zero.
"""

import numpy as np


def demand_in(check, name):
    """The demand of the first case in one combination, by the combination's full text."""
    return demands(check)[[c.text for c in check.combinations].index(name)]


def demands(check, case=0):
    """The demands of one case, (combinations,)."""
    if check.grows_with is None:
        table = np.atleast_2d(check.demand)
        row = table[case if len(table) > 1 else 0]
        return np.broadcast_to(row, len(check.combinations)) if len(row) == 1 else row
    force = np.maximum(check.grows_with(case), 0.0)
    found = np.zeros(len(force))
    for i, own in enumerate(force):
        largest = force[check.columns == check.columns[i]].max()
        found[i] = check.demand_at(case, i) * own / largest if largest else 0.0
    return found


def ratios(check, cases):
    """The ratios of so many cases, (cases, combinations); every capacity above zero."""
    if check.grows_with is None:
        return np.atleast_2d(check.ratio)
    every = range(len(check.combinations))
    return np.array([
        demands(check, case) / [check.capacity_at(case, i) for i in every] for case in range(cases)
    ])  # fmt: skip
