"""One case over a range of gaps: ratios, what governs, the largest gap that works, what each needs.

Every number comes from `design`, run for all gaps at once; where an answer turns is searched
exactly. The limit of the case file on the gap does not hold here.
"""

from collections.abc import Callable, Hashable, Mapping
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.actions.geometry import geometry
from outrigger.actions.places import BACK, place_name
from outrigger.base.errors import InputError
from outrigger.base.units import SIXTEENTH
from outrigger.cases.batch import Batch, batch_of
from outrigger.cases.fields import LEAST_BACK_SPAN_IN
from outrigger.cases.model import Case
from outrigger.cases.paths import with_numbers
from outrigger.checks.hold_downs import RATED, hold_downs
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.check import Status
from outrigger.formula.kind import Group, Link
from outrigger.formula.numbers import Array, Bools
from outrigger.studies import search
from outrigger.studies.screen import Index, Marks, Screen, governing
from outrigger.verdict.back_span import ShortBack, short_back, short_backs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs, design
from outrigger.verdict.unknown import OpenInEach, Unknown, head
from outrigger.verdict.unsaid import not_covered

MOST_GAP_IN = 48.0  # no farther: the search, and the range asked for
MOST_GAPS = 10_000
BACK_SPAN_STEPS_IN = 6.0  # first look; a stretch that works and is shorter is not seen
LONGER_IN = 24.0  # looked at at once, for a back span that leaves no more open
LOADED_ROWS = 300  # asked at once, of one check alone
CLIP_STEPS_LB = np.array([1.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0])
CLEAR_OF_CLIPS_IN = 1.0  # between the back and the next hold-down

Key = tuple[Link, str]  # what is checked, and where
Only = frozenset[Hashable]  # combinations


class GapRow(Struct, frozen=True, eq=False):
    """One gap: lengths in, forces lb.

    ratios: the largest of the checks of one id, None where none is known. `least_back_span`: None
    where no back span up to 20 ft works; `least_more`: what is missing with it and not in the case
    as stated, in words, where more is with every one that works; `caution`,
    `least_caution`: where the back span, or the least one, is short beside the arm at that gap.
    `verdict`: that of `check`; `open`: what is open in it; `sure`: it works, with nothing missing
    that a load or a strength hangs on; `more`: what is missing there and not in the case as stated,
    in words. `pulls`: largest uplift on one clip by place; `listed`: by place of rated clips the
    least listed value of the column read that is enough, in whole pounds, None where 8,000 lb is
    not.
    """

    gap: float
    back_span: float
    length: float
    works: bool
    verdict: Status
    open: tuple[str, ...]
    sure: bool
    more: tuple[str, ...]
    ratios: dict[Group, float | None]
    governing: CheckResult
    pulls: dict[str, float]
    caution: ShortBack | None = None
    least_back_span: float | None = None
    least_caution: ShortBack | None = None
    least_more: tuple[str, ...] = ()
    listed: dict[str, float | None] = field(default_factory=dict)


class Stretch(Struct, frozen=True, eq=False):
    """Gaps from start to end, in, over which one check governs."""

    governing: CheckResult
    start: float
    end: float


class GapStudy(Struct, frozen=True, eq=False, dict=True):
    """A case over a range of gaps.

    `before`: the gap of the file, where the command sets another; `cut`: pieces are cut already,
    for that gap, and the back span is what a wider gap leaves. `largest`: where the case stops
    working for good, None where no gap works; `least`: the smallest gap of the stretch that ends
    there, None where everything smaller works too; `beyond`: what decides just past it, or at the
    smallest gap where none works. `no_room`: the widest gap that leaves a cut piece a back span;
    `largest_caution`: where the back span is short beside the arm at the largest gap. `more`: what
    is missing at the largest gap and not in the case as stated, clips off the framing say, since a
    cut piece has less back span there; `sure`: then the widest gaps at which nothing more is, from
    and to, of sixteenths and those of the range, None where there is none.
    """

    case: Case
    asked: Design
    before: float | None
    cut: bool
    rows: list[GapRow]
    stretches: list[Stretch]
    largest: search.Turn | None
    least: float | None
    beyond: CheckResult | None
    no_room: float | None
    largest_caution: ShortBack | None = None
    more: tuple[str, ...] = ()
    sure: tuple[float, float] | None = None

    @property
    def works(self) -> bool:
        """Some gap of the range works, and nothing more is open there than in the case."""
        return any(row.works and not row.more for row in self.rows)

    @cached_property
    def unknown(self) -> Unknown:
        """What is open in it."""
        return Unknown(self.asked)

    @property
    def answer(self) -> Status:
        """Pass when some gap of the range works; open: cannot say, for what is missing."""
        known = all(row.verdict == "fail" for row in self.rows) and self.largest is None
        if self.unknown.missing and not known:
            return "open"
        if self.works:
            return "pass"
        return "open" if any(row.works for row in self.rows) else "fail"

    @property
    def open(self) -> list[str]:
        """What is missing at some gaps alone, each once."""
        said = [*self.more, *(text for row in self.rows for text in row.more)]
        return list(dict.fromkeys(said))

    @property
    def stops(self) -> float | None:
        """The widest gap that can be said to work, in; None: there is none."""
        if self.largest is None or self.more:
            return None if self.sure is None else self.sure[1]
        return self.largest.last


