"""Hold-downs built of fasteners, of the second program: bent clips and lags through the member.

NDS 2018 12.2 to 12.5 and TR 12 in plain floats: withdrawal, yield modes, load at an angle; AISI
S100 for the leg and the heads; the links of one place, per clip.
"""

import math

import numpy as np
from second_values import HOT, adjusted, flat_use, gravity, rows

PANEL, FRAMING, TWO_PLATES = 7 / 16, 3.5, 3.0
TOE, WIDEST = 0.5, 4.0
STEEL = {"18 ga": 0.048, "16 ga": 0.060, "14 ga": 0.075}
FY, FU, FE = 33000.0, 45000.0, 61850.0
WASHER = {0.25: 0.734, 0.3125: 0.875, 0.375: 1.0, 0.5: 1.375}


class Fastener:
    """Sizes of Appendix L: a nail (kind, D, length), a wood screw by number, a lag by D."""

    def __init__(self, kind, size, length):
        self.kind, self.L = kind, length
        if kind == "nail":
            # a length that the table has not takes the smallest head of that diameter
            same = [r for r in rows("fasteners", "nails")
                    if float(r["D_in"]) == size and r["kind"] != "ring"]  # fmt: skip
            own = [r for r in same if float(r["length_in"]) == length]
            order = ("short", "common", "box", "sinker")
            own.sort(key=lambda r: order.index(r["kind"]))
            heads = [float(r["head_in"]) for r in own[:1] or same]
            self.D = self.Dr = size
            self.head, self.tip = min(heads), 2 * size
            self.thread = length
        elif kind == "screw":
            (r,) = [r for r in rows("fasteners", "wood_screws") if r["number"] == str(size)]
            self.D, self.Dr, self.head = (float(r[k]) for k in ("D_in", "Dr_in", "head_in"))
            self.tip, self.thread = 2 * self.D, min(max(4 * self.D, 2 * length / 3), length)
        else:
            (r,) = [r for r in rows("fasteners", "lag_screws") if float(r["D_in"]) == size]
            self.D, self.Dr, self.head, self.tip = (
                float(r[k]) for k in ("D_in", "Dr_in", "head_in", "tip_in"))  # fmt: skip
            self.thread = min(6.0, length / 2 + 0.5, length)
        self.Fyb = self.yield_of()

    def yield_of(self):
        if self.kind == "lag":
            return {0.25: 70000.0, 0.3125: 60000.0}.get(self.D, 45000.0)
        steps = ((0.142, 1e5), (0.177, 9e4), (0.236, 8e4), (0.273, 7e4), (0.344, 6e4))
        return next(F for top, F in steps if top >= self.D)

    def counts(self, p):
        """12.1.4.6, 12.1.5.6, 12.1.6.4: 6D, a lag 4D without its tip."""
        if self.kind == "lag":
            return p - self.tip >= 4 * self.D * (1 - 1e-9)
        return p >= 6 * self.D * (1 - 1e-9)

    def withdrawal(self, G, head, thick):
        """W pt, lb, of what stands `head` in above a wood so thick: the thread, at the point, as
        far as it is in that wood."""
        inside = min(self.L - head, thick)
        if not self.counts(inside):
            return 0.0
        first = max(self.L - self.thread, head) if self.kind != "nail" else head
        p = max(min(self.L, head + thick) - first, 0)
        if self.kind == "lag":
            return 1800 * G**1.5 * self.D**0.75 * (p - self.tip)
        if self.kind == "screw":
            return 2850 * G**2 * self.D * p
        return 1380 * G**2.5 * self.D * p

    def bearing(self, G):
        """Fe across the grain."""
        return 16600 * G**1.84 if self.D < 0.25 else 6100 * G**1.45 / self.D**0.5

    def lateral(self, G, p, ls, Fes, gap=0.0):
        """Z, load across the grain: the modes at the bearing length, or the tables' in proportion
        where it stands less deep than these have it; the smaller."""
        if not self.counts(p):
            return 0.0
        full = 8 if self.kind == "lag" else 10
        deep = (p - self.tip if self.kind == "lag" else p) / (full * self.D)
        lm = p if p >= 10 * self.D * (1 - 1e-12) else p - self.tip / 2
        Z = self.modes(G, lm, ls, Fes, gap)
        if deep >= 1:
            return Z
        return min(Z, deep * self.modes(G, full * self.D, ls, Fes, gap))

    def modes(self, G, lm, ls, Fes, gap):
        """The least of TR 12's modes over Rd of Table 12.3.1B."""
        D, qm, qs = self.Dr, self.bearing(G) * self.Dr, Fes * self.Dr
        My = self.Fyb * D**3 / 6
        K = 1.25 if self.D >= 0.25 else 1.0
        KD = 2.2 if D <= 0.17 else 10 * D + 0.5
        R1, R2, R3 = (4 * K, 3.6 * K, 3.2 * K) if D >= 0.25 else (KD * K,) * 3

        def root(A, B, C):
            return (-B + math.sqrt(B * B + 4 * A * C)) / (2 * A)

        return min(
            qm * lm / R1,
            qs * ls / R1,
            root(1 / (4 * qs) + 1 / (4 * qm), ls / 2 + gap + lm / 2,
                 qs * ls**2 / 4 + qm * lm**2 / 4) / R2,
            root(1 / (2 * qs) + 1 / (4 * qm), gap + lm / 2, My + qm * lm**2 / 4) / R3,
            root(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + gap, qs * ls**2 / 4 + My) / R3,
            root(1 / (2 * qs) + 1 / (2 * qm), gap, 2 * My) / R3,
        )  # fmt: skip


