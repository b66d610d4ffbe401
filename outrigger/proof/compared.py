"""One value as its source prints it beside the number of the program."""

from collections.abc import Iterable, Sequence

from msgspec import Struct

from outrigger.base.tables import DERIVED, MEMORY, OTHER_EDITION, SECOND_HAND, SEEN

FITTED = "FITTED"  # a number that the source does not print was chosen so that this one comes out
PUBLISHED, RECALLED, DIFFERS = "published", "recalled", "differs"
KINDS = (PUBLISHED, "derived", "fitted", RECALLED, DIFFERS)
_KIND_OF = {
    SEEN: PUBLISHED,
    SECOND_HAND: PUBLISHED,
    OTHER_EDITION: PUBLISHED,
    DERIVED: "derived",
    FITTED: "fitted",
    MEMORY: RECALLED,
}
STATUSES = tuple(_KIND_OF)
HAIR = 1e-9  # of a half that rounds either way: 931.5 prints as 932


class Source(Struct, frozen=True):
    """Who printed it: author or body, title, edition; how it was read."""

    name: str
    author: str
    title: str
    edition: str
    read: str


class Compared(Struct, frozen=True):
    """A value of a source and the program's.

    `at`: table, example or page; `allowed`: half of the last digit, unless `why` says why more;
    `differs`: why the program knowingly has another number, which then is not counted as the
    source's; `of`: the worked example that it is of.
    """

    group: str
    source: Source
    at: str
    what: str
    printed: str
    value: float
    here: float
    unit: str
    status: str
    allowed: float
    why: str = ""
    differs: str = ""
    of: str = ""

    @property
    def off(self) -> float:
        """How far off, as a share of what is allowed: up to 1 is within it."""
        return abs(self.here - self.value) / self.allowed

    @property
    def within(self) -> bool:
        """Within the rounding of the source, or within what is said beside it; never NaN."""
        return self.off <= 1.0

    @property
    def kind(self) -> str:
        """Published, derived, fitted, recalled or known to differ: counted apart."""
        return DIFFERS if self.differs else _KIND_OF[self.status]


def number(text: str) -> float:
    """A number as printed: 1,776 or 12-6, feet and inches."""
    feet, dash, inches = text.partition("-")
    if dash and feet:
        return 12.0 * int(feet) + int(inches)
    return float(text.replace(",", ""))


def half(text: str) -> float:
    """Half of the last digit that is printed: of 1,776 it is 0.5."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2]) + HAIR


def farthest(text: str, values: Iterable[float]) -> float:
    """Of the numbers of all that one printed value is for, the one that is farthest off."""
    printed = number(text)
    return max(map(float, values), key=lambda value: abs(value - printed))


def of_kind(rows: Sequence[Compared], kind: str) -> list[Compared]:
    """The values that are counted as one kind."""
    return [row for row in rows if row.kind == kind]


def worst(rows: Sequence[Compared]) -> Compared | None:
    """What is farthest off, of all that is held to its source."""
    held = [row for row in rows if not row.differs]
    return max(held, key=lambda row: row.off, default=None)
