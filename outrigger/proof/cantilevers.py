"""Cantilevered joists that carry a wall and a roof at their ends: IRC Table R502.3.3(1).

The cells are recalled, none was read: a check of statics and of the member together, not of the
table. Hem-fir No. 2, Cr and CD 1.15. Load at the tip, of wall and roof: q = 150 plf + (15 psf + r)
W/2 on the roof width W, r = 0.924 of the ground snow, 20 psf at least. Back span of three
cantilevers for the uplift, W/2 less the cantilever for the cantilever itself, which is W/8 at most.
Limits of twice the cantilever / 360 under live and snow, / 240 in all.

The four constants of the uplift (150 plf, 15 psf, 0.924, and the 6 psf of floor that holds it down)
were fitted to the recalled cells: the table prints none of them. 6 psf is 0.6 of a floor of 10 psf,
which loads the member here, with 20 psf of live load on the cantilever, half of the floor's 40.
"""

import numpy as np

from outrigger.base import units
from outrigger.formula.numbers import Num
from outrigger.proof.compared import Compared
from outrigger.proof.members_alike import (
    Numbers,
    beams,
    bending_ratio,
    deflection_ratio,
    largest,
    stacked,
)
from outrigger.proof.read import column, compared, rows
from outrigger.statics.beam import Load, Point, Uniform, solve
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

GROUP = "lumber"
WALL_PLF, ROOF_DEAD_PSF, SNOW_SHARE, ROOF_LEAST_PSF, HOLDING_PSF = 150.0, 15.0, 0.924, 20.0, 6.0
FLOOR_DEAD_PSF, FLOOR_LIVE_PSF = 10.0, 20.0
LEAST_PRINTED_IN = 16.0
WITHIN = (1.5, "recalled cells, and a model that is not the one of its authors")


class Cantilevers:
    """Every row of the data as one batch."""

    def __init__(self) -> None:
        self.rows = rows("irc_cantilevers")
        self.spacing = column(self.rows, "spacing_in")
        self.width = units.inches(column(self.rows, "roof_width_ft"))
        self.printed = column(self.rows, "cantilever_in")
        self.blank = np.isnan(self.printed)
        roof = np.maximum(ROOF_LEAST_PSF, SNOW_SHARE * column(self.rows, "ground_snow_psf"))
        wall = units.pounds_per_inch(WALL_PLF) + units.psi(ROOF_DEAD_PSF) * self.width / 2
        self.tip_dead, self.tip_snow = (
            self.spacing * wall,
            self.spacing * units.psi(roof) * self.width / 2,
        )
        self.Fb_star, self.S, self.EI = stacked(
            [lumber.wood("Hem-Fir", "#2", row["size"]) for row in self.rows],
            [Conditions(repetitive=True)] * len(self.rows),
            np.full(len(self.rows), 1.15),  # CD of snow, NDS 2018 Table 2.3.2
        )

    def ratio(self, arm: Numbers) -> Numbers:
        """The largest of bending and both deflections."""
        span = self.width / 2 - arm
        tip = span + arm
        dead, live = (units.psi(psf) * self.spacing for psf in (FLOOR_DEAD_PSF, FLOOR_LIVE_PSF))
        loads: list[Load] = [
            Point(tip, _pair(self.tip_dead, self.tip_snow)),
            Uniform(0.0, tip, _pair(dead, 0.0)),
            Uniform(span, tip, _pair(0.0, live)),
        ]
        beam = solve(beams(span, arm, self.EI), loads)
        of_dead, of_live = beam.deflection(tip).T
        bending = bending_ratio(beam.moment(span).sum(axis=1), self.S, self.Fb_star)
        under_live = deflection_ratio(of_live, 2 * arm, 360.0)
        in_all = deflection_ratio(of_dead + of_live, 2 * arm, 240.0)
        worst: Numbers = np.max([np.asarray(one) for one in (bending, under_live, in_all)], axis=0)
        return worst

    def longest(self, most: Numbers | None = None) -> Numbers:
        """The longest cantilever of each row, up to W/8, in."""
        return largest(self.ratio, self.width / 8 if most is None else most)

    def uplifts(self) -> Numbers:
        """Uplift at the back, lb, on the printed cantilever and three times it behind."""
        arm = np.where(self.blank, LEAST_PRINTED_IN, self.printed)
        holding = units.psi(HOLDING_PSF) * self.spacing
        loads: list[Load] = [
            Point(4 * arm, (self.tip_dead + self.tip_snow)[:, None]),
            Uniform(0.0, 4 * arm, holding[:, None]),
        ]
        back: Numbers = solve(beams(3 * arm, arm, self.EI), loads).reactions[:, 0, 0]
        return -back


def _pair(dead: Num, live: Num) -> Numbers:
    """(cases, components): dead, live."""
    return np.stack(np.broadcast_arrays(dead, live), axis=1)


def cantilevers() -> list[Compared]:
    """The cantilevers and the uplifts of the cells that are not blank."""
    batch, found = Cantilevers(), []
    for row, arm, uplift in zip(batch.rows, batch.longest(), batch.uplifts(), strict=True):
        if not row["cantilever_in"]:
            continue
        name = (
            f"{row['size']} at {row['spacing_in']} in, {row['ground_snow_psf']} psf of snow, roof "
            f"{row['roof_width_ft']} ft"
        )
        found += [
            compared(
                GROUP, row, f"cantilever of {name}", arm, unit="in", printed=row["cantilever_in"],
                allow=WITHIN[0], why=WITHIN[1],
            ),
            compared(
                GROUP, row, f"uplift behind {name}", uplift, unit="lb", printed=row["uplift_lb"],
                status=row["uplift_status"],
            ),
        ]  # fmt: skip
    return found