def gaps(start: float, stop: float, step: float) -> Array:
    """Gaps from start to stop, in, each exactly as it would be typed.

    Raises:
        InputError: no range, or more than 10,000 gaps.
    """
    if not 0 < start <= stop <= MOST_GAP_IN or step <= 0:
        raise InputError(f"--from, --to, --step: 0 < from <= to <= {MOST_GAP_IN:g} in, step > 0.")
    first, last, by = (Fraction(v).limit_denominator(10**6) for v in (start, stop, step))
    if by == 0:
        raise InputError(f"--step {step:g} in: smaller than a tape shows. Take a larger step.")
    count = int((last - first) / by) + 1
    if count > MOST_GAPS:
        raise InputError(f"--step: {count:,} gaps; at most {MOST_GAPS:,}. Take a larger step.")
    return np.array([float(first + i * by) for i in range(count)])


def beside(values: Array, width: float) -> Array:
    """The gaps of a range, and one more among them where it is none of them."""
    return np.unique(np.append(values, width))


def fields_of(case: Case, before: float | None, cut: bool) -> search.Fields:
    """What follows from a gap: itself, and for cut pieces the back span that it leaves."""
    if not cut:
        return lambda values: {"gap.width": values}
    made_for = case.gap.width if before is None else before
    plan, back = geometry(Batch(case)).plan, case.outrigger.back_span

    def fields(values: Array) -> dict[str, Array]:
        return {"gap.width": values, "outrigger.back_span": back - (values - made_for) / plan}

    return fields


def at_gap(case: Case, fields: search.Fields, width: float) -> Case:
    """The case with one gap, in."""
    at = fields(np.array([width]))
    return with_numbers(case, {path: float(column[0]) for path, column in at.items()})


def study(
    case: Case,
    values: Array,
    *,
    before: float | None = None,
    cut: bool = False,
    told: Callable[[int], None] | None = None,
) -> GapStudy:
    """A case over gaps, in, ascending; `told` hears how many are done.

    Raises:
        InputError: cut pieces leave no back span at the smallest gap.
    """
    fields = fields_of(case, before, cut)
    shortest = _shortest_back_span(case)
    no_room = None
    if cut:
        made_for = case.gap.width if before is None else before
        spare = (case.outrigger.back_span - shortest) * geometry(Batch(case)).plan
        no_room = made_for + spare
        values = values[values <= no_room]
        if not len(values):
            raise InputError(
                f"--cut: even the smallest gap leaves a back span under {shortest:g} in."
            )
    as_asked = at_gap(case, fields, case.gap.width)
    asked = design(case if as_asked == case else as_asked)  # it knows what it was read from
    rows, keys, only = _rows(asked, fields, values, told)
    least, least_more = _least_back_spans(asked, only, values, shortest)
    arms = np.broadcast_to(geometry(batch_of(case, fields(values))).arm.ravel(), len(values))
    listed = _listed(case, fields, values)
    rows = [
        replace(
            row,
            caution=short_back(row.back_span, float(arms[i])),
            least_back_span=least[i],
            least_caution=None if (back := least[i]) is None else short_back(back, float(arms[i])),
            least_more=least_more[i],
            listed={p: needed[i] if row.pulls[p] else 0.0 for p, needed in listed.items()},
        )
        for i, row in enumerate(rows)
    ]
    every = np.arange(SIXTEENTH, min(MOST_GAP_IN, no_room or MOST_GAP_IN) + 1e-9, SIXTEENTH)
    largest, least_gap = _ends(by_gap(case, only, fields), every)
    at = every[0] if largest is None else largest.first
    beyond = None
    if np.isfinite(at):
        beyond = slim(design(at_gap(case, fields, at)).closest)
    stretches = _stretches(case, fields, rows, keys)
    widest = None if largest is None else short_backs(case, fields(np.array([largest.last])))[0]
    more = () if largest is None else _more(asked, fields(np.array([largest.last])))[0] or ()
    return GapStudy(
        case=case,
        asked=asked,
        before=before,
        cut=cut,
        rows=rows,
        stretches=stretches,
        largest=largest,
        least=least_gap,
        beyond=beyond,
        no_room=no_room,
        largest_caution=widest,
        more=more,
        sure=_surely(asked, fields, np.union1d(every, values)) if more else None,
    )


