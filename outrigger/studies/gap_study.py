"""What a range of gaps answers: a row for each, what governs where, the largest that works."""

from functools import cached_property

from msgspec import Struct, field

from outrigger.cases.model import Case
from outrigger.formula.check import Status
from outrigger.formula.kind import Group
from outrigger.studies import search
from outrigger.verdict.back_span import ShortBack
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import Unknown


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
