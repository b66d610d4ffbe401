"""The tables of a case file made into a case, every fault at once.

A fault names its line, its key, what was written and what is allowed.
"""

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from outrigger.cases import described
from outrigger.cases.as_written import PLACES
from outrigger.cases.between_keys import cross_faults
from outrigger.cases.faults import CaseFaultsError, Fault, key_part, shown
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import table_in
from outrigger.cases.model import Case, split_sources
from outrigger.cases.names import (
    BASE_KEY,
    SCHEMA_KEY,
    TABLES,
    as_header,
    keys_of,
    near,
    of_unknown_key,
    tables_like,
)
from outrigger.cases.section import Section
from outrigger.cases.sections import OPTIONAL, SECTIONS

NO_FILE_BESIDE = (
    "names a file, and tables alone have none beside them. Read the file itself, with read_case."
)
NEEDED = ("project", "basis", "gap", "outrigger")  # tables that hold a key without a default


def validate(
    raw: Mapping[str, Any],
    name: str,
    lines: Mapping[str, int] | None = None,
    files: Mapping[str, str] | None = None,
    more: Sequence[Fault] = (),
) -> Case:
    """The case of a file's tables; `lines` of its keys, `files`: of those that stand in its base,
    `more`: what is wrong between the two.

    Raises:
        CaseFaultsError: every fault at once.
    """
    lines, files = lines or {}, files or {}
    faults = list(more)
    parts: dict[str, Any] = {}
    sources: dict[str, str] = {}
    if BASE_KEY in raw:
        faults.append(Fault(BASE_KEY, NO_FILE_BESIDE))
    unknown = [one for one in raw if one not in (*TABLES, SCHEMA_KEY, BASE_KEY)]
    meant = {table for one in unknown for table in tables_like(one)}
    for section, model in SECTIONS.items():
        if section not in raw and section in meant:
            continue
        if section not in raw and section not in NEEDED:
            if section not in OPTIONAL:
                parts[section] = model()
            continue
        table = raw.get(section, {})
        if not isinstance(table, dict):
            faults.append(Fault(section, f"needs a table, [{section}], given once."))
            continue
        plain, texts = split_sources(table, model)
        sources |= {f"{section}.{key}": text for key, text in texts.items()}
        parts[section] = _section(model, plain, section, faults)
    entries = raw.get("hold_down", [])
    if isinstance(entries, (list, tuple)) and all(isinstance(entry, dict) for entry in entries):
        parts["hold_down"] = [
            _section(HoldDown, entry, f"hold_down[{i}]", faults) for i, entry in enumerate(entries)
        ]
        _name_the_ends(parts)
    else:
        faults.append(Fault("hold_down", "needs tables, each under its own line [[hold_down]]."))
    for one in unknown:
        like = " or ".join(map(as_header, tables_like(one)))
        hint = f"Did you mean {like}?" if like else f"Known: {', '.join(TABLES)}."
        faults.append(Fault(key_part(one), f"no such table. {hint}"))
    if not faults:
        try:
            return Case(**parts, sources=sources)
        except ValidationError as error:  # what lies between keys
            faults = [f for one in error.errors() for f in one["ctx"]["error"].faults]
    else:
        faults += cross_faults(parts)
    stand = [(fault, _known(fault.key, lines)) for fault in faults]
    raise CaseFaultsError(
        name, [Fault(f.key, f.text, lines.get(key), files.get(key, "")) for f, key in stand]
    )


def _name_the_ends(parts: dict[str, Any]) -> None:
    """Hold-downs at the back span's distance are those of the back, and at none those of the edge:
    named so, that all that is said of a place finds them, and that they move with the back span."""
    member, (back, edge, _) = parts.get("outrigger"), PLACES
    ends = {} if member is None else {0.0: edge, float(member.back_span): back}
    parts["hold_down"] = [
        one.model_copy(update={"at": ends[one.at]}) if one is not None and one.at in ends else one
        for one in parts["hold_down"]
    ]


def _section(
    model: type[Section], table: Mapping[str, Any], path: str, faults: list[Fault]
) -> Section | None:
    try:
        return model.model_validate(table)
    except ValidationError as error:
        found = error.errors(include_url=False)
        ours = [detail for detail in found if not _other_branch(detail)]
        misspelled = {_near_key(d, model) for d in found if d["type"] == "extra_forbidden"}
        faults += [
            _fault(detail, model, path)
            for detail in ours or found
            if detail["type"] != "missing" or detail["loc"] not in misspelled
        ]
        return None


def value_error(model: type[Section], table: str, key: str, value: object) -> str:
    """What is wrong with a value of a key of a table, in words; empty: nothing."""
    try:
        model.model_validate({key: value})
    except ValidationError as error:
        found = [d for d in error.errors(include_url=False) if d["loc"][0] == key]
        ours = [detail for detail in found if not _other_branch(detail)] or found
        return _said(ours[0], f"{table}.{key}", [key]) if ours else ""
    return ""


