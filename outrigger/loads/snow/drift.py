"""Snow drifted onto the lower of two roofs at a step. ASCE 7-16 and 7-22, sections 7.7.1 and 7.7.2.

Plain numbers or arrays in psf, ft and pcf. The drift is a triangle with its peak at the higher
building, on top of the balanced snow. Not covered: drifts at corners and from two directions at
once, roof projections and parapets (7.8), sliding snow on top of a drift (never combined).
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base.tables import MEMORY, SECOND_HAND
from outrigger.formula.formula import Step, amount, changed, formula
from outrigger.formula.numbers import FIRST, Element, Num, least, pick, where
from outrigger.loads.combinations import Edition
from outrigger.loads.snow.drift_height import density, drift_height
from outrigger.loads.snow.rules import (
    FINITE,
    Given,
    Segment,
    Why,
    reaction_of_taper,
    read,
    refuse_length,
    refuse_outside,
    where_it_applies,
)

WINDWARD, WINDWARD_UNCUT = "windward", "windward, not cut"
LEAST_CLEAR = 0.2  # hc / hb under which no drift forms
FARTHEST_GAP = 20.0  # ft; with 6 h, the limits of a drift across a gap: SnowDrifts.jl, second-hand
EXEMPT_722 = ((10.0, 100.0), (5.0, 300.0))  # ground snow psf and fetch ft, neither exceeded


@formula("h_b", "ft", clause="ASCE 7 7.7.1")
def balanced_height(p_s: Num, gamma_snow: Num) -> Num:
    """Height of the balanced snow on the lower roof."""
    return p_s / gamma_snow


@formula("h_c", "ft", clause="ASCE 7 7.7.1")
def clear_height(h_step: Num, h_b: Num) -> Num:
    """Clear height from the balanced snow to the upper roof."""
    return h_step - h_b


@formula("h_free", "ft", clause="ASCE 7 7.7.1")
def leeward_height(h_d: Num, l_lower: Num) -> Num:
    """Leeward drift: need not exceed 60 % of the length of the lower roof."""
    return least(h_d, 0.60 * l_lower)


@formula("h_free", "ft", clause="ASCE 7 7.7.1")
def windward_height(h_d: Num) -> Num:
    """Windward drift, from the snow of the lower roof."""
    return 0.75 * h_d


@formula("h_drift", "ft", clause="ASCE 7 7.7.1")
def height_under_roof(h_free: Num, h_c: Num) -> Num:
    """Height of the drift: not over the clear height."""
    return least(h_free, h_c)


@formula("w_drift", "ft", clause="ASCE 7 7.7.1")
def width(h_free: Num) -> Num:
    """Width of a drift lower than the clear height."""
    return 4 * h_free


@formula("w_drift", "ft", clause="ASCE 7 7.7.1")
def width_of_full_drift(h_free: Num, h_c: Num) -> Num:
    """Width of a drift that fills the clear height: the same snow, spread wider."""
    return least(4 * h_free**2 / h_c, 8 * h_c)


@formula("w_drift", "ft", clause="ASCE 7-22 7.7.1")
def windward_width_722(h_free: Num) -> Num:
    """Width of a windward drift lower than the clear height, 7-22."""
    return 8 * h_free


@formula("w_drift", "ft", clause="ASCE 7-22 7.7.1")
def windward_width_of_full_drift_722(h_free: Num, h_c: Num) -> Num:
    """Width of a windward drift that fills the clear height, 7-22."""
    return 8 * h_free**2 / h_c


@formula("h_drift", "ft", clause="ASCE 7 7.7.2")
def height_across_gap(h_d: Num, h_step: Num, s_gap: Num) -> Num:
    """Height of a leeward drift from a higher structure that stands apart."""
    return least(h_d, (6 * h_step - s_gap) / 6)


@formula("w_drift", "ft", clause="ASCE 7 7.7.2")
def width_across_gap(h_d: Num, h_step: Num, s_gap: Num) -> Num:
    """Extent of that drift, from the face of the higher structure."""
    return least(6 * h_d, 6 * h_step - s_gap)


@formula("p_d", "psf", clause="ASCE 7 7.7.1")
def peak_load(gamma_snow: Num, h_drift: Num) -> Num:
    """Drift load at the step."""
    return gamma_snow * h_drift


class Candidate(Struct, frozen=True, eq=False):
    """A drift by one rule; peak, psf, and width, ft, are 0 where the rule asks for none."""

    rule: str
    peak: Step
    width: Step
    lower_ft: Num

    def segment(self, start_ft: Num) -> Segment:
        """The load, its peak at `start_ft` from the wall line; the end of the lower roof cuts it.

        The peak is kept, the tip is lost (7.7.1).
        """
        return _triangle(self.peak.value, self.width.value, self.lower_ft, start_ft)

    @property
    def end_load_plf(self) -> Num:
        """Reaction at the step of a simple span as long as the lower roof."""
        part = self.segment(0.0)
        plf: Num = reaction_of_taper(part.psf, part.end_psf, 0.0, part.end_ft, self.lower_ft)
        return plf


class Drift(Struct, frozen=True, eq=False):
    """The drift to design for: of the candidates, the one with the largest load at the step.

    `peak` psf and `width` ft, before the end of the roof cuts it, are 0 where there is none.
    `governs` is the index of the candidate taken, element by element; `clear` the clear height, ft.
    """

    candidates: tuple[Candidate, ...]
    clear: Step
    peak: Step
    width: Step
    lower_ft: Num
    applies: Any
    why: Why
    governs: Any

    def segment(self, start_ft: Num) -> Segment:
        """The load, its peak at `start_ft` from the wall line, cut where the lower roof ends."""
        return _triangle(self.peak.value, self.width.value, self.lower_ft, start_ft)

    @property
    def steps(self) -> tuple[Step, Step, Step]:
        """What a reader follows: clear height, peak load, width."""
        return self.clear, self.peak, self.width

    def governing(self, element: Element = FIRST) -> Candidate:
        """The candidate that was taken at one element."""
        return self.candidates[int(pick(self.governs, element))]


def _triangle(peak: Num, width: Num, lower: Num, start: Num) -> Segment:
    """A triangle with its peak at the start, cut at the end of the lower roof."""
    length = least(width, lower)
    left = 1 - length / where(np.greater(width, 0), width, 1.0)
    return Segment(start, start + length, peak, peak * left)


def drift_at_step(
    edition: Edition,
    *,
    pg_psf: Given,
    ps_psf: Given,
    step_ft: Given,
    upper_ft: Given,
    lower_ft: Given,
    Is: Given | None = None,
    W2: Given | None = None,
    gap_ft: Given | None = None,
) -> Drift:
    """The drift on the lower roof, against the higher building.

    `ps_psf`: balanced snow of the lower roof; `step_ft`: lower to upper roof at the step;
    `upper_ft`, `lower_ft`: lengths of the roofs square to it, the lower one from the face of the
    higher building; `gap_ft`: clear gap between the two structures, None where they are one.

    Leeward and windward drifts as on one building (7.7.1) and, with a gap, the leeward drift
    across it (7.7.2) beside them; windward is the same by both. A windward drift of 7-22 that is
    higher than the clear height stands twice, cut there and not. The largest is taken: the standard
    has one or the other, and for a gap of inches the wider one of 7.7.2 is the safer.

    Raises:
        InputError: Is or W2 missing, or given where the edition has none.
        RangeError: a length not over 0, W2 outside what is mapped.
    """
    for what, length in (("step", step_ft), ("upper roof", upper_ft), ("lower roof", lower_ft)):
        refuse_length(what, length)
    refuse_outside("balanced snow, psf,", ps_psf, 0, FINITE, "a snow load is 0 or more")
    gamma, lower = density(pg_psf), amount(lower_ft)
    h_b = balanced_height.step(p_s=ps_psf, gamma_snow=gamma)
    h_c = clear_height.step(h_step=step_ft, h_b=h_b)
    clear = np.greater_equal(h_c.value, LEAST_CLEAR * h_b.value) & np.greater(amount(pg_psf), 0)
    # where no drift forms hc may be 0 or less: the step in its place keeps the division going
    room = h_c if np.all(clear) else changed(h_c, lambda h: where(clear, h, amount(step_ft)))
    factors: dict[str, Any] = {"pg_psf": pg_psf, "gamma_pcf": gamma, "Is": Is, "W2": W2}
    lee = drift_height(edition, fetch_ft=upper_ft, **factors)
    wind = drift_height(edition, fetch_ft=lower_ft, **factors)
    lee_counts = clear & ~_exempt(edition, pg_psf, upper_ft)
    wind_counts = clear & ~_exempt(edition, pg_psf, lower_ft)
    free = read(leeward_height.step(h_d=lee, l_lower=lower_ft))
    under = _under_roof(edition, free, room)
    listed = [_candidate("leeward", lee_counts, gamma, *under, lower)]
    free = read(windward_height.step(h_d=wind))
    under = _under_roof(edition, free, room, windward=True)
    listed.append(_candidate(WINDWARD, wind_counts, gamma, *under, lower))
    over = wind_counts & np.greater(free.value, amount(room))
    if edition == "ASCE 7-22" and np.any(over):
        listed.append(_candidate(WINDWARD_UNCUT, over, gamma, *_uncut(free), lower))
    if gap_ft is not None:
        refuse_outside("gap, ft,", gap_ft, 0, FINITE, "a gap is 0 or more")
        near = np.less(amount(gap_ft), least(FARTHEST_GAP, 6 * amount(step_ft)))
        across = _across_gap(h_d=lee, h_step=step_ft, s_gap=gap_ft)
        name = "leeward across the gap"
        listed.append(_candidate(name, lee_counts & near, gamma, *across, lower))
    numbers = {
        "step": amount(step_ft),
        "ratio": h_c.value / where(h_b.value > 0, h_b.value, 1.0),
        "pg": amount(pg_psf),
        "upper": amount(upper_ft),
        "lower": lower,
    }
    return _largest(edition, listed, h_c, clear, lee_counts | wind_counts, numbers)


def _candidate(
    rule: str, counts: Any, gamma: Step, height: Step, wide: Step, lower: Num
) -> Candidate:
    """A drift of this height and width, where it counts."""
    note = "0 where no drift forms"
    peak = read(peak_load.step(gamma_snow=gamma, h_drift=height))
    return Candidate(
        rule,
        where_it_applies(peak, counts, note),
        where_it_applies(wide, counts, note),
        lower,
    )


def _across_gap(**apart: Given) -> tuple[Step, Step]:
    """Height and width of a leeward drift across the gap (7.7.2).

    The clear height and the 60 % of 7.7.1 are not in this rule, and are not taken.
    """
    note = f"where s is under {FARTHEST_GAP:g} ft and 6 h"
    height = read(height_across_gap.step(**apart), note, SECOND_HAND)
    return height, read(width_across_gap.step(**apart), note, SECOND_HAND)


def _exempt(edition: Edition, pg_psf: Given, fetch_ft: Given) -> Any:
    """Whether 7-22 asks for no drift: little snow and a short fetch. Second-hand (7.2), no author
    on file."""
    pg, fetch = np.asarray(amount(pg_psf)), np.asarray(amount(fetch_ft))
    if edition == "ASCE 7-16":
        return np.zeros(np.broadcast_shapes(pg.shape, fetch.shape), dtype=bool)
    (little, short), (least_snow, longer) = EXEMPT_722
    return ((pg <= little) & (fetch <= short)) | ((pg <= least_snow) & (fetch <= longer))


def _under_roof(
    edition: Edition, free: Step, h_c: "Num | Step", windward: bool = False
) -> tuple[Step, Step]:
    """Height and width of a drift under the upper roof (7.7.1).

    7-22 does not say how wide a windward drift is that fills the clear height: its snow is kept,
    as in the other widths, without the limit of 8 hc. One of two readings: see `_uncut`.
    """
    new = windward and edition == "ASCE 7-22"
    height = read(height_under_roof.step(h_free=free, h_c=h_c))
    low = np.less_equal(free.value, amount(h_c))
    fits = read((windward_width_722 if new else width).step(h_free=free))
    if np.all(low):
        return height, fits
    if new:
        full = windward_width_of_full_drift_722.step(h_free=free, h_c=h_c)
        full = read(full, "one reading of two: cut at hc, no limit of 8 hc", MEMORY)
    else:
        full = read(width_of_full_drift.step(h_free=free, h_c=h_c))
    if not np.any(low):
        return height, full
    value, note = where(low, fits.value, full.value), "the first where the drift fits under hc"
    inputs = {"fits": fits, "full": full}
    return height, Step("w_drift", value, "ft", f"{edition} 7.7.1", note, inputs=inputs)


def _uncut(free: Step) -> tuple[Step, Step]:
    """Height and width of a windward drift that the clear height does not cut, 7-22.

    The other reading: as wide as one that fits, and as high, so more of it lies at the wall line.
    Source: runtosolve/SnowDrifts.jl, src/lower_roof_drifts.jl, which says so in words as a change
    from 7-16; second-hand.
    """
    note = "one reading of two: not cut at hc"
    height = read(replace(free, symbol="h_drift"), note, SECOND_HAND)
    return height, read(windward_width_722.step(h_free=free), note, SECOND_HAND)


def _largest(
    edition: Edition,
    candidates: Sequence[Candidate],
    h_c: Step,
    clear: Any,
    counts: Any,
    numbers: dict[str, Num],
) -> Drift:
    """Of the candidates, element by element, the one with the largest load at the step."""
    loads = np.stack(np.broadcast_arrays(*[one.end_load_plf for one in candidates]))
    governs = np.argmax(loads, axis=0)
    rules = [one.rule for one in candidates]
    note = f"largest load at the step, of {', '.join(rules)}"

    def chosen(steps: dict[str, Step], symbol: str, unit: str) -> Step:
        value = np.choose(governs, [step.value for step in steps.values()])
        return Step(symbol, value[()], unit, f"{edition} 7.7", note, inputs=steps)

    said = "drift applies: step {step} ft, hc/hb {ratio}; "
    why = Why(
        [
            (np.equal(numbers["pg"], 0), "no drift: no ground snow"),
            (~np.asarray(clear), "no drift: step {step} ft, hc/hb {ratio} is under 0.2"),
            (
                ~np.asarray(counts),
                "no drift: ground snow {pg} psf on {upper} ft of upper and {lower} ft of lower "
                "roof is exempt in ASCE 7-22",
            ),
            *((np.equal(governs, i), f"{said}{rule} governs") for i, rule in enumerate(rules)),
        ],
        numbers,
    )
    return Drift(
        candidates=tuple(candidates),
        clear=h_c,
        peak=chosen({one.rule: one.peak for one in candidates}, "p_d", "psf"),
        width=chosen({one.rule: one.width for one in candidates}, "w_drift", "ft"),
        lower_ft=numbers["lower"],
        applies=counts,
        why=why,
        governs=governs,
    )
