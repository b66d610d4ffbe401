"""Snow sliding off the upper roof onto the lower one. ASCE 7-16 and 7-22, section 7.9.

Plain numbers or arrays in psf, plf, ft and degrees. A case of its own on top of the balanced snow:
never with drifted, unbalanced or partial snow or rain on snow. A gable end sheds nothing.
"""

from typing import Any

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.tables import MEMORY, SECOND_HAND, SEEN
from outrigger.formula.formula import Step, amount, formula
from outrigger.formula.numbers import Num, least, where
from outrigger.loads.snow.rules import (
    DEGREE_ROUNDING,
    FINITE,
    Given,
    Segment,
    Why,
    read,
    refuse_length,
    refuse_outside,
    refuse_slope,
    rise,
    slope_of,
    where_it_applies,
)

REACH_FT = 15.0
SLIPPERY_PITCH, OTHER_PITCH = 0.25, 2.0  # rise in 12 that a roof must exceed to shed


@formula("w_slide", "plf", clause="ASCE 7 7.9")
def sliding_line(p_f: Num, W_ridge: Num) -> Num:
    """Snow that slides off the upper roof, per foot of its eave."""
    return 0.4 * p_f * W_ridge


@formula("w_slide", "plf", clause="ASCE 7 7.9", constants={"15": "ft"})
def sliding_line_across_gap(p_f: Num, W_ridge: Num, s_gap: Num) -> Num:
    """What of it reaches a lower roof that stands apart."""
    return 0.4 * p_f * W_ridge * (15 - s_gap) / 15


@formula("p_slide", "psf", clause="ASCE 7 7.9", constants={"15": "ft"})
def sliding_pressure(w_slide: Num) -> Num:
    """The snow spread evenly over 15 ft from the upper eave."""
    return w_slide / 15


class Sliding(Struct, frozen=True, eq=False):
    """Snow sliding onto the lower roof: `line` plf of eave and `pressure` psf, 0 where none does.

    `across_gap`: by the rule of separated structures, plf, printed beside; None without a gap. It
    is never more: the same pressure, over the part of the 15 ft beyond the gap.
    """

    line: Step
    pressure: Step
    across_gap: Step | None
    length_ft: Num
    applies: Any
    why: Why

    def segment(self, start_ft: Num) -> Segment:
        """The load, from the upper eave at `start_ft` from the wall line, on the lower roof."""
        return Segment(start_ft, start_ft + self.length_ft, self.pressure.value)


def sliding(
    *,
    pf_upper_psf: Given,
    run_ft: Given,
    slope_deg: Given,
    slippery: bool,
    lower_ft: Given,
    step_ft: Given | None = None,
    gap_ft: Given | None = None,
) -> Sliding:
    """Snow off a roof that slopes toward the lower one.

    `pf_upper_psf`: flat-roof snow of the upper roof, not reduced by its slope; `run_ft`: its eave
    to ridge, horizontal; `lower_ft`: lower roof from the upper eave out. A lower roof under 15 ft
    takes the pressure on its own length; another reading spreads all the snow over it.
    With a gap, `step_ft` too: the rule of separated structures asks for h/s over 1 and s under 15.

    Raises:
        RangeError: a length not over 0, a slope that is no roof's.
    """
    refuse_slope(slope_deg)
    refuse_outside("upper roof snow, psf,", pf_upper_psf, 0, FINITE, "a snow load is 0 or more")
    refuse_length("eave to ridge", run_ft)
    refuse_length("lower roof", lower_ft)
    limit = SLIPPERY_PITCH if slippery else OTHER_PITCH
    none = np.equal(amount(pf_upper_psf), 0)
    steep = np.greater(amount(slope_deg), slope_of(limit) + DEGREE_ROUNDING)
    applies = steep & ~none
    surface = "slippery" if slippery else "not slippery"
    note = f"{surface}, steeper than {limit:g}:12, toward the lower roof"
    line = read(sliding_line.step(p_f=pf_upper_psf, W_ridge=run_ft), note)
    line = where_it_applies(line, applies, f"0 unless {note}")
    narrow = np.less(amount(lower_ft), REACH_FT)
    said, status = "", SEEN
    if np.any(narrow):
        said, status = "a lower roof under 15 ft keeps the pressure", SECOND_HAND
    pressure = read(sliding_pressure.step(w_slide=line), said, status)
    across = None if gap_ft is None else _across_gap(pf_upper_psf, run_ft, step_ft, gap_ft, applies)
    why = Why(
        [
            (none, "no sliding: no snow on the upper roof"),
            (
                ~np.asarray(steep),
                f"no sliding: {{pitch}}:12, {surface}, is not steeper than {limit:g}:12",
            ),
            (True, f"sliding applies: {{pitch}}:12, {surface}, is steeper than {limit:g}:12"),
        ],
        {"pitch": rise(slope_deg)},
    )
    length = where(applies, least(REACH_FT, amount(lower_ft)), 0.0)
    return Sliding(
        line=line, pressure=pressure, across_gap=across, length_ft=length, applies=applies, why=why
    )


def _across_gap(
    pf_upper_psf: Given, run_ft: Given, step_ft: Given | None, gap_ft: Given, applies: Any
) -> Step:
    """What slides onto a separated structure, plf.

    Raises:
        InputError: the step is not given.
    """
    if step_ft is None:
        raise InputError("step: sliding across a gap needs the height from roof to roof.")
    refuse_outside("gap, ft,", gap_ft, 0, FINITE, "a gap is 0 or more")
    refuse_length("step", step_ft)
    gap = np.asarray(amount(gap_ft))
    near = (gap < amount(step_ft)) & (gap < REACH_FT)
    step = sliding_line_across_gap.step(p_f=pf_upper_psf, W_ridge=run_ft, s_gap=gap_ft)
    note = "separated, where h/s is over 1 and s under 15 ft"
    return where_it_applies(read(step, note, MEMORY), applies & near, note)
