"""The form of `show`: the questions of `new`, a field for each key; every other key by table."""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.base.quantity import EXAMPLES
from outrigger.cases import described
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import form_of, kind_of, level_of, table_in
from outrigger.cases.names import table_and_key
from outrigger.cases.sections import SECTIONS
from outrigger.cli.answers import Fact, Given, Question, Values, amount, held_by
from outrigger.cli.form_words import NAMES, RUN, TABLES, TITLES, WHERE
from outrigger.cli.questions import QUESTIONS
from outrigger.cli.readings import BACK, EDGE
from outrigger.page.form import BY_HAND, TABLE, Field, Form, Group, shown
from outrigger.report.words import capital
from outrigger.wood import dressed, reference

ENTRY = re.compile(r"(\w+\.\w+)\[(\d+)\]\.")  # of a list of tables
BLANKS = 2  # tables of a list that may be added at once
OFFERS = {
    "species": "species", "plate_species": "species", "framing_species": "species",
    "rated_wood": "species", "size": "sizes", "grade": "grades",
}  # fmt: skip
SOURCED = ("house_roof", "garage_roof", "garage_wall", "snow", "wind")  # a load may name its source
PLACES = {"edge": "house wall", "back": "back clip", "wall line": "garage wall"}
BLOCKS = ("edge, back", "edge", "back", "edge, back, wall line", quantity.NONE)


def form(given: Given) -> Form:
    """The form of a case file, by what it states; its clips at the places that it has."""
    found = [key.partition("].")[0] for key in given if key.startswith("hold_down[")]
    places = (f"{one}]" for one in found if re.fullmatch(r"hold_down\[[^\[\]]+", one))
    entries = (ENTRY.match(key) for key in given)
    counts = {one[1]: int(one[2]) + 1 for one in entries if one}  # in the order of the file
    return _form(tuple(dict.fromkeys([BACK, EDGE, *places])), tuple(counts.items()))


@lru_cache(8)
def _form(places: tuple[str, ...], counts: tuple[tuple[str, int], ...]) -> Form:
    """The form of any case with clips at these places and so many tables in each list."""
    keys = dict(_keys(places, dict(counts)))
    after = 1 + next(i for i, one in enumerate(QUESTIONS) if "outrigger.spacing" in one.keys)
    asked = [_question(one, keys) for one in (*QUESTIONS[:after], RUN, *QUESTIONS[after:])]
    done = {field.key for group in asked for field in group.fields}
    rest = []
    for table in dict.fromkeys(map(_group, keys)):
        fields = [_field(key, *keys[key]) for key in keys
                  if _group(key) == table and key not in done]  # fmt: skip
        if fields:
            rest.append(Group(_title(table), "", "", tuple(fields)))
    offers = {"species": reference.species_names(), "sizes": list(dressed.sizes_sold()),
              "grades": list(reference.grade_names())}  # fmt: skip
    return Form(tuple(asked), tuple(rest), offers)


def _group(key: str) -> str:
    """What a key stands under: its table, or its list of tables."""
    entry = ENTRY.match(key)
    return entry[1] if entry else table_and_key(key)[0]


def _title(table: str) -> str:
    if table in TABLES:
        return TABLES[table]
    place = table.removeprefix("hold_down[").removesuffix("]")
    if place not in PLACES:
        return f"Clips at {place}"
    return f"Clips at the {PLACES[place].removesuffix(' clip')}, all else"


def _keys(
    places: Sequence[str], counts: Mapping[str, int]
) -> Iterator[tuple[str, tuple[type[BaseModel], str]]]:
    """Every key by its path, with its table and its name there."""
    for table, model in SECTIONS.items():
        yield from _inside(table, model, counts)
    for place in places:
        yield from ((key, how) for key, how in _inside(place, HoldDown, {}) if how[1] != "at")


def _inside(
    path: str, model: type[BaseModel], counts: Mapping[str, int]
) -> Iterator[tuple[str, tuple[type[BaseModel], str]]]:
    for name, field in model.model_fields.items():
        key = f"{path}.{field.alias or name}"
        inner = table_in(field.annotation)
        several = list in (get_origin(one) for one in (field.annotation, *_args(field.annotation)))
        if inner is None or _says_none(field.annotation):
            yield key, (model, name)
        if inner is not None:
            lists = [f"{key}[{i}]" for i in range(counts.get(key, 0) + BLANKS)]
            for one in lists if several else [key]:
                yield from _inside(one, inner, counts)
        if path in SOURCED and level_of(model, name, "ASCE 7-16") and inner is None:
            yield f"{key}_source", (model, "")


def _question(one: Question, keys: Mapping[str, tuple[type[BaseModel], str]]) -> Group:
    title, more = TITLES.get(one.keys[0], (one.ask, ()))
    fields = [_field(key, *keys[key]) for key in more]
    for key in dict.fromkeys(one.keys):
        facts = () if key in WHERE else one.facts
        first = next((fact for fact in facts if fact.keys[0] == key), None)
        shared = next((fact for fact in facts if key in fact.keys and fact.unit), None)
        fact = first or (None if key.endswith("_source") else shared)
        fields.append(_field(key, *keys[key], fact))
    where = WHERE.get(one.keys[0], one.where)
    return Group(title, where, one.who, tuple(fields), one.only)