def _rows(
    asked: Design, fields: search.Fields, values: Array, told: Callable[[int], None] | None
) -> tuple[list[GapRow], list[Key], Only]:
    """The rows without their needs, and what governs each: the check, and the combinations of all
    checks of all rows."""
    rows, case, only = [], asked.case, governing(asked.worked)
    pulls = _pulls(case, fields, values)
    for part, result in search.designs(case, fields(values), told):
        width = part.stop - part.start
        back, length = (np.broadcast_to(v.ravel(), (width,))
                        for v in (result.shape.back_span, result.shape.length))  # fmt: skip
        largest = {
            group: np.broadcast_to(of, (width,)) for group, of in largest_of_each(result).items()
        }
        said = OpenInEach(result)
        only |= governing(result.worked)
        rows += [
            GapRow(
                gap=float(values[part][i]),
                back_span=float(back[i]),
                length=float(length[i]),
                works=bool(result.works[i]),
                verdict=said.verdict(i),
                open=said.keys(i),
                sure=bool(result.works[i]) and not said.missing(i),
                more=said.more(i, asked) if result.works[i] else (),
                ratios={group: known(float(of[i])) for group, of in largest.items()},
                governing=slim(result.closest(i)),
                pulls={place: float(pull[part][i]) for place, pull in pulls.items()},
            )
            for i in range(width)
        ]
    return rows, [key_of(row.governing) for row in rows], only


def _more(asked: Design, swept: Mapping[str, Array]) -> list[tuple[str, ...] | None]:
    """Of each case what is missing and not in the case as stated; None: it does not work."""
    found = list[tuple[str, ...] | None]()
    for part, result in search.designs(asked.case, swept):
        said = OpenInEach(result)
        found += [
            said.more(i, asked) if result.works[i] else None for i in range(part.stop - part.start)
        ]
    return found


def _surely(asked: Design, fields: search.Fields, every: Array) -> tuple[float, float] | None:
    """The widest stretch of some gaps, ascending, that works with nothing more open than in the
    case as stated."""
    held = [more == () for more in _more(asked, fields(every))]
    if True not in held:
        return None
    last = first = len(held) - 1 - held[::-1].index(True)
    while first and held[first - 1]:
        first -= 1
    return float(every[first]), float(every[last])


def _pulls(case: Case, fields: search.Fields, values: Array) -> dict[str, Array]:
    """Largest uplift on one clip of each place at any mark, lb, (gaps,)."""
    found: dict[str, Array] = {}
    for part, member, owner in search.every_load(case, fields(values)):
        for place, pull in pulls_of(member).items():
            largest = found.setdefault(place, np.zeros(len(values)))
            np.maximum.at(largest[part], owner, pull)
    return found


def key_of(row: CheckResult) -> Key:
    """What names a check among the checks of a design."""
    return row.check.link, row.check.place


def slim(row: CheckResult) -> CheckResult:
    """A row without the arrays and steps of its design, which it would keep alive."""
    check = row.check
    own = check.combinations[row.column : row.column + 1]
    light = replace(
        check, demand=row.demand, capacity=row.capacity,
        combinations=own, steps=tuple(replace(s, value=0.0, inputs={}) for s in check.steps),
    )  # fmt: skip
    return replace(row, check=light, case=0, column=0)


def largest_of_each(result: Designs) -> dict[Group, Array]:
    """The largest ratio of each group, (cases,) or (1,); NaN where none of its checks has one."""
    found = dict[Group, Array]()
    for check, ratios in zip(result.checks, result.ratios, strict=True):
        finite = np.where(np.isfinite(ratios), ratios, np.nan)
        found[check.group] = np.fmax(found.get(check.group, finite), finite)
    return found


