"""What a check is of: its kind, and what of it, each with its id in data and its words."""

from msgspec import Struct


class Kind(Struct, frozen=True):
    """A kind of check: its id in data, and its name in the trade's words.

    engineers: the engineer's word for it, where the trade's is another.
    together: how all checks of the kind are called, where that is not the name.
    stands_at: the one place where all of them stand.
    by_place: each place has an id of its own, hold_down:back.
    place_first: the name is said behind the place: back clip pull-out.
    chained: a hold-down is as weak as the weakest of these at its place.
    quiet: rows without a demand are told together in one line.
    """

    id: str
    name: str
    together: str = ""
    engineers: str = ""
    stands_at: str = ""
    by_place: bool = False
    place_first: bool = False
    chained: bool = False
    quiet: bool = False


class Group(Struct, frozen=True):
    """The checks of one id: of a kind, at one place where the kind has an id for each."""

    kind: Kind
    place: str = ""

    @property
    def id(self) -> str:
        """The id in data."""
        return f"{self.kind.id}:{self.place}" if self.kind.by_place else self.kind.id


class Link(Struct, frozen=True):
    """What of a kind a check looks at: a side, a layer, a fastener, a direction.

    id: as data has it, "" where the kind has but one.
    more: said behind the kind's name; "" nothing.
    name: said in place of the kind's name.
    weakest: said where this is the weakest link of a hold-down; every link of a chain has it.
    missing: there is nothing that could hold, so no link.
    is_distance: a distance between fasteners and edges, needed against had: not a strength.
    """

    kind: Kind
    id: str
    more: str
    name: str = ""
    weakest: str = ""
    missing: bool = False
    is_distance: bool = False

    def __post_init__(self) -> None:
        """Hold every link to its words.

        Raises:
            TypeError: a link of a chain that does not say what it is as the weakest.
        """
        if self.kind.chained and not (self.weakest or self.missing):
            raise TypeError(f"{self.kind.id}, {self.id}: words for the weakest link are missing")

    @property
    def said(self) -> str:
        """Said in a table, what more behind a comma: shear, arm side."""
        return self._with_more(self.name or self.kind.name)

    @property
    def engineers(self) -> str:
        """Said with the engineer's word beside the trade's: crushing (bearing), sheathing."""
        beside = f" ({self.kind.engineers})" if self.kind.engineers else ""
        return self._with_more(f"{self.name or self.kind.name}{beside}")

    def said_at(self, place: str) -> str:
        """Said with its place, itself in words: shear at the house wall, arm side."""
        if self.kind.place_first and not self.name:
            return f"{place} {self.kind.name}"
        return self._with_more(f"{self.name or self.kind.name} at the {place}")

    def _with_more(self, text: str) -> str:
        return f"{text}, {self.more}" if self.more else text
