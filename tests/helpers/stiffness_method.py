"""The second witness of the beam: direct stiffness method, Timoshenko elements, one beam at a time.

Nothing is shared with the program. Nodes stand at the ends, the supports, the loads, the ends of
even loads and every place asked for, so each element carries an even load over its whole length
or none and its stiffness and fixed-end forces are exact. Freedoms of a node: deflection, positive
down, and turn of the section, positive where deflection grows outward. The equations are solved
and refined in long double, because short elements beside long ones leave the stiffness matrix
poorly conditioned.

Loads are tuples: ("point", at, force), ("uniform", start, end, load), ("couple", at, moment).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Long = NDArray[np.longdouble]


def element(EI: float, GA: float, length: float) -> Long:
    """Stiffness of a Timoshenko beam element (Przemieniecki, Theory of Matrix Structural Analysis,
    5.6), signs turned to deflection down; phi = 12 EI / (GA L^2) is 0 without shear."""
    L = np.longdouble(length)
    phi = 12 * EI / (GA * L**2)
    rows = [
        [12, 6 * L, -12, 6 * L],
        [6 * L, (4 + phi) * L**2, -6 * L, (2 - phi) * L**2],
        [-12, -6 * L, 12, -6 * L],
        [6 * L, (2 - phi) * L**2, -6 * L, (4 + phi) * L**2],
    ]
    return np.array(rows, dtype=np.longdouble) * (EI / (L**3 * (1 + phi)))


def even(load: float, length: float) -> Long:
    """Forces on the nodes of an element under an even load: w L / 2 and w L^2 / 12, with or without
    shear, since both ends are alike."""
    L = np.longdouble(length)
    return np.array([load * L / 2, load * L**2 / 12, load * L / 2, -load * L**2 / 12])


@dataclass
class Answer:
    reactions: NDArray[np.float64]
    deflection: dict[float, float]
    turn: dict[float, float]
    moment: dict[tuple[float, str], float]
    shear: dict[tuple[float, str], float]


def stiffness_method(supports, stiffness, EI, GA, start, end, loads, places=()) -> Answer:
    """One beam, one set of loads. supports, stiffness: lists; places: where answers are wanted."""
    marks = {float(start), float(end), *map(float, supports), *map(float, places)}
    for kind, *numbers in loads:
        marks.update(map(float, numbers[:2] if kind == "uniform" else numbers[:1]))
    x = sorted(marks)
    node = {place: i for i, place in enumerate(x)}
    K = np.zeros((2 * len(x), 2 * len(x)), dtype=np.longdouble)
    f = np.zeros(2 * len(x), dtype=np.longdouble)
    spread = [sum(w for _, s, e, w in _uniform(loads) if s <= x[i] and x[i + 1] <= e)
              for i in range(len(x) - 1)]  # fmt: skip
    for i, w in enumerate(spread):
        span = slice(2 * i, 2 * i + 4)
        K[span, span] += element(EI, GA, x[i + 1] - x[i])
        f[span] += even(w, x[i + 1] - x[i])
    for kind, *numbers in loads:
        if kind == "point":
            f[2 * node[float(numbers[0])]] += numbers[1]
        if kind == "couple":
            f[2 * node[float(numbers[0])] + 1] += numbers[1]
    rigid = [2 * node[float(s)] for s, k in zip(supports, stiffness, strict=True) if np.isinf(k)]
    for s, k in zip(supports, stiffness, strict=True):
        if np.isfinite(k):
            K[2 * node[float(s)], 2 * node[float(s)]] += k
    u = _refined(K, f, [i for i in range(len(f)) if i not in rigid])
    return _answer(x, u, f, K, EI, GA, spread, supports, stiffness, node)


def _uniform(loads):
    return [load for load in loads if load[0] == "uniform"]


def _refined(K: Long, f: Long, free: list[int]) -> Long:
    k, right = K[np.ix_(free, free)], f[free]
    scale = 1 / np.sqrt(np.diag(k))
    factor = _factored(k * scale[:, None] * scale)
    u = np.zeros(len(free), dtype=np.longdouble)
    for _ in range(3):
        u += scale * _substituted(factor, scale * (right - k @ u))
    full = np.zeros(len(f), dtype=np.longdouble)
    full[free] = u
    return full


def _factored(matrix: Long) -> Long:
    """Cholesky's lower triangle, in long double."""
    lower = matrix.copy()
    for i in range(len(lower)):
        lower[i:, i] /= np.sqrt(lower[i, i])
        lower[i + 1 :, i + 1 :] -= np.outer(lower[i + 1 :, i], lower[i + 1 :, i])
    return np.tril(lower)


def _substituted(lower: Long, right: Long) -> Long:
    u = right.copy()
    for i in range(len(u)):
        u[i] = (u[i] - lower[i, :i] @ u[:i]) / lower[i, i]
    for i in reversed(range(len(u))):
        u[i] = (u[i] - lower[i + 1 :, i] @ u[i + 1 :]) / lower[i, i]
    return u


def _answer(x, u, f, K, EI, GA, spread, supports, stiffness, node) -> Answer:
    up = f - K @ u  # zero at free nodes; at a rigid support its reaction
    reactions = [
        k * u[2 * node[float(s)]] if np.isfinite(k) else up[2 * node[float(s)]]
        for s, k in zip(supports, stiffness, strict=True)
    ]
    moment, shear = {}, {}
    for i, w in enumerate(spread):
        length = x[i + 1] - x[i]
        ends = element(EI, GA, length) @ u[2 * i : 2 * i + 4] - even(w, length)
        shear[x[i], "right"], moment[x[i], "right"] = -float(ends[0]), float(ends[1])
        shear[x[i + 1], "left"], moment[x[i + 1], "left"] = float(ends[2]), -float(ends[3])
    return Answer(
        np.array(reactions, dtype=float),
        {place: float(u[2 * i]) for place, i in node.items()},
        {place: float(u[2 * i + 1]) for place, i in node.items()},
        moment,
        shear,
    )
