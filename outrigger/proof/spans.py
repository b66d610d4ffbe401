"""Joist and rafter spans of the IRC, deck joists of DCA 6, each under its table's assumptions.

IRC: deflection under the live or snow load alone, with the tabulated E and no shear; bending under
dead plus live with Cr and the CD of the row; a single span, to the nearest inch, 26 ft at most.
DCA 6: 40 psf live, 10 dead, No. 2, Cr, wet, incised but for Southern Pine and what lasts without
treatment; L/360 under live load, 18 ft at most. Overhang: 220 lb at its end with a deflection of
overhang/180 and bending, the arm measured to 1-1/2 in beyond it (fitted), a quarter of the span.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from outrigger.base import units
from outrigger.base.tables import Row
from outrigger.proof.compared import Compared, number
from outrigger.proof.members_alike import (
    Numbers,
    beams,
    bending_ratio,
    deflection_ratio,
    largest,
    stacked,
)
from outrigger.proof.read import column, compared, rows
from outrigger.statics.beam import Point, Uniform, solve
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

GROUP = "lumber"
LONGEST_IRC, LONGEST_DECK = units.inches(26.0), units.inches(18.0)
DECK_LIVE_PSF, DECK_DEAD_PSF, TIP_LB, BEYOND_IN = 40.0, 10.0, 220.0, 1.5
OVERHANG_WITHIN = (1.6, "the arm to 1-1/2 in beyond the overhang is fitted, not read")
GROUPS = {  # the least of its woods counts; the last names woods by grades of others
    "Southern Pine": (("Southern Pine", False),),
    "Douglas Fir-Larch; Hem-Fir; Spruce-Pine-Fir": (
        ("Douglas Fir-Larch", True),
        ("Hem-Fir", True),
        ("Spruce-Pine-Fir", True),
    ),
    "Redwood; western cedars; ponderosa pine; red pine": (
        ("Redwood", False),
        ("Western Cedars", False),
        ("Western Woods", False),
        ("Northern Species", False),
    ),
}


class Spans:
    """Rows of the IRC as one batch of simple spans."""

    def __init__(self, listed: Sequence[Row]) -> None:
        woods = [lumber.wood(r["species"], r["grade"], r["size"]) for r in listed]
        use = [Conditions(repetitive=True)] * len(listed)
        self.Fb_star, self.S, self.EI = stacked(woods, use, column(listed, "CD"))
        psf = np.stack((column(listed, "dead_psf"), column(listed, "live_psf")), axis=1)
        self.load = units.psi(psf) * column(listed, "spacing_in")[:, None]  # lb/in: dead, live
        self.limit = column(listed, "limit")

    def ratios(self, span: Numbers) -> tuple[Numbers, Numbers]:
        """Bending under dead plus live, deflection under live."""
        beam = solve(beams(span, 0.0, self.EI), [Uniform(0.0, span, self.load)])
        _, live = beam.deflection(span / 2).T
        bending = bending_ratio(beam.moment(span / 2).sum(axis=1), self.S, self.Fb_star)
        return np.asarray(bending), np.asarray(deflection_ratio(live, span, self.limit))

    def longest(self) -> Numbers:
        """The longest span of each row, in."""
        most = np.full(len(self.limit), LONGEST_IRC)
        return largest(lambda span: np.maximum(*self.ratios(span)), most)


def _larger(one: Any, other: Any) -> Numbers:
    found: Numbers = np.maximum(one, other)
    return found


def irc_spans() -> list[Compared]:
    """Every span to the inch."""
    listed = rows("irc_spans")
    found = Spans(listed).longest()
    return [
        compared(GROUP, row, f"span of {_name(row)}", here, unit="in", printed=row["span"])
        for row, here in zip(listed, found, strict=True)
    ]


def _name(row: Row) -> str:
    load = f"{row['live_psf']} + {row['dead_psf']} psf, L/{row['limit']}, CD {row['CD']}"
    return f"{row['species']} {row['grade']} {row['size']} at {row['spacing_in']} in, {load}"


class Deck:
    """Rows of DCA 6, one case for each species of each: the least of a row's cases is the row's."""

    def __init__(self, listed: Sequence[Row], *, wet: bool = True, incised: bool = True) -> None:
        cases = [(i, *wood) for i, row in enumerate(listed) for wood in GROUPS[row["species"]]]
        self.row = np.array([i for i, _, _ in cases])
        self.count = len(listed)
        self.spacing = column(listed, "spacing_in")[self.row]
        self.printed = np.array([number(row["span"]) for row in listed])
        self.Fb_star, self.S, self.EI = stacked(
            [lumber.wood(species, "#2", listed[i]["size"]) for i, species, _ in cases],
            [
                Conditions(wet=wet, incised=incised and treated, repetitive=True)
                for _, _, treated in cases
            ],
            np.ones(len(cases)),  # CD of occupancy live load, NDS 2018 Table 2.3.2
        )

    def least(self, values: Numbers) -> Numbers:
        """The least of each row's woods."""
        found = np.full(self.count, np.inf)
        np.minimum.at(found, self.row, values)
        return found

    def spans(self) -> Numbers:
        """The longest span of each row, in."""
        load = units.psi(np.array([DECK_DEAD_PSF, DECK_LIVE_PSF])) * self.spacing[:, None]

        def ratio(span: Numbers) -> Numbers:
            beam = solve(beams(span, 0.0, self.EI), [Uniform(0.0, span, load)])
            bending = bending_ratio(beam.moment(span / 2).sum(axis=1), self.S, self.Fb_star)
            live = deflection_ratio(beam.deflection(span / 2)[:, 1], span, 360.0)
            return _larger(bending, live)

        return self.least(largest(ratio, np.full(len(self.row), LONGEST_DECK)))

    def overhangs(self) -> Numbers:
        """The longest overhang of each row, in, on the printed span."""
        span = self.printed[self.row]

        def ratio(overhang: Numbers) -> Numbers:
            arm = overhang + BEYOND_IN
            beam = solve(beams(span, arm, self.EI), [Point(span + arm, TIP_LB)])
            bending = bending_ratio(beam.moment(span)[:, 0], self.S, self.Fb_star)
            tip = deflection_ratio(beam.deflection(span + arm)[:, 0], overhang, 180.0)
            return _larger(bending, tip)

        return self.least(largest(ratio, span / 4))


def deck_joists() -> list[Compared]:
    """Spans to the inch; overhangs within what the fitted arm leaves."""
    listed = rows("dca6_deck_joists")
    deck = Deck(listed)
    found = []
    for row, span, overhang in zip(listed, deck.spans(), deck.overhangs(), strict=True):
        name = f"{row['species']} {row['size']} at {row['spacing_in']} in"
        found.append(compared(GROUP, row, f"span of {name}", span, unit="in", printed=row["span"]))
        if row["overhang"]:
            allow, why = OVERHANG_WITHIN
            found.append(
                compared(
                    GROUP, row, f"overhang of {name}", overhang, unit="in",
                    printed=row["overhang"], status=row["overhang_status"], allow=allow, why=why,
                )
            )  # fmt: skip
    return found