def known(number: float) -> float | None:
    """A number; None for NaN."""
    return None if np.isnan(number) else number


def pulls_of(member: LoadedMember) -> dict[str, Array]:
    """Largest uplift on one clip of each place, lb, (cases,) or (1,)."""
    return {
        place: np.max(table / member.batch.clips(member.holds[place]), axis=1)
        for place, table in member.clips.uplift.items()
        if place in member.holds
    }


def _shortest_back_span(case: Case) -> float:
    """The back span must reach past every hold-down between back and edge."""
    stated = [hold.at for hold in case.hold_down if isinstance(hold.at, float)]
    inner = [at for at in stated if place_name(at, case.outrigger.back_span) != BACK]
    return max([LEAST_BACK_SPAN_IN, *(at + CLEAR_OF_CLIPS_IN for at in inner)])


def _least_back_spans(
    asked: Design, only: Only, values: Array, shortest: float
) -> tuple[list[float | None], list[tuple[str, ...]]]:
    """The least back span that works at each gap, to a sixteenth, with nothing more missing than in
    the case as stated if there is one: clips miss the framing at some. And what more is missing
    with it."""

    def swept(which: Index, backs: Array) -> dict[str, Array]:
        return {"gap.width": values[which], "outrigger.back_span": backs}

    def ask(which: Index, backs: Array, look: search.Few | None) -> Marks:
        return search.every_mark(asked.case, swept(which, backs), look)

    first = np.ceil(shortest / SIXTEENTH) * SIXTEENTH
    steps = np.arange(first, search.MOST_BACK_SPAN_IN + SIXTEENTH, BACK_SPAN_STEPS_IN)
    screen = Screen(only, ask)
    found = screen.least_of_each(len(values), steps, SIXTEENTH)
    works = np.flatnonzero(~np.isnan(found))
    more = dict(zip(works.tolist(), _more(asked, swept(works, found[works])), strict=True))
    for start in np.arange(0.0, search.MOST_BACK_SPAN_IN, LONGER_IN):
        _longer(asked, swept, screen, found, more, start)
    return [known(float(back)) for back in found], [more.get(i) or () for i in range(len(found))]


def _longer(
    asked: Design,
    swept: Callable[[Index, Array], dict[str, Array]],
    screen: Screen,
    found: Array,
    more: dict[int, tuple[str, ...] | None],
    start: float,
) -> None:
    """Where more is open with the back span that was found, one that is longer, by no less than
    the start and up to 2 ft more, with nothing more open."""
    left = np.array([i for i, said in more.items() if said], dtype=np.intp)
    longer = start + np.arange(SIXTEENTH, LONGER_IN + SIXTEENTH, SIXTEENTH)
    which, backs = np.repeat(left, len(longer)), np.add.outer(found[left], longer).ravel()
    lands = np.isin(backs, _covered(asked, np.unique(backs)))
    which, backs = which[lands], backs[lands]
    held, _ = screen.few(which, backs)
    queue = [iter(backs[held & (which == i)].tolist()) for i in left]
    while now := [(i, back) for i, own in zip(left, queue, strict=True)
                  if more[i] and (back := next(own, None)) is not None]:  # fmt: skip
        at, tried = np.array([i for i, _ in now]), np.array([back for _, back in now])
        for (i, back), said in zip(now, _more(asked, swept(at, tried)), strict=True):
            if said == ():
                found[i], more[i] = back, ()


def _covered(asked: Design, backs: Array) -> Array:
    """The back spans at which nothing is left uncomputed that is not in the case as stated."""
    before = {head(text) for text in asked.not_covered}
    cases = (with_numbers(asked.case, {"outrigger.back_span": back}) for back in backs.tolist())
    found = [{head(text) for text in not_covered(case)} <= before for case in cases]
    return backs[np.array(found, dtype=bool) & (backs <= search.MOST_BACK_SPAN_IN)]


