"""What a word that is no key, or no table, was probably meant for."""

import difflib
import re
from collections.abc import Sequence

from outrigger.cases.hold_down import HoldDown
from outrigger.cases.section import Section
from outrigger.cases.sections import SECTIONS

HOLD_DOWN = "hold_down"
SCHEMA_KEY = "$schema"  # by which a file names its schema to an editor; no key of a case
BASE_KEY = "base"  # by which a file names another whose keys it shares
TABLES: dict[str, type[Section]] = {**SECTIONS, HOLD_DOWN: HoldDown}
OTHER_NAMES = {"clip": HOLD_DOWN, "clips": HOLD_DOWN, "tie": HOLD_DOWN, "member": "outrigger"}
# the short names of settings, each with an example
SHORT = {
    "gap": "9in", "spacing": "16in", "back_span": "5ft", "size": "2x8", "species": "SPF",
    "grade": "#2", "roof_span": "24ft", "snow": "30psf", "clip": "420lb",
}  # fmt: skip
# how a table says that there is nothing of its kind
NOTHING = {
    "snow": 'ground = "none"', "wind": 'uplift = "none" and down = "none"',
    "seismic": 'category = "none"',
}  # fmt: skip
LISTING = (
    " A clip is stated by its listing: rated_uplift, rated_lateral, rated_for, rated_wood, "
    "rated_into; its maker and name go into rated_source."
)


def keys_of(model: type[Section]) -> list[str]:
    """The keys of a table, as a file writes them."""
    return [field.alias or name for name, field in model.model_fields.items()]


KEYS = {key for model in TABLES.values() for key in keys_of(model)}


def near(word: str, known: Sequence[str]) -> str:
    """The nearest of some words, capitals and joints apart; empty: none is near."""
    plain = {one.replace("_", ""): one for one in known}
    found = difflib.get_close_matches(
        word.lower().replace("_", "").replace("-", ""), list(plain), n=1
    )
    return plain[found[0]] if found else ""


def table_called(word: str) -> str:
    """The table that a word names, whatever its capitals, or by another of its names; or empty."""
    name = word.lower().replace("-", "_")
    return name if name in TABLES else OTHER_NAMES.get(name, "")


def as_header(table: str) -> str:
    """The line of a table: [gap], [[hold_down]]."""
    return f"[[{table}]]" if table == HOLD_DOWN else f"[{table}]"


def tables_like(word: str) -> list[str]:
    """The tables that a word was probably meant for: [roof] may be either roof."""
    if whole := table_called(word):
        return [whole]
    parts = [one for one in TABLES if word.lower() in one.split("_")]
    found = near(word, list(TABLES))
    return parts or ([found] if found else [])


def elsewhere(key: str) -> list[str]:
    """The tables that have a key."""
    return [name for name, model in TABLES.items() if key in keys_of(model)]


def of_unknown_key(key: str, model: type[Section], path: str) -> str:
    """What to say of a key that its table does not have, and has none like it."""
    if table := table_called(key):
        nothing = f" There is none of it: {NOTHING[table]} there." if table in NOTHING else ""
        return f" {as_header(table)} is a table of its own, not a key of {path}.{nothing}"
    if others := elsewhere(key):
        return f" It belongs under {' or '.join(map(as_header, others))}."
    if model is HoldDown:
        return LISTING
    return f" Keys here: {', '.join(keys_of(model))}."


def key_meant(name: str, value: str) -> str:
    """What to say of a setting that names no key."""
    word = name.rpartition(".")[2]
    table, dot, _ = name.partition(".")
    if (other := near(table, list(TABLES))) and dot:
        return f" Did you mean {_set(other, word)}={value}?"
    if word not in KEYS and (whole := near(word, list(SHORT))):
        return f" Did you mean {whole}={value}?"
    if word in TABLES and not dot:
        return f" It is a table: {', '.join(_set(word, key) for key in keys_of(TABLES[word]))}."
    key = word if word in KEYS or dot else near(word, sorted(KEYS))
    if found := [_set(one, key) for one in elsewhere(key)]:
        return f" Did you mean {' or '.join(f'{one}={value}' for one in found)}?"
    return f" Write it as in the file, gap.width=9in, or short: {' '.join(SHORT)}."


def _set(table: str, key: str) -> str:
    return f"{table}[back].{key}" if table == HOLD_DOWN else f"{table}.{key}"


def written_so(word: str) -> str:
    """How a word of a command that is no setting would be one."""
    if word.endswith(".toml"):
        return (
            "a case file stands before all settings, gap=9in say; check, layout, draw and summary "
            "take several, other commands one."
        )
    meant, blanks = "gap=9in", ""
    number = re.fullmatch(r"=?\s*(\d+)\s*(in|\"|)", word)
    if found := re.fullmatch(r"([\w.\[\]]+)\s*:\s*(\S.*)", word):
        meant = f"{found[1]}={found[2]}"
    elif word.lower() in SHORT:
        meant, blanks = f"{word.lower()}={SHORT[word.lower()]}", ", without blanks"
    elif number:
        meant, blanks = f"gap={number[1]}in", ", without blanks"
    elif re.fullmatch(r"\d+x\d+", word):
        meant = f"size={word}"
    return f'a setting is written name=value, "{meant}" say{blanks}.'


def table_and_key(path: str) -> tuple[str, str]:
    """The table of a path and what follows it; a point inside a place parts nothing:
    hold_down[16.5 in].count."""
    found = re.fullmatch(r"([^.\[]*(?:\[[^\]]*\])?)(?:\.(.*))?", path, re.S)
    return (found[1], found[2] or "") if found else (path, "")
