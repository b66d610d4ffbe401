"""The JSON Schema of the case file, for editors: words from `described`, units as patterns.

It states no default, so that no editor writes one into a case, and takes whatever `check` reads as
a quantity; what lies between keys is for `check` alone.
"""

from collections.abc import Iterator
from typing import Any, get_args

from outrigger.base.quantity import Kind
from outrigger.cases import described
from outrigger.cases.as_written import PLACES
from outrigger.cases.kinds import form_of, kind_of, table_in, written_of
from outrigger.cases.model import Case
from outrigger.cases.names import BASE_KEY, HOLD_DOWN, SCHEMA_KEY, TABLES
from outrigger.cases.section import Section
from outrigger.wood import dressed, reference

_DIGIT = "[0-9¼½¾⅛⅜⅝⅞⅓⅔.]"
_NUMBER = f"{_DIGIT}[0-9¼½¾⅛⅜⅝⅞⅓⅔ ,./–-]*"
_PLAIN = r"[0-9]+(\.[0-9]*)?|\.[0-9]+"


def _any_case(*words: str) -> str:
    """Words in capitals or not, of which one stands there: JSON Schema has no flag for that."""
    each = ("".join(f"[{c}{c.upper()}]" if c.isalpha() else c for c in word) for word in words)
    return f"(?:{'|'.join(each)})"


_FEET = f"(?:{_any_case('ft', 'feet', 'foot')}|['′’])"
_INCHES = f"(?:{_any_case('inches', 'inch', 'in')}|[\"″”]|'')"
_ON_CENTER = r"(?:\s*(?:[oO]\.?\s?[cC]\.?|[oO][nN] [cC][eE][nN][tT](?:[eE][rR]|[rR][eE])))?"
_LENGTH = (
    f"(?:{_NUMBER}\\s*{_FEET}\\.?\\s*[–-]?\\s*(?:{_NUMBER}\\s*{_INCHES}\\.?)?"
    f"|{_NUMBER}\\s*{_INCHES}\\.?){_ON_CENTER}"
)
_UNITS: dict[Kind, tuple[str, ...]] = {
    "pressure": ("psf",), "line load": ("plf", "lb/ft"), "force": ("lbs", "lb"), "stress": ("psi",),
    "stiffness": ("lb/in",), "speed": ("mph",),
}  # fmt: skip
_NONE = _any_case("none")
_FORMS = {"pitch": rf"(?:{_PLAIN})\s*(?::|/|in)\s*12", "limit": r"[lL]\s*/\s*[0-9]+"}
# what a key may say in place of a length
_WORDS = {
    "at": PLACES, "blocking": PLACES, "side_height": ("over the top",),
    "member_spacing": ("uniform",),
}  # fmt: skip
_SIZE = r"\s*[0-9.]+\s*[xX×]\s*[0-9.]+\s*"
_SOURCES = ("house_roof", "garage_roof", "garage_wall", "snow", "wind")  # each load may name its


def schema() -> dict[str, Any]:
    """JSON Schema of the case file. Each load key may have a <key>_source beside it."""
    tables = {name: _table(name, model) for name, model in TABLES.items()}
    clips = tables[HOLD_DOWN]
    tables[HOLD_DOWN] = {
        "type": "array",
        "description": "one table for each place that is clipped down; the back one is needed",
        "items": clips,
    }
    for name in _SOURCES:
        tables[name]["patternProperties"] = {"_source$": {"type": "string"}}
    required = [name for name, field in Case.model_fields.items() if field.is_required()]
    alone = {"required": required, **_needed(tables)}
    named = {"type": "string", "minLength": 1, "description": described.of(BASE_KEY).about}
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "A case of outrigger",
        "type": "object",
        "properties": {SCHEMA_KEY: {"type": "string"}, BASE_KEY: named} | tables,
        "if": {"required": [BASE_KEY]},
        "then": {},
        "else": alone,
        "additionalProperties": False,
    }


def _needed(tables: dict[str, Any]) -> dict[str, Any]:
    """What tables need, taken out of them: a case over a base may have it from there. What stands
    in a list is whole."""
    found = {}
    for name, table in tables.items():
        needed = {"required": table.pop("required")} if "required" in table else {}
        needed |= _needed(table.get("properties", {}))
        if needed:
            found[name] = needed
    return {"properties": found} if found else {}