def _near_key(detail: Any, model: type[Section]) -> tuple[Any, ...]:
    """Where the key stands that one which a table does not have was probably meant for."""
    *above, name = detail["loc"]
    return (*above, near(str(name), keys_of(_inside(model, above))))


def _inside(model: type[Section], path: Sequence[Any]) -> type[Section]:
    """The table at a path inside another: of `garage_roof.line`."""
    for step in path:
        field = model.model_fields.get(step) if isinstance(step, str) else None
        model = (field and table_in(field.annotation)) or model
    return model


def _other_branch(detail: Any) -> bool:
    """Whether an error only says that a value is not the other form a key may take."""
    table = isinstance(detail["input"], dict)
    tag = str(detail["loc"][-1])  # of a key's other forms, where it has several
    literal = detail["type"] == "literal_error" and tag.startswith("literal[")
    branch = len(detail["loc"]) > 1 and detail["loc"][-1] in _BRANCHES
    return (literal and table) or (detail["type"] == "model_type" and branch and not table)


def _fault(detail: Any, model: type[Section], path: str) -> Fault:
    """One of pydantic's errors in our words."""
    # a key that the table does not have is whatever the user wrote; all others are of our models
    at: list[str | int] = list(detail["loc"])
    unknown = [at.pop()] if detail["type"] == "extra_forbidden" else []
    keys = [part for part in at if not (isinstance(part, str) and "[" in part)]
    keys = [
        k
        for i, k in enumerate(keys)
        if not (i and isinstance(k, str) and k[0].isupper() and k in _MODELS)
    ]
    key = path + "".join(
        f"[{k}]" if isinstance(k, int) else f".{key_part(k)}" for k in [*keys, *unknown]
    )
    if detail["type"] == "missing":
        question = described.of(key).question
        return Fault(key, f"is not given, and is needed{f': {question}' if question else '.'}")
    if unknown:
        return Fault(key, f"no such key.{_of_unknown(detail, model, path)}")
    return Fault(key, f"= {shown(detail.get('input'))}: {_said(detail, key, keys[-1:])}")


def _of_unknown(detail: Any, model: type[Section], path: str) -> str:
    """What to say of a key that a table does not have."""
    *above, name = detail["loc"]
    table = _inside(model, above)
    if meant := _near_key(detail, model)[-1]:
        return f" Did you mean {meant}?"
    if key_part(str(name)) != name:
        return f" A key is one word without quotes, {keys_of(table)[0]} say."
    return of_unknown_key(str(name), table, f"[{re.sub(r'[^a-z_].*', '', path)}]")


def _said(detail: Any, key: str, last: Sequence[Any]) -> str:
    """What one of pydantic's errors says of a value."""
    written, kind = detail.get("input"), detail["type"]
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "model_type":
        return "needs a table, { ... }."
    if kind == "list_type":
        return _as_list(written, key)
    if kind in ("literal_error", "enum"):
        return _one_of(detail, (last or [key])[-1], key)
    return f"{detail['msg'].lower()}."


def _as_list(written: object, key: str) -> str:
    """How a list is written, of what stands there for one; none is a list of nothing."""
    text = str(written).strip().lower()
    if not key.endswith("blocking") and text != "none":
        return f"needs a list, [{json.dumps(written, default=str)}] say."
    places = re.findall("edge|back", "edge, back" if text == "both" else text)
    if places or text == "none":
        return f"needs a list: {json.dumps(places)}."
    return 'which places? ["edge", "back"], say; [] for none.'


def _one_of(detail: Any, name: object, key: str) -> str:
    """What words a key may have, and the one that was probably meant."""
    allowed = detail["ctx"]["expected"].replace("'", '"').replace(" or ", ", ")
    words = re.findall(r'"([^"]+)"', allowed)
    if name in ("drift", "sliding", "carries", "on_house"):
        allowed += f", or the table [{key}]"
    written = str(detail.get("input"))
    meant = COLUMNS.get(written.strip(" %").replace(".", "")) if name == "rated_for" else ""
    meant = meant or next((word for word in words if word.lower() == written.lower().strip()), "")
    hint = f' Did you mean "{meant}"?' if meant else ""
    return f"allowed are {allowed}.{hint}"


# columns of a listing by their load duration, percent or factor (NDS Table 2.3.2)
COLUMNS = {
    "160": "wind", "16": "wind", "133": "wind", "125": "roof live", "115": "snow", "100": "live",
    "10": "live", "90": "dead", "09": "dead",
}  # fmt: skip
_BRANCHES = ("Drift", "Sliding", "Carries", "OnHouse")  # tables that stand in place of "none"
_MODELS = {*_BRANCHES, "BlockingFastening", "BlockingToDeck"}


def _known(key: str, lines: Mapping[str, int]) -> str:
    """A key whose line is known, or the nearest table above it; empty: none."""
    parts = re.findall(r'\[\d+\]|\.?(?:"(?:[^"\\]|\\.)*"|[^."\[\]]+)', key)
    for count in range(len(parts), 0, -1):
        above = "".join(parts[:count])
        for name in (above, f"{above}[0]"):
            if name in lines:
                return name
    return ""
