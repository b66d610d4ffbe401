"""Which outriggers work: sizes, grades, spacings and back spans, every one a whole design.

Ranked by lumber per foot of wall, then by clips; what does not follow the house framing comes last.
Where no single piece of the stated thickness works, pairs and thicker pieces are tried too.
What works is what no check fails; what is open in the case stays open.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from itertools import groupby

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import TRADE_SPACINGS_IN, geometry, truss_spacing
from outrigger.base.units import INCHES_PER_FOOT
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array
from outrigger.marks.of_case import spacings_laid_out
from outrigger.studies.builds import Built, Family, families, heavier, named, place
from outrigger.studies.reserve import back_span_lines, least_back_span
from outrigger.verdict.back_span import ShortBack, short_back
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design
from outrigger.verdict.unknown import OpenInEach, Unknown
from outrigger.wood import dressed

TIMES_ARM, BACK_STEP_IN = 2.0, 6.0


class Choice(Struct, frozen=True, eq=False):
    """An outrigger that works.

    board_feet and clips are per foot of wall; `grades`: those that work, the lowest first;
    `grade`: the stated one where it works, else the lowest; `settings`: what it changes in the
    case, as `name=value`; `row`: its closest check; `off_framing`: framing runs beside the
    outriggers, but not at this spacing; `deep`: deeper than the roof insulation; `verdict`: that
    of `check`, `open`: what is open in it; `sure`: nothing is missing that a load or a strength
    hangs on; `caution`: where the back span is short beside the arm.
    """

    species: str
    grades: tuple[str, ...]
    grade: str
    plies: int
    size: str
    spacing: float
    back_span: float
    board_feet: float
    clips: float
    row: CheckResult
    settings: tuple[str, ...]
    off_framing: bool
    deep: bool
    verdict: Status
    open: tuple[str, ...]
    sure: bool
    caution: ShortBack | None


class Rejected(Struct, frozen=True, eq=False):
    """Grades of a size of which nothing works: the closest of them, and the check that stops it."""

    species: str
    grades: tuple[str, ...]
    plies: int
    size: str
    every: bool  # no grade of this size works
    grade: str
    spacing: float
    back_span: float
    row: CheckResult
    caution: ShortBack | None


class Sizes(Struct, frozen=True, eq=False, dict=True):
    """What works, ranked, and what does not, with the reason. `families`: what was tried; `more`:
    tried since nothing of those works; `whole`: each roof truss lands whole on one outrigger, so
    that nothing is gained by putting them closer."""

    asked: Design
    tried: int
    families: list[str]
    more: list[str]
    whole: bool
    spacings: Array
    back_spans: Array
    choices: list[Choice]
    rejected: list[Rejected]

    def __repr__(self) -> str:
        return f"<Sizes: {len(self.choices)} of {self.tried} tried work>"

    @cached_property
    def shortest(self) -> list[Choice]:
        """Of each species, size and spacing the choice with the shortest back span, as ranked."""
        seen: dict[tuple[str, int, str, float], Choice] = {}
        for one in self.choices:
            seen.setdefault((one.species, one.plies, one.size, one.spacing), one)
        return list(seen.values())

    @cached_property
    def unknown(self) -> Unknown:
        """What is open in the case."""
        return Unknown(self.asked)

    @property
    def best(self) -> Choice | None:
        """The least lumber that works with nothing missing."""
        return next((one for one in self.shortest if one.sure), None)

    @property
    def answer(self) -> Status:
        """Pass when something works; open: cannot say, for what is missing."""
        if not self.choices:
            return self.unknown.answer(works=False)
        return "open" if self.best is None else "pass"

    @property
    def closest(self) -> Rejected | None:
        """Of what does not work, the closest."""
        return min(self.rejected, key=lambda one: _ratio(one.row), default=None)


def sizes(
    case: Case, species: Sequence[str] = (), told: Callable[[int], None] | None = None
) -> Sizes:
    """Every size, grade, spacing and back span that works; `told` hears how many are done.

    Species: full names; none: that of the case. Sizes of the stated thickness and plies; grades of
    the kind that the case states (visually graded, machine rated, timber). Where none of them
    works, one ply more, and 3 in and 4 in thick.

    Raises:
        InputError: not a species.
    """
    asked = design(case)
    spacings, backs = trade_spacings(case), back_spans(case)
    grid = {
        "outrigger.spacing": np.repeat(spacings, len(backs)),
        "outrigger.back_span": np.tile(backs, len(spacings)),
    }
    done = 0

    def run(built: Sequence[Built]) -> list[Family]:
        nonlocal done
        found = list[Family]()
        for one in families(asked, species, grid, built):
            found.append(one)
            done += len(one.works)
            if told is not None:
                told(done)
        return found

    stated = (case.outrigger.plies, asked.wood.size.nominal_b)
    found, more = run([stated]), list[Family]()
    if not any(one.works.any() for one in found):
        more = run(heavier(*stated))
    choices = sorted(_choices(asked, [*found, *more]), key=_rank)
    return Sizes(
        asked=asked,
        tried=done,
        families=named(found),
        more=named(more),
        whole=bool(more) and _whole(case, spacings),
        spacings=spacings,
        back_spans=backs,
        choices=choices,
        rejected=list(_rejected(found if choices else [*found, *more])),
    )


def _whole(case: Case, spacings: Array) -> bool:
    """Whether roof members stand farther apart than some outriggers, so that each lands whole on
    one of them; along a layout their places may say otherwise."""
    apart = truss_spacing(case)
    bears = case.garage_roof.bearing and case.garage_roof.line is None and case.layout is None
    return bears and isinstance(apart, float) and bool(np.any(spacings < apart))


def trade_spacings(case: Case) -> Array:
    """Trade spacings and the stated one, in, along which a layout stands. Cr asks for 24 in at
    most, and so do these."""
    every = np.unique([*TRADE_SPACINGS_IN, case.outrigger.spacing])
    return spacings_laid_out(case, every)


def back_spans(case: Case) -> Array:
    """Back spans that reach a framing line, in, and the stated one.

    Framing across the outriggers has lines at its spacing from the edge; along them, or not given,
    each half foot is one. None but the stated one is under twice the arm, which is cautioned.
    """
    least = max(TIMES_ARM * float(np.max(geometry(Batch(case)).arm)), least_back_span(case))
    return np.unique([*back_span_lines(case, BACK_STEP_IN, least), case.outrigger.back_span])


def _choices(asked: Design, found: list[Family]) -> Iterator[Choice]:
    """One choice for each size, spacing and back span at which some grade works."""
    case = asked.case
    for (species, plies, size), group in groupby(found, key=lambda one: one.alike):
        family = list(group)
        opens = dict[tuple[str, int], OpenInEach]()
        for i in range(len(family[0].works)):
            working = [one for one in reversed(family) if one.works[i]]  # lowest grade first
            if not working:
                continue
            stated = [one for one in working if one.grade.grade == asked.wood.row.grade]
            least = (stated or working)[0]
            result, at = least.found[i]
            shape, section = result.shape, result.worked.wood.size
            spacing, back, arm = place(result, at)
            key = least.grade.grade, id(result)
            if key not in opens:
                opens[key] = OpenInEach(result, least.case)
            said = opens[key]
            changes = {"species": species, "grade": least.grade.grade, "size": size}
            heavier = [f"outrigger.plies={plies}"] if plies != case.outrigger.plies else []
            clips = sum(hold.count for hold in case.hold_down)
            yield Choice(
                species=species,
                grades=tuple(one.grade.grade for one in working),
                grade=least.grade.grade,
                plies=plies,
                size=size,
                spacing=spacing,
                back_span=back,
                board_feet=board_feet_per_foot(section, plies, float(shape.length[at, 0]), spacing),
                clips=clips * INCHES_PER_FOOT / spacing,
                row=result.closest(at),
                settings=(*_settings(asked, changes, spacing, back), *heavier),
                off_framing=_off_framing(case, spacing) and bool(said.not_covered(at)),
                deep=case.gap.roof_insulation is not None and section.d > case.gap.roof_insulation,
                verdict=said.verdict(at),
                open=said.keys(at),
                sure=not said.missing(at),
                caution=short_back(back, arm),
            )


def board_feet_per_foot(size: dressed.Size, plies: int, length: float, spacing: float) -> float:
    """Board feet of one foot of wall: nominal inches x nominal inches x feet / 12; length in."""
    board = size.nominal_b * size.nominal_d / INCHES_PER_FOOT * length / INCHES_PER_FOOT
    return plies * board / (spacing / INCHES_PER_FOOT)


def _off_framing(case: Case, spacing: float) -> bool:
    """Whether house framing runs beside the outriggers and this spacing does not follow it."""
    house = case.house_roof
    if not house.framing_parallel or house.framing_spacing is None or house.framing_at:
        return False
    return spacing % house.framing_spacing != 0


def _settings(asked: Design, changes: dict[str, str], spacing: float, back: float) -> Iterator[str]:
    """What differs from the case, as `name=value`."""
    wood, piece = asked.wood, asked.case.outrigger
    now = {"species": wood.row.species, "grade": wood.row.grade, "size": wood.size.name}
    for name, value in changes.items():
        if value != now[name]:
            yield f"{name}={value}"
    if spacing != piece.spacing:
        yield f"spacing={spacing:.10g}in"
    if back != piece.back_span:
        yield f"back_span={back:.10g}in"


def _rank(one: Choice) -> tuple[bool, float, float, float]:
    return one.off_framing, one.board_feet, one.clips, one.back_span  # a pair before a 4x: as found


def _ratio(row: CheckResult) -> float:
    return np.inf if row.ratio is None else row.ratio


def _rejected(found: list[Family]) -> Iterator[Rejected]:
    """Of each size the grades of which nothing works, together."""
    for (species, plies, size), group in groupby(found, key=lambda one: one.alike):
        family = list(group)
        failed = [(one, one.closest) for one in family if one.closest is not None]
        if not failed:
            continue
        best, closest = min(failed, key=lambda one: one[1].ratio)
        yield Rejected(
            species=species,
            grades=tuple(one.grade.grade for one, _ in failed),
            plies=plies,
            size=size,
            every=len(failed) == len(family),
            grade=best.grade.grade,
            spacing=closest.spacing,
            back_span=closest.back_span,
            row=closest.row,
            caution=short_back(closest.back_span, closest.arm),
        )
