"""What a listed hold-down was tested into, as `rated_into` says it; the page of its listing."""

import re

from msgspec import Struct

from outrigger.base import quantity
from outrigger.base.errors import InputError

FRAMING = "framing"
_THROUGH = re.compile(r"framing\s+through\s+(.+)", re.IGNORECASE)
_PANEL = re.compile(r"(.*?)\s*(\d.*)")
# what people write where they have no listing at hand
NO_PAGE = {
    "", "none", "no", "n a", "na", "nil", "nothing", "unknown", "not known", "not given",
    "not available", "tbd", "to be determined", "assumed", "guess", "guessed", "x",
}  # fmt: skip
ASKED = {"report", "table", "fastener", "schedule", "page"}  # as the question has it, unanswered


def page(text: str) -> str:
    """Report and page of a listing as written; empty, which is not given, where the words name
    none."""
    words = re.findall(r"\w+", text.lower())
    return "" if " ".join(words) in NO_PAGE or ASKED.issuperset(words) else text


class Base(Struct, frozen=True):
    """What a listing holds in: framing, or a panel alone; `through`: the panel between, empty where
    the clip lay right on the framing; `thickness` of the panel, in, None where none is named;
    `panel`: its name, OSB say, empty where none is named."""

    framing: bool
    through: str = ""
    thickness: float | None = None
    panel: str = ""

    def is_other(self, sheathing: str) -> bool:
        """Whether a panel is another kind than the listing names: no word of the two is one."""
        named, lies = _words(self.panel), _words(sheathing)
        return bool(named and lies) and not named & lies


def read_base(text: str) -> Base:
    """A base from its words: framing, framing through sheathing, framing through OSB 7/16 in, OSB
    7/16 in.

    Raises:
        InputError: a panel between without its thickness.
    """
    words = " ".join(text.split())
    if words.lower() == FRAMING:
        return Base(framing=True)
    found = _THROUGH.fullmatch(words)
    panel = found[1] if found else words
    if found and panel.lower() == "sheathing":
        return Base(framing=True, through=panel)
    thickness = _thickness(panel)
    if found and thickness is None:
        raise InputError(
            f'"{text}": which panel, how thick? "framing through OSB 7/16 in", say, or "framing '
            'through sheathing" where the listing names none.'
        )
    name = panel if thickness is None else _PANEL.sub(r"\1", panel)
    return Base(bool(found), panel if found else "", thickness, name)


def _words(panel: str) -> set[str]:
    """The words of a panel's name; what every panel is left out."""
    said = panel.lower().replace("oriented strand board", "osb")
    return set(re.findall(r"\w+", said)) - {"sheathing", "panel", "roof", "in"}


def _thickness(panel: str) -> float | None:
    found = _PANEL.fullmatch(panel)
    if not found:
        return None
    try:
        return quantity.read(found[2], "length")
    except InputError:
        return None