def _field(key: str, model: type[BaseModel], name: str, fact: Fact | None = None) -> Field:
    """A key as a field: read as its question reads it, else as its table has it."""
    about = re.sub(r"^(true|false) (where|for)", _yes_or_no, described.of(key).about)
    label = NAMES.get(key) or (fact.name if fact else _label(key, about))
    if not name:  # a source
        return Field(key, capital(label), about, lambda piece, given: {key: piece})
    if key.endswith(".dead"):
        about += "; or its layers: shingles + plywood 5/8, say"
    options = _options(key, model, name, fact)
    unit = fact.unit if fact else _unit(model, name)
    own = _reader(key, model, name, unit)
    if fact is None or own is None:
        read = own
    elif fact.unit and len(fact.keys) > 1 and not key.endswith("dead"):
        read = amount(label, fact.unit, key).read  # one of the keys that its question sets at once
    elif fact.unit:
        read = fact.read
    else:
        read = _either(fact, own, {shown(v) for v in (fact.options or {}).values()})
    offers = OFFERS.get(name, "")
    about = about if read is not None else f"{about}: {BY_HAND}"
    return Field(key, capital(label), about, read, unit, options, offers)


def _yes_or_no(found: re.Match[str]) -> str:
    return f"{'yes' if found[1] == 'true' else 'no'} {found[2]}"


def _label(key: str, about: str) -> str:
    """The word of a key, of a short one what it is."""
    if entry := ENTRY.match(key):
        return f"{int(entry[2]) + 1}: {key[entry.end() :].replace('_', ' ')}"
    plain = re.sub(r"^[^.]*\.", "", re.sub(r"\[[^\]]*\]", "", key))
    if plain.endswith("_source"):
        return f"{plain.removesuffix('_source').replace('_', ' ')}: source"
    path = plain.replace("_", " ").split(".")
    return about if len(path[-1]) <= 2 or path[-1].startswith("W ") else ", ".join(path)


def _either(fact: Fact, own: Any, words: set[str]) -> Any:
    """As its question reads it; as the file writes it, where that is another form."""

    def read(piece: str, given: Given) -> Values:
        if piece in words:
            return dict(own(piece, given))
        try:
            return fact.read(piece, given)
        except (InputError, KeyError) as error:
            try:
                return dict(own(piece, given))
            except InputError as other:
                raise (error if isinstance(error, InputError) else other) from None

    return read


def _reader(key: str, model: type[BaseModel], name: str, unit: str) -> Any:
    """How what is typed becomes a value of a key; None: a list of tables, left to the file."""
    annotation = model.model_fields[name].annotation
    types = {annotation, *_args(annotation)}
    inner = table_in(annotation)
    several = any(get_origin(one) is list for one in types)
    if inner is not None:
        return None if several else _none(key)

    def read(piece: str, given: Given) -> Values:
        value: Any = piece
        if several:
            listed = [] if piece.lower() == quantity.NONE else re.split(r"\s*,\s*", piece)
            value = [int(one) if one.isdigit() else one for one in listed]
        elif bool in types and piece in ("yes", "no"):
            value = piece == "yes"
        elif re.fullmatch(quantity.NUMBER, quantity.tidied(piece)) and unit:
            value = f"{piece} {unit}"
        elif types & {int, float} and re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)", piece):
            value = int(piece) if piece.isdigit() else float(piece)
        elif piece.lower() == quantity.NONE:
            value = quantity.NONE
        return {key: held_by(model, name, value)}

    return read


def _none(key: str) -> Any:
    """A key that is "none" or a table, whose keys are fields of their own."""

    def read(piece: str, given: Given) -> Values:
        if piece == quantity.NONE:
            return {key: quantity.NONE}
        if piece == TABLE:
            return {key: None} if given.get(key) == quantity.NONE else {}
        raise InputError("state it in the fields of this group.")

    return read


def _options(
    key: str, model: type[BaseModel], name: str, fact: Fact | None
) -> tuple[tuple[str, str], ...]:
    """The words that a key may have: as typed, and as they are said."""
    annotation = model.model_fields[name].annotation
    if table_in(annotation) is not None:
        said = ((quantity.NONE, "none"), (TABLE, TABLE))
        return said if _says_none(annotation) else ()
    if name == "blocking":
        return tuple((one, ", ".join(PLACES.get(p, p) for p in one.split(", "))) for one in BLOCKS)
    if fact is not None and fact.options is not None:
        words = [shown(value) for value in fact.options.values()]
    elif bool in (annotation, *_args(annotation)):
        words = ["yes", "no"]
    else:
        words = [str(one) for one in _literals(annotation) if one]
    return tuple((one, one) for one in dict.fromkeys(words))


def _literals(annotation: Any) -> Sequence[Any]:
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return [one for inside in get_args(annotation) for one in _literals(inside)]


def _unit(model: type[BaseModel], name: str) -> str:
    """The unit of a bare number; none for a length, which may be in or ft."""
    kind = kind_of(model, name)
    if kind is None or kind == "length" or form_of(model, name):
        return ""
    return EXAMPLES[kind].rpartition(" ")[2].strip('"')


def _args(annotation: Any) -> tuple[Any, ...]:
    """The types inside a type."""
    return tuple(x for one in get_args(annotation) for x in (one, *_args(one)))


def _says_none(annotation: Any) -> bool:
    """Whether a key may be the word none in place of its table."""
    return quantity.NONE in _literals(annotation)
