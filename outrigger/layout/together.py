"""What is bought for several runs together: boards of each lumber and length, all else by what it
is, each count with the reasons it is the sum of."""

from collections import Counter
from collections.abc import Sequence

from msgspec import Struct

from outrigger.layout.layout import LaidOut

Lumber = tuple[str, float]  # size, species and grade; stock length, in


class Bought(Struct, frozen=True):
    """A line of the list of all runs: how many, of what; `parts`: what it is the sum of, the count
    of a run, how that came about, and of how many runs alike."""

    count: int
    what: str
    parts: tuple[tuple[int, str, int], ...]

    @property
    def how(self) -> str:
        """How it came about, where that is the same for runs of other counts; else empty."""
        hows = {how for _, how, _ in self.parts}
        alike = len(hows) == 1 and (len(self.parts) > 1 or self.parts[0][2] == 1)
        return hows.pop() if alike else ""


def lumber(laid: Sequence[LaidOut]) -> dict[Lumber, int]:
    """Boards to buy, cut run by run: no board is shared by two runs."""
    found: dict[Lumber, int] = {}
    for one in laid:
        wood = one.design.wood
        name = f"{wood.size.name} {wood.row.species} {wood.row.grade}"
        for stick, count in one.packing.sticks:
            found[name, stick.stock] = found.get((name, stick.stock), 0) + count
    return found


def items(laid: Sequence[LaidOut]) -> list[Bought]:
    """Clips, fasteners, flashing and the rest of every run, added by what they are."""
    found: dict[str, Counter[tuple[int, str]]] = {}
    for one in laid:
        for item in one.items:
            found.setdefault(item.what, Counter())[item.count, item.how] += 1
    return [
        Bought(
            sum(n * runs for (n, _), runs in parts.items()),
            what,
            tuple((n, how, runs) for (n, how), runs in parts.items()),
        )
        for what, parts in found.items()
    ]