def _listed(case: Case, fields: search.Fields, values: Array) -> dict[str, list[float | None]]:
    """By place of rated clips: the least listed value that is enough at each gap, whole pounds."""
    found: dict[str, list[float | None]] = {}
    for hold in case.hold_down:
        place = place_name(hold.at, case.outrigger.back_span)
        ratio, unit = _clip_ratio(case, fields(values), place, len(values))
        if hold.rated_uplift is None or unit is None:
            continue
        if unit == "lb" and hold.rated_uplift:  # pull alone: it goes with one over the listed value
            needed = np.ceil(hold.rated_uplift * ratio)
            needed = np.where(needed <= CLIP_STEPS_LB[-1], needed, np.nan)
        else:
            path = f"hold_down[{hold.name}].rated_uplift"
            needed = _searched_listing(case, fields(values), path, place, len(values))
        found[place] = [known(float(one)) for one in needed]
    return found


def _clip_ratio(
    case: Case, swept: Mapping[str, Array], place: str, cases: int
) -> tuple[Array, str | None]:
    """Largest ratio of a rated clip at any mark, (cases,), and its unit; None: no such check."""
    ratio, unit = np.zeros(cases), None
    for part, member, owner in search.every_load(case, swept):
        for check in hold_downs(member):
            if (check.link, check.place) == (RATED, place):
                unit = check.unit
                np.maximum.at(ratio[part], owner, check.largest_ratio)
    return ratio, unit


def _searched_listing(
    case: Case, at_gaps: Mapping[str, Array], path: str, place: str, cases: int
) -> Array:
    """The least listing by search, where a side force takes its own part of the clip."""

    def answer(which: NDArray[np.intp], pounds: Array) -> Bools:
        swept = {name: column[which] for name, column in at_gaps.items()}
        ratio, _ = _clip_ratio(case, {**swept, path: pounds}, place, len(pounds))
        return ratio <= 1

    return search.least_of_each(answer, cases, CLIP_STEPS_LB, 1.0, LOADED_ROWS)


def _stretches(
    case: Case, fields: search.Fields, rows: list[GapRow], keys: list[Key]
) -> list[Stretch]:
    """What governs over the range, and the exact gaps where it changes."""
    found, start = [], rows[0].gap
    governing = rows[0].governing
    for (before, _), (row, key) in pairwise(zip(rows, keys, strict=True)):
        at = before.gap
        while key_of(governing) != key:
            lead = _led_by(case, fields, key_of(governing))
            turn = search.turns(lead, np.array([at]), np.array([row.gap]))[0]
            found.append(Stretch(governing, start, turn.last))
            at = start = turn.first
            governing = slim(design(at_gap(case, fields, at)).closest)
    return [*found, Stretch(governing, start, rows[-1].gap)]


def _led_by(case: Case, fields: search.Fields, key: Key) -> search.Judge:
    """Whether one check governs; and the ratio of the one that does over its own."""

    def judge(_: NDArray[np.intp], values: Array) -> tuple[Bools, Array]:
        held, over = np.empty(len(values), dtype=bool), np.full(len(values), np.nan)
        for part, result in search.designs(case, fields(values)):
            named = np.array([(c.link, c.place) == key for c in result.checks])
            held[part] = named[result.leading]
            deciding = result.worked.deciding
            own, rest = (np.nan_to_num(deciding[rows]).max(axis=0, initial=0.0)
                         for rows in (named, ~named))  # fmt: skip
            over[part] = np.divide(rest, own, out=over[part], where=own > 0)
        return held, over

    return judge


def by_gap(case: Case, only: Only, fields: search.Fields) -> Screen:
    """Searches over gaps; `only`: the combinations asked by first."""

    def ask(_: Index, values: Array, look: search.Few | None) -> Marks:
        return search.every_mark(case, fields(values), look)

    return Screen(only, ask)


def _ends(screen: Screen, every: Array) -> tuple[search.Turn | None, float | None]:
    """Where it stops working for good, None: it works at none of them; and the smallest gap of the
    stretch that ends there, None: from the first. Both in one search."""
    held, _ = screen.judged(np.arange(len(every)), every)
    if not np.any(held):
        return None, None
    last = int(np.flatnonzero(held)[-1])
    failing = np.flatnonzero(~held[:last])[-1:]
    beyond = np.array([last][: len(every) - 1 - last], dtype=np.intp)  # none at the end
    holds, fails = (np.hstack(ends) for ends in ((beyond, failing + 1), (beyond + 1, failing)))
    found = screen.turns(every[holds], every[fails])
    largest = found[0] if len(beyond) else search.Turn(float(every[last]), np.inf)
    return largest, found[-1].last if len(failing) else None