def factor(n, kind, D, time, fastener):
    """CD, CM and Ct of Table 11.3.1, or KF phi lambda with them; Z, W of a fastener."""
    value = np.minimum(time, 1.6) if n["method"] == "ASD" else 3.32 * 0.65 * np.minimum(time, 1)
    wet_built, wet = not n["seasoned"], n["wet"]
    if kind == "Z":
        CM = 0.7 if wet else 1.0
        if wet_built and not wet:
            CM = 0.7 if D < 0.25 else 0.4
    elif fastener == "nail":
        CM = 1.0 if wet_built == wet else 0.25
    else:
        CM = 0.7 if wet else 1.0
    Ct = ((1.0, 0.7, 0.5) if wet else (1.0, 0.8, 0.7))[HOT.index(n["temperature"])]
    return value * CM * Ct


def at_angle(kind, Z, W, V, T):
    """12.4: the load on one fastener over what it may carry at its angle."""
    R = np.hypot(V, T)
    size = np.where(R > 0, R, 1)
    c, s = np.where(R > 0, V / size, 1), T / size
    if kind != "nail":
        c, s = c * c, s * s
    with np.errstate(divide="ignore", invalid="ignore"):
        cap = W * Z / (W * c + Z * s)
        cap = np.where((V == 0) & (Z == 0), W, cap)
        cap = np.where(T == 0, Z, cap)
        ratio = np.where(R > 0, R / np.where((Z == 0) & (W == 0), 0, cap), 0)
    return ratio


