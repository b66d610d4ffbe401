"""A second way to cut pieces from stock: the simplex method over every pattern, its whole sticks
and, for what they leave, stick after stick, each the one that wastes the least of itself."""

import math
from itertools import product

import numpy as np


def second_packing(pieces, stock, kerf, squaring):
    """Length that this way buys, and a length that no packing is under. Pieces (length, count)."""
    lengths, wanted = [x for x, _ in pieces], [n for _, n in pieces]
    patterns = []
    for s in stock:
        room = s - squaring + kerf + 1e-9
        most = [min(int(room / (x + kerf)), n) for x, n in pieces]
        for cuts in product(*(range(n + 1) for n in most)):
            if any(cuts) and np.dot(cuts, [x + kerf for x in lengths]) <= room:
                patterns.append((s, cuts))
    parts, prices = relaxed(patterns, wanted)
    bought, left = 0.0, np.array(wanted)
    for (s, cuts), n in zip(patterns, parts, strict=True):
        bought += s * math.floor(n + 1e-9)
        left = np.maximum(left - np.array(cuts) * math.floor(n + 1e-9), 0)
    while left.any():

        def used(one, left=left):
            return np.minimum(one[1], left) @ lengths / one[0]

        s, cuts = max(patterns, key=used)
        bought += s
        left = np.maximum(left - cuts, 0)
    return bought, float(prices @ wanted)


def relaxed(patterns, wanted):
    """Fractions of sticks of least total length, and a price of each piece.

    The simplex method over all patterns. The prices are lowered until no pattern is worth more than
    its stick, so that they bound every packing whenever the search stops.
    """
    m = len(wanted)
    A = np.array([cuts for _, cuts in patterns], dtype=float).T
    A = np.concatenate([A, -np.eye(m)], axis=1)  # more pieces than wanted do no harm
    c = np.array([stock for stock, _ in patterns] + [0.0] * m)
    basis = [int(np.argmin(np.where(A[i] > 0, c / np.maximum(A[i], 1e-9), np.inf)))
             for i in range(m)]  # fmt: skip
    single = np.array([[float(i == j) * max(A[i, b], 1.0) for j in range(m)]
                       for i, b in enumerate(basis)]).T  # fmt: skip
    A, c = np.concatenate([A, single], axis=1), np.concatenate([c, c[basis]])
    basis = list(range(A.shape[1] - m, A.shape[1]))
    d = np.array(wanted, dtype=float)
    x = np.linalg.solve(A[:, basis], d)
    prices = np.linalg.solve(A[:, basis].T, c[basis])
    for _ in range(500):
        worth = c - prices @ A
        enter = int(np.argmin(worth))
        if worth[enter] >= -1e-9 * max(c):
            break
        way = np.linalg.solve(A[:, basis], A[:, enter])
        steps = np.where(way > 1e-9, x / np.where(way > 1e-9, way, 1.0), np.inf)
        basis[int(np.argmin(steps))] = enter
        x = np.maximum(np.linalg.solve(A[:, basis], d), 0.0)
        prices = np.linalg.solve(A[:, basis].T, c[basis])
    prices = np.maximum(prices, 0.0)
    n = len(patterns)
    worth = prices @ A[:, :n]
    prices = prices * min(1.0, float(np.min(c[:n] / np.maximum(worth, 1e-9))))
    parts = [0.0] * n
    for column, amount in zip(basis, x, strict=True):
        if column < n:
            parts[column] = float(amount)
    return parts, prices