def _table(path: str, model: type[Section]) -> dict[str, Any]:
    """A table, its keys and the tables inside it."""
    own = model.model_json_schema(by_alias=True)["properties"]
    keys = {}
    for name, field in model.model_fields.items():
        key = field.alias or name
        keys[key] = _key(f"{path}.{key}", name, model, own[key])
    needed = [f.alias or name for name, f in model.model_fields.items() if f.is_required()]
    said = described.of(path).about or " ".join((model.__doc__ or "").split())
    found = {"type": "object", "description": said, "properties": keys}
    return found | ({"required": needed} if needed else {}) | {"additionalProperties": False}


def _key(path: str, name: str, model: type[Section], own: dict[str, Any]) -> dict[str, Any]:
    """One key: what it is, a value of the right form, what it may be."""
    said = described.of(path)
    examples = {"examples": [said.value]} if said.value is not None else {}
    return {"description": said.about, **examples, **_form(path, name, model, own)}


def _form(path: str, name: str, model: type[Section], own: dict[str, Any]) -> dict[str, Any]:
    """What a key may be."""
    annotation = model.model_fields[name].annotation
    if (inner := table_in(annotation)) is not None:
        table = _table(path, inner)
        if "array" in _types(own):
            return {"type": "array", "items": table}
        return {"anyOf": [{"const": "none"}, table]} if _says_none(annotation) else table
    one = _one(path, name, model, own)
    return {"type": "array", "items": one} if "array" in _types(own) else one


def _one(path: str, name: str, model: type[Section], own: dict[str, Any]) -> dict[str, Any]:
    """What one value of a key may be."""
    kind, form = kind_of(model, name), form_of(model, name)
    if kind is not None:
        written = written_of(model, name)
        return _text(_quantity(kind), _NONE if written and written.none else "")
    if form == "length or word":
        return _text(_LENGTH, _any_case(*_WORDS[name]))
    if form == "limit":
        return {"anyOf": [{"type": "number"}, _text(_FORMS[form])]}
    if form is not None:
        return _text(_FORMS[form])
    if name in ("species", "plate_species", "framing_species", "rated_wood"):
        return _listed(reference.species_names())
    if name == "size":
        return {"anyOf": [{"enum": list(dressed.sizes_sold())}, _text(_SIZE)]}
    if name == "grade":
        return _listed(reference.grade_names())
    if name == "moisture_change":
        return _text(rf"(?:{_PLAIN})\s*%")
    return _plain(own)


def _plain(own: dict[str, Any]) -> dict[str, Any]:
    """A value as its type has it: without a default, without nothing, which TOML has not."""
    forms = [one for one in own.get("anyOf", [own]) if one.get("type") != "null"]
    kept = [{k: v for k, v in one.items() if k in ("type", "enum", "const")} for one in forms]
    for one in kept:
        if "enum" in one:
            one["enum"] = [word for word in one["enum"] if word != ""]
        if one.get("type") == "integer":
            one["minimum"] = 1
    return kept[0] if len(kept) == 1 else {"anyOf": kept}


def _listed(words: Any) -> dict[str, Any]:
    """Words that an editor offers; a stamp may spell them otherwise."""
    return {"anyOf": [{"enum": list(words)}, {"type": "string"}]}


def _quantity(kind: Kind) -> str:
    return _LENGTH if kind == "length" else f"{_NUMBER}\\s*{_any_case(*_UNITS[kind])}\\.?"


def _text(pattern: str, or_word: str = "") -> dict[str, Any]:
    whole = f"{pattern}|{or_word}" if or_word else pattern
    return {"type": "string", "pattern": rf"^\s*(?:{whole})\s*$"}


def _types(own: dict[str, Any]) -> set[str]:
    return {str(one.get("type")) for one in own.get("anyOf", [own])}


def _says_none(annotation: Any) -> bool:
    """Whether a key may be the word none in place of its table."""
    return any("none" in get_args(one) for one in _inside(annotation))


def _inside(annotation: Any) -> Iterator[Any]:
    yield annotation
    for one in get_args(annotation):
        yield from _inside(one)
