"""Geometry, loads and actions of the second program: one outrigger, plain floats.

What a draw states goes to the axes of the member, part by part; `Acting` sums the parts in every
combination. lb, in; down positive; x outward from the edge.
"""

import math
from functools import cached_property

import numpy as np
from second_combinations import combinations
from second_statics import Beam
from second_values import DRESSED, adjusted, reference

WORKER = 300.0


class Member:
    """Lengths, section, loads by part and the beams of one case."""

    def __init__(self, n):
        self.n = n
        thick, wide = (DRESSED[i] for i in n["size"])
        self.thick, self.wide, self.plies = thick, wide, n["plies"]
        self.flat = n["laid"] == "flat"
        self.b, self.d = (wide, thick) if self.flat else (thick, wide)
        self.b *= n["plies"]
        self.net = self.d - n["top_notch"] - n["bottom_notch"]
        theta = math.atan(n["pitch"] / 12)
        self.theta = theta
        self.down = n["pitch"] > 0 and n["direction"] == "down the slope"
        self.across = n["pitch"] > 0 and not self.down
        self.cos, self.sin = math.cos(theta), math.sin(theta)
        level = n["width"] + n["finish"] + n["plate"] / 2
        on_sheathing = n["setback"] + n["edge_bearing"] / 2
        self.arm = (level / self.cos if self.down else level) + on_sheathing
        self.end, self.back = self.arm + n["tail"], n["back_span"]
        self.house_end = -(self.back + n["behind"])
        x_holds = sorted(-h["x"] for h in n["holds"] if 0 < h["x"] < self.back)
        self.supports = [-self.back, *x_holds, 0.0]
        self.tied = any(h["x"] == 0 for h in n["holds"])
        self.loads()
        Em = 1.03 * adjusted(n, "E")
        self.EI = Em * self.b * self.d**3 / 12
        self.GA = 5 / 6 * Em / 16 * self.b * self.d
        self.EI_side = Em * self.d * self.plies * (self.b / self.plies) ** 3 / 12

    def loads(self):
        """Every part of the load: vertical on the wall line, on strip and back span."""
        n, s = self.n, self.n["spacing"]
        plan = s * self.cos if self.across else s  # of wall
        area = s * self.cos  # of roof in plan for each inch of member
        share = plan if n["member_spacing"] is None else trusses(n["member_spacing"], plan)
        reach = n["span"] / 2 + n["overhang"]
        psf = {"D": n["dead"], "L": n["storage"], "Lr": n["live"], "S": n["snow"],
               "W_up": -n["wind_up"], "W_down": n["wind_down"]}  # fmt: skip
        wall = {part: q * reach * share for part, q in psf.items()}
        wall["D"] += n["wall_dead"] * n["height"] * plan
        G = reference(n["species"], n["grade"], n["size"][1])[0]["G"]
        pcf = 62.4 * G / (1 + 0.009 * G * 19) * 1.19
        own = pcf / 1728 * self.thick * self.wide * self.plies
        strip = {p: psf[p] * area for p in ("Lr", "S")} | {"D": n["strip_dead"] * area}
        strip |= {p: psf[p] * s for p in ("W_up", "W_down")}
        back = {"D_back": n["house_dead"] * area, "Lr_back": n["house_live"] * area,
                "S_back": n["house_snow"] * area, "W_back": -n["house_up"] * s,
                "W_press_back": n["house_down"] * s}  # fmt: skip
        side, sds = {}, n["sds"]
        if n["square"]:
            H = n["square"] * n["height"] / 2 * plan
            side |= {"H_away": H, "H_toward": -H}
        self.Ev = 0.2 * sds
        self.net_up = 0.2 if n["category"] >= "D" else 0.0
        if sds:  # 12.11.2.1: ka 2, the diaphragm's length not given
            Fp = max(0.4 * sds, 0.2) * 2 * wall["D"]
            side |= {"E_away": Fp, "E_toward": -Fp}
        A = n["along"] * plan
        along = {"A_one": A} if A else {}
        along |= {"A_other": -A} if A and self.across else {}
        self.vertical, self.strip, self.on_back = wall, strip, back
        self.own, self.side, self.along = own, side, along
        worn = {p for by in (wall, strip, back, side, along) for p, v in by.items() if v}
        self.parts = tuple(sorted(worn | {"D", "D_back", "D_own", "worker"}))

    def spread(self, by_part):
        """A value by part, as an array over the parts."""
        return np.array([by_part.get(p, 0.0) for p in self.parts])

    def turned(self, vertical, square):
        """The loads of one axis: vertical ones times the one, wind on the sheathing the other."""

        def of(by):
            return {p: v * (square if p.startswith("W") else vertical) for p, v in by.items()}

        own, covered = self.own * vertical, min(self.n["overhang"], self.arm)
        wall = {p: v * vertical for p, v in self.vertical.items()}
        strip = of(self.strip)
        moving = self.spread({p: q for p, q in strip.items() if p != "D"})
        dead = self.spread({"D": strip["D"] + own})
        on_house = self.spread({"D_back": own, "D_own": own})
        return wall, [
            ("point", self.end, self.spread({"worker": WORKER * vertical})),
            ("even", 0.0, self.end, dead),
            ("even", 0.0, self.arm - covered, moving),
            ("even", self.arm, self.end, moving),
            ("even", self.house_end, 0.0, on_house),
            ("even", -self.back, 0.0, self.spread(of(self.on_back))),
        ]

    @cached_property
    def square(self):
        """Loads square to the sheathing, with the couples of what acts along."""
        wall, loads = self.turned(self.cos, 1.0)
        arm, back = self.forces_along
        if self.down:
            wall |= {p: -H * self.sin for p, H in self.side.items()}
        loads = [("point", self.arm, self.spread(wall)), *loads]
        if arm.any() or back.any():  # half the depth at the wall, half at the edge; back: all there
            loads += [("couple", self.arm, arm * self.d / 2)]
            loads += [("couple", 0.0, arm * self.d / 2 + back * self.d)]
        return loads

    @cached_property
    def forces_along(self):
        """Forces along the member over the parts: on arm and tail, on the house side; outward."""
        push = self.spread({p: H * (self.cos if self.down else 1.0) for p, H in self.side.items()})
        if not self.down:
            return push, np.zeros_like(push)
        wall, loads = self.turned(self.sin, 0.0)
        arm, back = push + self.spread(wall), np.zeros_like(push)
        for kind, *where, size in loads:
            force = size * (where[1] - where[0]) if kind == "even" else size
            arm, back = (arm, back + force) if where[0] < 0 else (arm + force, back)
        return arm, back

    @cached_property
    def sideways(self):
        """Loads across the member, or None."""
        if not (self.across or self.along):
            return None
        wall, loads = self.turned(self.sin if self.across else 0.0, 0.0)
        return [("point", self.arm, self.spread(wall | self.along)), *loads]

    def beam(self, supports):
        """The member on some of its supports, square to the sheathing."""
        return Beam(supports, self.EI, self.GA, self.square)

    @cached_property
    def whole(self):
        """On every support."""
        return self.beam(self.supports)

    @cached_property
    def lifted(self):
        """On the hold-downs alone, the edge off; None: fewer than two."""
        return self.beam(self.supports[:-1]) if len(self.supports) > 2 else None

    @cached_property
    def alone(self):
        """Each hold-down beside the edge as the only one."""
        return [self.beam([x, 0.0]) for x in self.supports[:-1]]

    @cached_property
    def beam_across(self):
        """On every support, bent across."""
        return Beam(self.supports, self.EI_side, self.GA, self.sideways)


