"""A symbol of the notation."""

from msgspec import Struct


class Symbol(Struct, frozen=True):
    """How one symbol is written (base, subscript, mark), its unit and its meaning."""

    base: str
    subscript: str
    unit: str
    meaning: str
    mark: str = ""

    @property
    def text(self) -> str:
        """The symbol on one line: Fb′, RB, FbE, w_roof."""
        word = len(self.subscript) > 2 and "," not in self.subscript and self.subscript != "min"
        return f"{self.base}{'_' if word else ''}{self.subscript}{self.mark}"
