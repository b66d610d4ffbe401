"""Statics of the second program: virtual work on a simple beam, the other supports as unknowns.

x grows outward, the edge at 0; loads down, reactions up, sagging positive. A load: ("point", x,
P), ("even", x1, x2, w), ("couple", x, C), C turning the outer end down; P, w and C are arrays over
the parts. Between places where anything begins, M is a parabola and a unit load's moment a line,
so that Gauss's two points integrate their product exactly.
"""

import numpy as np

GAUSS = 0.5 / 3**0.5


class Beam:
    """A beam on supports (inner first); EI, GA; loads over the parts."""

    def __init__(self, supports, EI, GA, loads):
        self.x, self.EI, self.GA, self.loads = list(supports), EI, GA, loads
        self.droops = {}
        first, last = self.x[0], self.x[-1]
        self.places = sorted({*self.x, *(x for kind, *v, _ in loads for x in v)})
        mid, half = [], []
        for a, b in zip(self.places, self.places[1:], strict=False):
            mid += [(a + b) / 2 - GAUSS * (b - a), (a + b) / 2 + GAUSS * (b - a)]
            half += [(b - a) / 2] * 2
        self.g, self.weight = np.array(mid), np.array(half)
        # the whole load on the simple beam of the first and the last support
        total, about_last = 0.0, 0.0
        for load in loads:
            force, moment = whole(load, last)
            total, about_last = total + force, about_last + moment
        R_first = about_last / (last - first)
        self.R = np.zeros((len(self.x), len(R_first)))
        self.R[0], self.R[-1] = R_first, total - R_first
        M, V = self.at(self.g)
        inner = self.x[1:-1]
        if inner:
            units = [self.unit(x) for x in inner]
            flexible = np.array([[self.work(a, b) for b in units] for a in units])
            sags = np.array([self.work(u, (M, V)) for u in units])
            held = np.linalg.solve(flexible, sags)
            for i, x in enumerate(inner):
                share = (last - x) / (last - first)
                self.R[i + 1] = held[i]
                self.R[0] -= held[i] * share
                self.R[-1] -= held[i] * (1 - share)

    def at(self, x, after=False):
        """M and V over the parts at places; `after`: just outside of what stands there."""
        x = np.atleast_1d(np.asarray(x, dtype=float))[:, None]
        M = V = np.zeros((len(x), 1))
        for s, R in zip(self.x, self.R, strict=True):
            on = (x > s) | (after & (x == s))
            M, V = M + R * np.maximum(x - s, 0), V + R * on
        for kind, *where, size in self.loads:
            a = where[0]
            if kind == "point":
                on = (x > a) | (after & (x == a))
                M, V = M - size * np.maximum(x - a, 0), V - size * on
            elif kind == "couple":
                M = M + size * ((x > a) | (after & (x == a)))
            else:
                to_a, to_b = np.maximum(x - a, 0), np.maximum(x - where[1], 0)
                M, V = M - size * (to_a**2 - to_b**2) / 2, V - size * (to_a - to_b)
        return M, V

    def unit(self, x):
        """m and v at the integration points under 1 lb down at x, on the simple beam."""
        first, last = self.x[0], self.x[-1]
        R = (last - x) / (last - first)
        g = self.g[:, None]
        m = R * np.maximum(g - first, 0) + (1 - R) * np.maximum(g - last, 0) - np.maximum(g - x, 0)
        v = R * (g > first) + (1 - R) * (g > last) - (g > x)
        return m, v

    def work(self, one, other):
        """Integral of m M / EI + v V / GA, over the parts."""
        m, v = one
        M, V = other
        return (self.weight[:, None] * (m * M / self.EI + v * V / self.GA)).sum(axis=0).squeeze()

    def droop(self, x):
        """Deflection down at a place."""
        if x not in self.droops:
            self.droops[x] = self.work(self.unit(x), self.at(self.g))
        return self.droops[x]


def whole(load, about):
    """Force of a load, and its moment about a place outward of it: what R at the first support
    has to balance."""
    kind, *where, size = load
    if kind == "point":
        return size, size * (about - where[0])
    if kind == "couple":
        return 0.0, -size
    length = where[1] - where[0]
    return size * length, size * length * (about - sum(where) / 2)
