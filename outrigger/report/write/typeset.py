"""Typesetting: a fixed Typst template and its data, made into a PDF; what the fonts can print.

Every text reaches a template as data, never as markup.
"""

import json
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

import matplotlib
import typst
from matplotlib.ft2font import FT2Font

LONGEST_WORD = 28  # characters without a place to break
BREAK = "\N{ZERO WIDTH SPACE}"


def pdf(template: Path, data: dict[str, Any]) -> bytes:
    """A tagged PDF (PDF/UA-1); the same bytes for the same data."""
    given = {"data": json.dumps(data)}
    compiler = typst.Compiler(template.read_bytes(), font_paths=_fonts(), sys_inputs=given)
    made = compiler.compile(format="pdf", pdf_standards="ua-1")
    assert isinstance(made, bytes)
    return made


@cache
def _fonts() -> typst.Fonts:
    """Typst's own fonts and the sans-serif of the drawings, never the machine's."""
    return typst.Fonts(include_system_fonts=False, font_paths=[str(_font_folder())])


def _font_folder() -> Path:
    return Path(matplotlib.get_data_path()) / "fonts" / "ttf"


@cache
def _letters() -> frozenset[int]:
    """Every character that the fonts can print."""
    return frozenset(FT2Font(str(_font_folder() / "DejaVuSans.ttf")).get_charmap())


def printed(text: str) -> str:
    """A text that the fonts can print: a character they lack by its name, a long word broken."""
    letters = _letters()
    shown, word = [], 0
    for one in text:
        if ord(one) >= 128 and ord(one) not in letters:
            one = f"[{unicodedata.name(one, f'U+{ord(one):04X}').lower()}]"
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