def trusses(apart, spacing):
    """Length of wall on one outrigger at the worst alignment: its own truss and what those within
    a bay to each side send."""
    k = range(1, int(spacing / apart) + 2)
    return apart * (1 + 2 * sum(max(0.0, 1 - i * apart / spacing) for i in k))


class Acting:
    """Forces of a case in every combination of a method's set."""

    def __init__(self, member, method):
        self.m = m = member
        n = m.n
        self.f, self.time = combinations(n["loads"], method, m.parts, m.Ev, m.net_up)
        self.R = self.of(m.whole.R)
        self.lifts = np.zeros(len(self.f), dtype=bool)
        if not m.tied and m.lifted is not None:
            self.lifts = self.R[-1] < 0
            free = np.vstack([self.of(m.lifted.R), np.zeros(len(self.f))])
            self.R = np.where(self.lifts, free, self.R)

    def of(self, by_part):
        """Sums over the parts: (rows, parts) or (parts,) to (rows, combinations)."""
        return np.asarray(by_part) @ self.f.T

    def at(self, x, after=False):
        """M and V in every combination, of the beam that stands."""
        M, V = (self.of(v) for v in self.m.whole.at(x, after))
        if self.lifts.any():
            free = [self.of(v) for v in self.m.lifted.at(x, after)]
            M, V = np.where(self.lifts, free[0], M), np.where(self.lifts, free[1], V)
        return M, V

    @cached_property
    def push_edge(self):
        """What presses the house wall: of the row, or with the nearest hold-down alone."""
        if len(self.m.supports) == 2:
            return self.R[-1]
        nearest = self.of(self.m.alone[-1].R[-1])
        return np.where(self.lifts, self.R[-1], np.maximum(self.R[-1], nearest))

    @cached_property
    def edge_pull(self):
        """Uplift of an edge tie: of the row, or about the next hold-down with what lies outward
        of it alone."""
        x1, beyond = self.m.supports[-2], 0.0
        rigid = np.maximum(-self.R[-1], 0)
        if len(self.m.supports) == 2:
            return rigid
        for kind, *where, size in self.m.square:
            if kind == "even" and where[1] > x1:
                a = max(where[0], x1)
                beyond = beyond + size * (where[1] - a) * ((a + where[1]) / 2 - x1)
            elif kind == "point":
                beyond = beyond + size * (where[0] - x1)
            elif kind == "couple":
                beyond = beyond + size
        return np.maximum(rigid, -self.of(beyond) / -x1)

    @cached_property
    def pulls(self):
        """Uplift at each place, inner first; the edge's as a tie's."""
        m, found = self.m, [np.maximum(-R, 0) for R in self.R[:-1]]
        if len(found) > 1:
            for i, one in enumerate(m.alone):
                pressed = (self.of(one.R[-1]) >= 0) & ~self.lifts
                found[i] = np.maximum(found[i], np.where(pressed, -self.of(one.R[0]), 0))
            if self.lifts.any():
                pair = m.beam(m.supports[-3:-1])
                found[-1] = np.maximum(found[-1], np.where(self.lifts, -self.of(pair.R[-1]), 0))
        return [*found, self.edge_pull]

    @cached_property
    def reactions_across(self):
        """What holds each place sideways: of the row, or of the only one beside the edge."""
        m = self.m
        R = self.of(m.beam_across.R)
        if len(m.supports) > 2:
            for i, x in enumerate(m.supports[:-1]):
                one = self.of(Beam([x, 0.0], m.EI_side, m.GA, m.sideways).R)
                R[i] = np.where(abs(one[0]) > abs(R[i]), one[0], R[i])
                R[-1] = np.where(abs(one[1]) > abs(R[-1]), one[1], R[-1])
        return abs(R)