def built(checks, name, i, h, V_place):
    """The links of the clips of one place; V_place: force along there, lb."""
    m, n, a = checks.m, checks.n, checks.a
    U, V = a.pulls[i] / h["count"], V_place / h["count"]
    own, below = gravity(n["species"]), gravity(n["framing"])
    deck, count = h["deck"], h["decks"]
    W_f = factor(n, "W", deck.D, a.time, deck.kind)

    def put(link, ratio):
        checks.put(f"hold_down:{name}", name, link, ratio)

    thick = TWO_PLATES if name == "edge" else FRAMING
    if h["through"]:
        head = m.d + PANEL
        T = U / count
        if deck.kind == "lag":
            A = math.pi / 4 * (WASHER[deck.D] ** 2 - deck.D**2)
            put("washer", T / A / adjusted(n, "Fc_perp"))
        if deck.D >= 0.25 and name == "back":
            put("end of the outrigger", 4 * deck.D / n["behind"])
        M = checks.M_edge if name == "edge" else abs(a.at(m.supports[i])[0][0])
        d = m.net if name == "edge" else m.d
        S = (m.b - deck.D) * d * d / 6
        x = -m.supports[i]
        ends = zip(checks.lines, checks.lines[1:], strict=False)
        near = [checks.CL(b - a)[0] for a, b in ends if a <= x <= b]
        CL = 1.0 if m.flat else checks.CL_edge if name == "edge" else np.minimum.reduce(near)
        Cfu = flat_use(n) if m.flat else 1.0
        checks.put("bending", name, "at the hole", M / S / (checks.Fb * CL * Cfu))
    else:
        ts, s = STEEL[h["steel"]], h["side"]
        head = ts + PANEL
        into = min(s.L - ts, m.b)
        if name == "back":
            put("end of the outrigger", (5 if s.D < 0.25 else 4) * s.D / n["behind"])
        Z = s.lateral(own, into, ts, FE) * factor(n, "Z", s.D, a.time, s.kind)
        put("side fasteners", ratio_of(np.hypot(U, V), h["sides"] * Z))
        held = h["held"]
        times = 2 if held else 1
        e = h["e"]
        if held:
            put("fastener spacing", 5 * s.D / h["apart"])
            W = s.withdrawal(own, ts, m.b) * factor(n, "W", s.D, a.time, s.kind)
            pull = U * e / 2 / (h["apart"] * h["sides"] / 2)
            put("side fasteners, bend held",
                at_angle(s.kind, Z, W, np.hypot(U, V) / h["sides"], pull))  # fmt: skip
        w = min(count * (2 * e + deck.head), WIDEST)
        Mn = FY * w * ts**2 / 6
        put("bent leg", U * e / times / (Mn / 1.67 if n["method"] == "ASD" else 0.9 * Mn))
        T = U * (1 + e / (times * TOE)) / count
        Pn = 1.5 * ts * min(deck.head, 0.5) * FU
        put("head on the clip", T / (Pn / 3 if n["method"] == "ASD" else 0.5 * Pn))
    W = deck.withdrawal(below, head, thick) * W_f
    V_one = V / count
    if np.any(V_one != 0):
        Z = into_framing(checks, name, h)
        put("deck fasteners", at_angle(deck.kind, Z, W, V_one, T))
    else:
        put("deck fasteners", ratio_of(T, W))


def into_framing(checks, name, h):
    """Z' of one deck fastener, the panel between counted as a gap; a lag at the back is pulled
    toward the end of the outrigger."""
    m, n, deck, CDelta = checks.m, checks.n, h["deck"], 1.0
    own, below = gravity(n["species"]), gravity(n["framing"])
    side = (m.d, deck.bearing(own)) if h["through"] else (STEEL[h["steel"]], FE)
    p = min(deck.L - side[0] - PANEL, TWO_PLATES if name == "edge" else FRAMING)
    if deck.D >= 0.25 and name == "back":
        CDelta = min(1, n["behind"] / (7 * deck.D)) if n["behind"] >= 3.5 * deck.D else 0.0
    Z = deck.lateral(below, p, *side, gap=PANEL)
    return Z * CDelta * factor(n, "Z", deck.D, checks.a.time, deck.kind)


def side_value(checks, name, h):
    """What the clips of a place may carry along: the weaker of their two groups."""
    n, Z = checks.n, h["decks"] * into_framing(checks, name, h)
    if not h["through"]:
        s, ts = h["side"], STEEL[h["steel"]]
        own = s.lateral(gravity(n["species"]), min(s.L - ts, checks.m.b), ts, FE)
        own = h["sides"] * own * factor(n, "Z", s.D, checks.a.time, s.kind)
        Z = np.minimum(Z, own)
    return Z * h["count"]


def ratio_of(demand, capacity):
    """Demand over capacity; nothing over nothing is nothing."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(demand == 0, 0.0, demand / capacity)
