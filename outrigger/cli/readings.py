"""How single answers of `new` are read: what has words, a form or a choice of its own."""

import re

from outrigger.base.errors import InputError
from outrigger.base.quantity import NONE
from outrigger.cases.as_written import CODE_YEARS
from outrigger.cli.answers import YES, Fact, Given, Values, amount, held, one_of
from outrigger.loads.layers import LISTED

BACK, EDGE = "hold_down[back]", "hold_down[edge]"
LETTERS = {letter: letter.upper() for letter in "bcd"}
EXPOSED = {"windswept": "fully exposed", "partly": "partially exposed", "sheltered": "sheltered"}
MEMBERS = ("blocking", "crossing member", "rafter")  # right under the outriggers, of their own


def edition(line: str, given: Given) -> Values | None:
    """The edition of ASCE 7, or the code year that adopts it."""
    if found := re.fullmatch(r"(?:asce\s*)?7-(16|22)", line.strip().lower()):
        return {"basis.loads": f"ASCE 7-{found[1]}"}
    year = line.strip()
    if year in CODE_YEARS:
        return {"basis.loads": CODE_YEARS[year], "basis.code": year}
    raise InputError("2018, 2021, 2024, or 7-16, 7-22; an older code is not taken here.")


def panel(piece: str, given: Given) -> Values:
    """A panel and its thickness: OSB 7/16."""
    found = re.fullmatch(r"(?:([A-Za-z][A-Za-z -]*?)\s+)?(\d\S*(?:\s+\d\S*)?(?:\s*in)?)", piece)
    if found is None:
        raise InputError('name and thickness: "OSB 7/16".')
    key = "house_roof.sheathing_thickness"
    values = amount("", "in", key).read(found[2], given)
    return values | ({"house_roof.sheathing": found[1]} if found[1] else {})


def terrain(piece: str, given: Given) -> Values:
    """Ce by the words of its table: C partly."""
    letter, _, word = piece.strip().partition(" ")
    if letter.lower() not in LETTERS or not word.strip():
        raise InputError('a letter and a word: "C partly"; windswept, partly or sheltered.')
    return {"snow.exposure": f"{letter.upper()}, {one_of(word.strip(), EXPOSED)}"}


def heated(piece: str, given: Given) -> Values:
    """Ct by the words of its table; an R-value for a heated roof of 7-22."""
    if found := re.fullmatch(r"[rR]\s*-?\s*(\d+(?:\.\d+)?)", piece):
        other = {"snow.thermal": None} if "snow.thermal" in given else {}
        return {"snow.roof_r": held("snow.roof_r", float(found[1])), **other}
    words = {"heated": "heated", "unheated": "unheated",
             "just above freezing": "just above freezing"}  # fmt: skip
    other = {"snow.roof_r": None} if "snow.roof_r" in given else {}
    return {"snow.thermal": one_of(piece, words), **other}


def sheet(piece: str, given: Given) -> Values:
    """The truss sheet; beside weights of a list, both."""
    key = "garage_roof.dead_source"
    listed = str(given.get(key) or "")
    return {key: f"{piece}; {listed}" if LISTED in listed else piece}


def no_step(line: str, given: Given) -> Values | None:
    """No step that snow drifts against."""
    return {"snow.drift": NONE} if line.strip().lower() == NONE else None


def no_slide(line: str, given: Given) -> Values | None:
    """No roof that snow slides off."""
    return {"snow.sliding": NONE} if line.strip().lower() == NONE else None


def no_roof(line: str, given: Given) -> Values | None:
    """A wall that carries no roof."""
    return {"garage_roof.bearing": False} if line.strip().lower() == NONE else None


def bears(given: Given) -> bool:
    """Whether the wall carries roof."""
    return given.get("garage_roof.bearing") is not False


def as_at_the_back(line: str, given: Given) -> Values | None:
    """The clips of the back at the house wall too, or none there."""
    plain = line.strip().lower()
    if plain == NONE:
        return {}
    if plain != "same":
        return None
    clips = {key: value for key, value in given.items() if key.startswith(f"{BACK}.")}
    if not clips:
        raise InputError("nothing is said of the back to be the same as.")
    return {key.replace(BACK, EDGE): v for key, v in clips.items() if not key.endswith("].at")}


def on_a_member(given: Given) -> bool:
    """Whether a member of its own stands right under the outriggers."""
    return given.get("house_roof.edge_support") in MEMBERS


def member(piece: str, given: Given) -> Values:
    """Size of that member; what kind it is has been said."""
    return {"house_edge.kind": given["house_roof.edge_support"], "house_edge.size": piece}


def yes_none(name: str, key: str, unit: str) -> Fact:
    """Yes: something else takes it. No: not known; a load: as said."""

    def read(piece: str, given: Given) -> Values:
        plain = piece.strip().lower()
        if plain in YES:
            return {key: NONE} if YES[plain] else {}
        return amount(name, unit, key).read(piece, given)

    return Fact(name, (key,), read)
