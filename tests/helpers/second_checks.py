"""The member checks of the second program: ratios by id, place and link.

NDS 2018 3.3, 3.4, 3.5, 3.9, 3.10, 4.4.3, written from the clauses for one case in plain floats,
arrays over the combinations alone.
"""

import math

import numpy as np
from second_loads import Acting, Member
from second_values import (
    HOT,
    adjusted,
    beam_length,
    column,
    flat_use,
    least_fc_perp,
    slenderness,
    stability,
)

MEMBER = ("bending", "biaxial", "axial_bending", "shear", "notch", "wall_bearing", "edge_bearing",
          "back_bearing", "live_deflection", "total_deflection")  # fmt: skip
SHEATHING = 360.0


class Checks:
    """Every ratio of one case: self.ratios by (id, place, link)."""

    def __init__(self, n):
        self.n, self.m = n, Member(n)
        self.a = a = Acting(self.m, n["method"])
        self.t, self.ratios = a.time, {}
        self.lines = self.blocks()
        self.Emin = adjusted(n, "Emin")
        self.Fb = adjusted(n, "Fb", self.t)  # Fb star
        self.Fv = adjusted(n, "Fv", self.t)
        self.M_in, V = a.at(0.0)
        self.V_in = V[0]
        self.M_in = self.M_in[0]
        out, V = a.at(0.0, after=True)
        self.M_out, self.V_arm = out[0], a.of(self.m.whole.at(0.0, after=True)[1][0])
        self.M_edge = np.maximum(abs(self.M_in), abs(self.M_out))
        self.axial()
        self.bending()
        self.shear()
        self.crushing()
        self.deflection()

    def put(self, id, place, link, ratio):
        self.ratios[id, place, link] = float(np.max(ratio))

    def blocks(self):
        """Distances from the edge where the member is held sideways, with both of its ends."""
        m, free = self.m, self.m.back + self.n["behind"]
        at = {"edge": 0.0, "back": m.back}
        stops = [at.get(p, p) for p in self.n["blocking"] if p != "wall line"]
        return sorted({0.0, free, *(min(x, free) for x in stops)})

    def CL(self, lu, cantilever=False):
        """CL over the combinations, RB and FbE of an unsupported length."""
        m = self.m
        if m.wide <= m.thick:
            return np.ones_like(self.Fb), 0.0, math.inf
        RB = slenderness(beam_length(lu, m.wide, cantilever), m.thick, m.wide)
        return stability(self.Emin, RB, self.Fb), RB, 1.2 * self.Emin / RB**2

    def inside(self, near, far, at):
        """Largest moment from `near` to `far` of the edge in the back span: where it is cut, over
        supports, and where the shear is zero; the edge's own moment has its own check."""
        m, most = self.m, 0.0
        low, high = -min(far, m.back), -near
        for x in {low, high, *m.supports[:-1]}:
            if low <= x <= high and x < 0:
                most = np.maximum(most, abs(at(x)[0][0]))
        for x1, x2 in zip(m.supports, m.supports[1:], strict=False):
            M, V = (v[0] for v in at(x1, after=True))
            V2 = at(x2)[1][0]
            w = (V - V2) / (x2 - x1)
            turns = V * V2 < 0
            s = np.divide(V, w, out=np.zeros_like(V), where=turns)
            here = turns & (low <= x1 + s) & (x1 + s <= high)
            most = np.maximum(most, np.where(here, abs(M + V * s / 2), 0))
        return most

    def stretches(self):
        """Unbraced stretches of the back span; the end behind the back does not govern."""
        return [(a, b) for a, b in zip(self.lines, self.lines[1:], strict=False) if a < self.m.back]

    def bending(self):
        m, n = self.m, self.n
        held = "edge" in n["blocking"] or 0.0 in n["blocking"] or m.d <= (m.wide if m.flat else
                                                                         m.thick)  # fmt: skip
        Cfu = flat_use(n) if m.flat else 1.0
        Fb = self.Fb * Cfu
        one = np.ones_like(Fb)
        CL_edge, in_back = (one, [one] * 9) if m.flat else (self.CL_edge, self.CL_back)
        S = m.b * m.net**2 / 6
        ratio = self.M_edge / S / (Fb * CL_edge)
        self.put("bending", "edge", "", ratio if held else math.inf)
        S = m.b * m.d**2 / 6
        rows = [M / S / (Fb * CL) for M, CL in zip(self.M_back, in_back, strict=False)]
        self.put("bending", "back span", "", np.maximum.reduce(rows))
        if not m.flat and m.wide > m.thick:
            self.put("bending", "edge", "slenderness RB", max(self.RB) / 50)

    def axial(self):
        """Moments of the stretches and their CL; bending both ways; force along. 3.9."""
        m, n, a = self.m, self.n, self.a
        lu_next = min(x for x in self.lines if x > 0)
        arm, next_ = self.CL(m.arm, cantilever=True), self.CL(lu_next)
        self.CL_edge = np.minimum(arm[0], next_[0])
        parts = self.stretches()
        sagging = [(0.0, m.back)] if m.flat else parts  # laid flat nothing rolls: one stretch
        longest = max(b - a for a, b in zip(self.lines, self.lines[1:], strict=False))
        CLs = [self.CL(b - a) for a, b in sagging]
        self.RB = [arm[1], next_[1], self.CL(longest)[1]]
        FbE_edge, FbE_back = min(arm[2], next_[2]), self.CL(longest)[2]
        self.M_back, self.CL_back = [self.inside(*s, a.at) for s in sagging], [c[0] for c in CLs]
        N_arm, N_in = (a.of(v) for v in m.forces_along)
        N_all = N_arm + N_in
        self.N_all = N_all if m.down or m.side else None
        Fb2 = adjusted(n, "Fb", self.t, repetitive=False) * flat_use(n)
        side = m.sideways is not None
        hole = sum(h["deck"].D for h in n["holds"] if h["x"] == 0 and h.get("through"))
        self.b_edge = m.b - hole  # 3.1.2
        ply = (m.b - (hole if m.plies > 1 else 0)) / m.plies  # of one ply its middle alone is out

        def stresses(M, M_side, b=self.b_edge, ply=ply):
            if m.flat:
                W1, W2 = m.net * m.plies * ply**2 / 6, b * m.net**2 / 6
            else:
                W1, W2 = b * m.net**2 / 6, m.plies * m.net * ply**2 / 6
            return (M_side / W1, M / W2) if m.flat else (M / W1, M_side / W2)

        M_side = M_side_back = np.zeros_like(self.Fb)
        if side:

            def at(x, after=False):
                return [a.of(v) for v in m.beam_across.at(x, after)]

            M_side = abs(at(0.0)[0][0])
            M_side_back = np.maximum.reduce([self.inside(*s, at) for s in parts])
            fb1, fb2 = stresses(self.M_edge, M_side)
            self.both("edge", fb1, fb2, self.Fb * self.CL_edge, Fb2, FbE_edge)
            # by M / CL the stretch that governs: CL over FbE falls as FbE grows, so that with its
            # own FbE no other stretch comes nearer to buckling, whatever its moment
            first = np.argmax(
                [M / CL for M, CL in zip(self.M_back, self.CL_back, strict=True)], axis=0
            )
            M, CL = np.choose(first, self.M_back), np.choose(first, self.CL_back)
            if m.flat:  # edgewise bending is across: the longest stretch's CL
                M, CL = np.maximum.reduce(self.M_back), self.CL(longest)[0]
            fb1, fb2 = stresses(M, M_side_back, m.b, m.b / m.plies)
            both = self.ratio_both(fb1, fb2, self.Fb * CL, Fb2, FbE_back)
            self.put("biaxial", "back span", "", both)
        if self.N_all is None:
            return
        fb = stresses(abs(self.M_out), M_side)
        two = side or m.flat  # laid flat, the loads bend it about axis 2
        self.along("arm", N_arm, fb, fb[0], self.Fb * self.CL_edge, Fb2, FbE_edge, two)
        rows = [(abs(self.M_out), self.CL_edge, M_side)]
        CLs = self.CL_back if not m.flat else [self.CL_edge] * len(self.M_back)
        rows += [(M, CL, np.maximum(M_side, M_side_back))
                 for M, CL in zip(self.M_back, CLs, strict=True)]  # fmt: skip
        # by M / CL the stretch that governs, with the moment across of the whole; a flat one by M
        keys = np.array([M if m.flat else M / CL for M, CL, _ in rows])
        first = np.argmax(keys, axis=0)
        M, CL, across = (np.choose(first, [r[i] for r in rows]) for i in range(3))
        fb = stresses(M, across)
        most = np.maximum.reduce([r[0] for r in rows])
        pulled = stresses(most, across)[0] if not m.flat else fb[0]
        self.along("back span", N_all, fb, pulled, self.Fb * CL, Fb2, FbE_back, two)

    def ratio_both(self, fb1, fb2, Fb1, Fb2, FbE):
        """Bending about both axes, 3.9-3 without axial force; unstable where fb1 reaches FbE."""
        left = 1 - (fb1 / FbE) ** 2
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = fb1 / Fb1 + fb2 / (Fb2 * left)
        return np.where(left <= 0, 1 + (fb1 / FbE) ** 2, ratio)

    def both(self, place, *values):
        self.put("biaxial", place, "", self.ratio_both(*values))

    def along(self, place, N, fb, fb1_tension, Fb1, Fb2, FbE, side):
        """3.9.1 where it is pulled, 3.9.2 where it is pushed."""
        m, n, (fb1, fb2) = self.m, self.n, fb
        A = self.b_edge * m.net
        if np.any(N > 0):
            ft = np.maximum(N, 0) / A
            Ft = adjusted(n, "Ft", self.t)
            ratio = ft / Ft + fb1_tension / self.Fb + (fb2 / Fb2 if side else 0)
            self.put("axial_bending", place, "tension", np.where(N > 0, ratio, 0))
            less = np.where(N > 0, np.maximum((fb1 - ft) / Fb1, 0), 0)
            self.put("axial_bending", place, "tension, compression edge", less)
        if not np.any(N < 0):
            return
        fc = np.maximum(-N, 0) / A
        Fc = adjusted(n, "Fc", self.t)
        if place == "arm":
            l1 = l2 = 2.1 * m.arm
        else:
            between = max(b - a for a, b in zip(m.supports, m.supports[1:], strict=False))
            blocks = max(b - a for a, b in zip(self.lines, self.lines[1:], strict=False))
            l1, l2 = (blocks, between) if m.flat else (between, blocks)
        (FcE1, CP1), (FcE2, CP2) = (column(self.Emin, le / d, Fc) for le, d in
                                    ((l1, m.wide), (l2, m.thick)))  # fmt: skip
        Fc = Fc * np.minimum(CP1, CP2)
        stable = fc / FcE1
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = (fc / Fc) ** 2 + fb1 / (Fb1 * (1 - fc / FcE1))
            if side:
                second = fc / FcE2 + (fb1 / FbE) ** 2
                stable = np.maximum(stable, second)
                ratio = ratio + fb2 / (Fb2 * (1 - second))
        ratio = np.where(stable >= 1, 1 + stable, ratio)
        self.put("axial_bending", place, "compression", np.where(N < 0, ratio, 0))
        self.put("axial_bending", place, "compression, stability", stable)
        self.put("axial_bending", place, "slenderness", max(l1 / m.wide, l2 / m.thick) / 50)

    def shear(self):
        """3.4.2, 3.4.3.1 where asked, 3.4.3.2 at a notch; both axes and torsion together."""
        m, n, a = self.m, self.n, self.a
        V_arm, row = self.V_arm, len(m.supports) > 2
        pushed = np.where(a.lifts, 0.0, a.push_edge - V_arm)
        pulled = np.where(a.edge_pull > 0, -a.edge_pull - V_arm, 0) if m.tied else 0 * V_arm
        V_house = np.where(abs(pulled) > abs(pushed), pulled, pushed)
        at_edge = np.maximum(abs(self.V_in), abs(V_house)) if row else abs(self.V_in)
        inner = [abs(a.at(x, after=True)[1][0]) for x in m.supports[:-1]]
        inner += [abs(a.at(x)[1][0]) for x in m.supports[1:-1]]
        V_back = np.maximum.reduce(inner)
        across = torsion = inside = 0.0
        if m.sideways is not None:
            V = abs(a.of(m.beam_across.at(0.0, after=True)[1][0]))
            across = 1.5 * V / (m.b * m.net)
            ends = [m.beam_across.at(x, after=True)[1][0] for x in m.supports[:-1]]
            ends += [m.beam_across.at(x)[1][0] for x in m.supports[1:]]
            inside = 1.5 * np.maximum.reduce([abs(a.of(v)) for v in ends]) / (m.b * m.net)
            if "wall line" not in n["blocking"]:
                torsion = twisting(V * m.d / 2 / m.plies, m.wide if m.flat else m.net,
                                   m.net if m.flat else m.thick)  # fmt: skip
        relieved = abs(V_arm - (self.near() if n["relief"] and not row else 0))
        rows = [("edge", "arm side", relieved, m.net, across, torsion),
                ("edge", "house side", at_edge, m.net, inside, 0),
                ("back span", "", V_back, m.d, inside, 0)]  # fmt: skip
        if "W_up" in m.parts:
            V_wall = a.of(m.whole.at(m.arm)[1][0])
            rows.append(("arm", "by the wall", abs(V_wall), m.d, across, torsion))
        for place, link, V, d, side, twist in rows:
            fv = np.hypot(1.5 * V / (m.b * d), side) + twist
            self.put("shear", place, link, fv / self.Fv)
        for where, depth, tension in (("top", n["top_notch"], self.M_in < 0),
                                      ("bottom", n["bottom_notch"], self.M_in > 0)):  # fmt: skip
            if not depth:
                continue
            left = m.d - depth
            self.put("notch", "edge", f"{where}, depth",
                     math.inf if tension.any() else depth / (m.d / 6))  # fmt: skip
            plain = 2 / 3 * self.Fv * m.b
            cap = plain * left * (left / m.d) ** 2 if tension.any() else plain * left
            V = np.maximum(abs(V_arm), abs(V_house))
            self.put("notch", "edge", f"{where}, shear", V / cap)

    def near(self):
        """What 3.4.3.1(a) leaves out of V, with nothing that lifts."""
        m, n, a = self.m, self.n, self.a
        face = self.contact() / 2
        wall, _ = m.turned(m.cos, 1.0)
        if m.down:
            wall |= {p: -H * m.sin for p, H in m.side.items()}
        P = a.of(m.spread(wall))
        strip = {p: q * (1 if p[0] == "W" else m.cos) for p, q in m.strip.items()}
        strip["D"] += m.own * m.cos
        w = a.of(m.spread(strip))
        near = 0.0 if n["overhang"] else min(face + m.d, m.end)
        lifts = (a.f[:, [p == "W_up" for p in m.parts]] != 0).any(axis=1)
        calm = ~lifts & (a.f[:, m.parts.index("D")] >= 0) & (P >= 0) & (w >= 0)
        gone = P * (1 - min(1, (m.arm - face) / m.d)) + w * near
        return np.where(calm, gone, 0.0)

    def contact(self):
        n, length = self.n, self.n["edge_bearing"]
        return min(length, n["support_width"] - n["setback"])

    def crushing(self):
        """3.10 at the wall, the edge and the back; the panel by APA TT-001B."""
        m, n, a = self.m, self.n, self.a
        lrfd = n["method"] == "LRFD"
        times = 1.67 * 0.9 if lrfd else 1.0  # plate and framing: dry, as hot as the outrigger
        times *= (1.0, 0.8, 0.7)[HOT.index(n["temperature"])]
        framing = least_fc_perp(n["framing"]) * times
        panel = n["panel"] * (1.5 if lrfd else 1.0)
        R = np.maximum(a.push_edge, 0)
        length = self.contact()
        to_end = min(m.end, -m.house_end) - length / 2
        fc = R / (m.b * length)
        own = adjusted(n, "Fc_perp", Cb=area(length, to_end))
        for link, cap in (("outrigger", own), ("sheathing", panel), ("framing below", framing)):
            self.put("edge_bearing", "edge", link, fc / cap)
        for x, R in zip(m.supports[:-1], a.R, strict=False):
            if np.any(R > 0):
                fc = np.maximum(R, 0) / (m.b * 1.5)
                name = "back" if x == -m.back else f"{-x:g} in"
                caps = adjusted(n, "Fc_perp"), panel, framing
                for link, cap in zip(("outrigger", "sheathing", "framing below"), caps,
                                     strict=True):  # fmt: skip
                    self.put("back_bearing", name, link, fc / cap)
        level = m.vertical if m.down else m.turned(m.cos, 1.0)[0]
        P = np.maximum(a.of(m.spread(level)), 0)
        length = min(n["plate"], n["plate"] / 2 + n["tail"] * (m.cos if m.down else 1))
        own = adjusted(n, "Fc_perp", Cb=area(length, max(n["tail"] - n["plate"] / 2, 0)))
        if m.down:  # Hankinson, the load at 90 less the slope to the grain
            Fc = adjusted(n, "Fc", self.t)
            own = Fc * own / (Fc * m.cos**2 + own * m.sin**2)
        fc = P / (m.b * length)
        self.put("wall_bearing", "wall line", "outrigger", fc / own)
        cap = least_fc_perp(n["plate_species"]) * times
        self.put("wall_bearing", "wall line", "garage plate", fc / cap)
        if 1.5 * n["plate"] < m.b * length:  # a stud narrower than what lies below
            upright = np.maximum(a.of(m.spread(m.vertical)), 0)
            fc = upright / (1.5 * n["plate"])
            self.put("wall_bearing", "wall line", "plate under stud", fc / cap)

    def deflection(self):
        """3.5.2 and IBC Table 1604.3: transient loads one by one, creep on dead load."""
        m, n = self.m, self.n
        S = 0.7 if n["loads"] == "ASCE 7-22" else 1.0
        live = []
        for part, back, factor in (
            ("L", None, 1.0),
            ("Lr", "Lr_back", 1.0),
            ("S", "S_back", S),
            ("W_up", "W_back", 0.42),
            ("W_down", "W_back", 0.42),
        ):
            if part in m.parts:
                live += [{part: factor, back: factor}, {part: factor}]
        blown = [r for r in live if "W_up" in r or "W_down" in r]
        for part in ("H_away", "H_toward", "A_one", "A_other"):
            if part in m.parts:
                factor = 0.6 if part[0] == "A" else 0.42
                live += [{part: factor}, *({**r, part: factor} for r in blown)]
        if live:
            droop = [self.droop(r, {}) for r in live]
            self.put("live_deflection", "wall line", "", max(map(abs, droop)) / (m.arm / 120))
        creep = 1.5 if n["seasoned"] and not n["wet"] else 2.0
        total = []
        for back in (1.0, 0.6):
            dead = {"D": 1.0, "D_back": back}
            D = self.droop(dead)
            for r in [{}, *live]:
                short = self.droop(r, dead)
                total.append(abs((creep * D if D * short >= 0 else 0) + short))
        self.put("total_deflection", "wall line", "", max(total) / (m.arm / 90))

    def droop(self, factors, dead=None):
        """Droop at the wall line; in a row the back may hold alone, an untied edge lift off."""
        m = self.m
        f = m.spread(factors)
        found = m.whole.droop(m.arm) @ f
        if len(m.supports) > 2:
            other = m.alone[0].droop(m.arm) @ f
            found = other if abs(other) > abs(found) else found
            if dead is not None and not m.tied:
                d = m.spread(dead or {"D": 1.0, "D_back": 0.6})
                if m.whole.R[-1] @ (d + f) < 0:
                    rise = m.lifted.droop(m.arm) @ (d + f) - m.whole.droop(m.arm) @ d
                    found = rise if abs(rise) > abs(found) else found
        if m.across:
            found = found * m.cos + (m.beam_across.droop(m.arm) @ f) * m.sin
        return found


def area(length, to_end):
    """Cb of 3.10.4."""
    return (length + 0.375) / length if length < 6 and to_end >= 3 else 1.0


def twisting(T, one, other):
    """Largest shear stress of a twisted rectangle by Saint-Venant's own series."""
    long, short = max(one, other), min(one, other)
    odd = range(1, 40, 2)
    q = math.pi * long / (2 * short)
    J = long * short**3 / 3 * (1 - 192 * short / (math.pi**5 * long)
                               * sum(math.tanh(k * q) / k**5 for k in odd))  # fmt: skip
    edge = 1 - 8 / math.pi**2 * sum(1 / (k * k * math.cosh(min(k * q, 700))) for k in odd)
    return T * short / J * edge
