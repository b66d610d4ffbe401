"""Where each number of a workbook stands, and the formula that another cell finds it by."""

from collections.abc import Hashable, Mapping

from msgspec import Struct, field

from outrigger.formula.cells import cell_formula
from outrigger.report.book.sheet import Sheet, letters
from outrigger.studies.live import Amounts, CombinationSet, Item, Kind, Leaf
from outrigger.studies.workbook import End, LiveCheck

ROW = "#"  # stands for the number of a row, in the formula of a whole column
VALUE = 2  # the column of the value on the sheets of the checks
FORMULAS = {
    "": "{}",
    "size": "ABS({})",
    "not below 0": "MAX(0,{})",
    "turned": "-({})",
    "turned, not below 0": "MAX(0,-({}))",
    "never below 0": "IF(({0})<0,NA(),{0})",
    "turned, never below 0": "IF(({0})>0,NA(),-({0}))",
}
WORDS = {
    "": "",
    "size": ", its size",
    "not below 0": ", not below 0",
    "turned": ", turned round",
    "turned, not below 0": ", turned round, not below 0",
    "never below 0": "",
    "turned, never below 0": ", turned round",
}


class Block(Struct, eq=False):
    """Where one check stands: its sheet, the rows of its items, of its ends and its ratio."""

    check: LiveCheck
    sheet: Sheet
    first: int
    rows: dict[Hashable, int]
    governs: int
    demand: int
    ratio_column: int | None = None

    @property
    def capacity(self) -> int:
        """The row of the capacity."""
        return self.demand + 1

    @property
    def used(self) -> int:
        """The row of the ratio."""
        return self.demand + 2

    @property
    def state(self) -> int:
        """The row of what follows from it."""
        return self.demand + 3


class SetPlace(Struct, eq=False):
    """Where a set of combinations stands: its rows, and the columns of its items by key."""

    over: CombinationSet
    sheet: Sheet
    first: int
    factors: list[int]
    columns: dict[Hashable, int]
    items: dict[Hashable, Item]
    within: set[Hashable]  # items without a column, written out where they are taken
    wide: int

    @property
    def last(self) -> int:
        """The last row of the combinations."""
        return self.first + len(self.over.rows) - 1

    def column(self, at: int) -> str:
        """The cells of a column, of all combinations."""
        return self.sheet.column(at, self.first, self.last)


class Places(Struct, eq=False):
    """Every place of a workbook."""

    leaves: dict[int, str] = field(default_factory=dict)  # by the leaf's id
    counts: dict[Kind, str] = field(default_factory=dict)  # cells: how many inputs are changed
    amounts: dict[int, str] = field(default_factory=dict)  # the cells of a row, by its id
    take_down: dict[Hashable, str] = field(default_factory=dict)
    blocks: list[Block] = field(default_factory=list)
    home: dict[Hashable, str] = field(default_factory=dict)  # of what no combination changes
    sets: dict[int, SetPlace] = field(default_factory=dict)

    def leaf(self, leaf: Leaf) -> str:
        """The cell of an input."""
        return self.leaves[id(leaf)]

    def row_of(self, amounts: Amounts) -> str:
        """The cells of unfactored amounts, part by part."""
        return self.amounts[id(amounts)]

    def in_set(self, item: Item, place: SetPlace) -> str:
        """An item as a cell in the row of a combination."""
        if item.leaf is not None:
            return self.leaf(item.leaf)
        if item.key in place.columns:
            return f"{letters(place.columns[item.key])}{ROW}"
        if item.key in place.within:
            cells = {name: self.in_set(one, place) for name, one in item.inputs.items()}
            return f"({worked(item, cells, [self.in_set(one, place) for one in item.beside])})"
        return self.home[item.key]


def worked(item: Item, cells: Mapping[str, str], beside: list[str]) -> str:
    """The formula of an item from the cells of its inputs."""
    if item.way in ("least", "greatest"):
        return f"{'MIN' if item.way == 'least' else 'MAX'}({','.join(cells.values())})"
    if item.way == "added":
        total = "+".join(cells.values())
        return f"-({total})" if item.form else total
    assert item.formula is not None
    plain = FORMULAS[item.form].format(cell_formula(item.formula, cells))
    others = [FORMULAS[item.form].format(cell) for cell in beside]
    return f"MAX({','.join([plain, *others])})" if others else plain


def of_end(end: End, cells: list[str], number: str) -> str:
    """The formula of a demand or a capacity from the cells of its items."""
    if not end.items:
        return number
    plain = [FORMULAS[end.form].format(cell) for cell in cells]
    return plain[0] if len(plain) == 1 else f"MAX({','.join(plain)})"
