"""Typesetting: a fixed Typst template and its data, made into a PDF or PNG; what the fonts can
print.

Every text reaches a template as data, never as markup.
"""

import importlib.util
import json
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

import typst

from outrigger.base.plain import harmless

LONGEST_WORD = 28  # characters without a place to break
BREAK = "\N{ZERO WIDTH SPACE}"


def pdf(template: Path, data: dict[str, Any]) -> bytes:
    """A tagged PDF (PDF/UA-1); the same bytes for the same data."""
    made = _compiler(template, data).compile(format="pdf", pdf_standards="ua-1")
    assert isinstance(made, bytes)
    return made


def png(template: Path, data: dict[str, Any], dots: int) -> bytes:
    """The one page of a template as PNG, `dots` to an inch."""
    made = _compiler(template, data).compile(format="png", ppi=dots)
    assert isinstance(made, bytes)
    return made


def _compiler(template: Path, data: dict[str, Any]) -> typst.Compiler:
    given = {"data": json.dumps(data)}
    return typst.Compiler(template.read_bytes(), font_paths=_fonts(), sys_inputs=given)


@cache
def _fonts() -> typst.Fonts:
    """Typst's own fonts and the sans-serif of the drawings, never the machine's."""
    return typst.Fonts(include_system_fonts=False, font_paths=[str(_font_folder())])


def _font_folder() -> Path:
    """Where the charts' library, which is not loaded for it, keeps its fonts."""
    found = importlib.util.find_spec("matplotlib")
    assert found is not None and found.origin is not None
    return Path(found.origin).parent / "mpl-data" / "fonts" / "ttf"


@cache
def _letters() -> frozenset[int]:
    """Every character that the fonts can print."""
    from fontTools.ttLib import TTFont  # only text beyond ASCII needs it

    with TTFont(_font_folder() / "DejaVuSans.ttf", lazy=True) as font:
        return frozenset(font.getBestCmap())


def named(text: str) -> str:
    """A text in which each character that the fonts lack stands by its name."""
    return "".join(
        c
        if ord(c) < 128 or ord(c) in _letters()
        else f"[{unicodedata.name(c, f'U+{ord(c):04X}').lower()}]"
        for c in text
    )


def printed(text: str) -> str:
    """A text that the fonts can print: a character they lack by its name, a long word broken."""
    shown, word = [], 0
    for one in map(named, harmless(text)):
        word = 0 if one.isspace() else word + len(one)
        if word > LONGEST_WORD:
            shown.append(BREAK)
            word = len(one)
        shown.append(one)
    return "".join(shown)


def all_printed(data: Any) -> Any:
    """Data with every text in it as the fonts can print it."""
    match data:
        case str():
            return printed(data)
        case dict():
            return {key: all_printed(value) for key, value in data.items()}
        case list() | tuple():
            return [all_printed(value) for value in data]
    return data
