"""What a shell offers behind <TAB>: case files, keys as settings, values, lumber."""

import os
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from outrigger.base.errors import InputError
from outrigger.cases.as_written import PLACES
from outrigger.cases.kinds import form_of, table_in
from outrigger.cases.names import HOLD_DOWN, TABLES
from outrigger.cases.read import parse, read_text
from outrigger.cases.settings import SHORT_NAMES, full_name
from outrigger.wood import dressed, reference, stamps

_SPECIES = ("species", "plate_species", "framing_species", "rated_wood")
_UNQUOTED = re.compile(r"""([\s()&'"\\;<>|#])""")
EDITIONS = ("7-16", "7-22")


def case_words(before: Sequence[str], word: str) -> list[str]:
    """What a word of a case command may become; `before`: the words behind the command."""
    before = list(before)
    if before[-1:] == ["="]:  # bash breaks words at the equals sign
        return _fit(_values("".join(before[-2:-1]), before), word)
    if not word and before and before[-1] in keys():  # the sign itself comes as nothing
        return _fit(_values(before[-1], before), "")
    key, equals, value = word.partition("=")
    if equals:
        return [f"{key}={one}" for one in _fit(_values(key, before), value)]
    files = [] if any(one.endswith(".toml") for one in before) else _files(word)
    found = [f"{one}=" for one in keys() if one.startswith(word)]
    if len(found) == 1 and _shell().endswith(("bash", "zsh")):
        found.append(f"{found[0]}...")  # of two they take what is alike, with no blank behind it
    return files + found


def species_words(word: str) -> list[str]:
    """Stamps and names of the species."""
    return _fit(_all_species(), word)


def _all_species() -> list[str]:
    stamped = [stamp for _, own, _ in stamps.species_list() for stamp in own.split(", ") if stamp]
    return [*stamped, *reference.species_names()]


def grade_words(species: str, word: str) -> list[str]:
    """The grades of a species."""
    try:
        return _fit(_grades(species), word)
    except InputError:
        return []


def keys() -> Iterator[str]:
    """Every key that one setting can give, the short names first."""
    yield from (*SHORT_NAMES, "snow", "clip")
    for table, model in TABLES.items():
        clips = [f"{HOLD_DOWN}[{place}]" for place in PLACES[:2]]
        for place in clips if table == HOLD_DOWN else [table]:
            yield from _keys_of(place, model)


def _keys_of(path: str, model: Any) -> Iterator[str]:
    for name, field in model.model_fields.items():
        if table_in(field.annotation) is None:
            yield f"{path}.{field.alias or name}"


def _values(key: str, before: Sequence[str]) -> list[str]:
    """The values that a key may have, where they are words."""
    table, _, name = full_name(key, {}).rpartition(".")
    table = re.sub(r"\[.*", "", table)
    model = TABLES.get(table)
    field = model.model_fields.get(name) if model else None
    if model is None or field is None:
        return []
    if key == "basis.loads":
        return list(EDITIONS)
    if name in _SPECIES:
        return _all_species()
    if name == "size":
        return list(dressed.sizes_sold())
    if name == "grade":
        return _grades(_species(before))
    if form_of(model, name) == "length or word":
        return list(PLACES[:2]) if name == "at" else []
    return _literals(field.annotation)


def _literals(annotation: Any) -> list[str]:
    if annotation is bool:
        return ["true", "false"]
    if get_origin(annotation) is Literal:
        return [str(one) for one in get_args(annotation) if one]
    return [word for one in get_args(annotation) for word in _literals(one)]


def _grades(species: str) -> list[str]:
    rows = reference.grades(stamps.read_species(species)) if species else ()
    return list(dict.fromkeys(row.grade for row in rows)) or list(reference.grade_names())


def _species(before: Sequence[str]) -> str:
    """The species that the words before set, else the file's; empty: none is known."""
    line = " ".join(before).replace(" = ", "=")
    if said := re.findall(r"(?:^|\s|\.)species=(\S+)", line):
        return str(said[-1])
    file = next((one for one in before if one.endswith(".toml")), "")
    try:
        member = parse(read_text(Path(file)), file).get("outrigger") if file else None
        found = member.get("species") if isinstance(member, dict) else None
        return stamps.read_species(found) if isinstance(found, str) else ""
    except (InputError, OSError):
        return ""


def _files(word: str) -> list[str]:
    """Case files and folders that begin so."""
    folder, _, start = word.rpartition("/")
    shown = f"{folder}/" if folder or word.startswith("/") else ""
    try:
        there = sorted(Path(shown or ".").iterdir())
    except OSError:
        return []
    names = [f"{one.name}/" if one.is_dir() else one.name for one in there]
    kept = [one for one in names if one.endswith((".toml", "/")) and one.startswith(start)]
    return [f"{shown}{one}" for one in kept if start or not one.startswith(".")]


def _shell() -> str:
    """The shell that asks: complete_bash."""
    return os.environ.get("_OUTRIGGER_COMPLETE", "")


def _fit(words: Sequence[str], word: str) -> list[str]:
    """The words that begin so, as the shell needs them: bash and PowerShell quote nothing."""
    found = [one for one in dict.fromkeys(words) if one.lower().startswith(word.lower())]
    shell = _shell()
    if shell.endswith("bash"):
        return [_UNQUOTED.sub(r"\\\1", one) for one in found]
    quoted = shell.endswith(("powershell", "pwsh"))
    return [one for one in found if not (quoted and _UNQUOTED.search(one))]
