"""The tables of a case file made into a case, every fault at once.

A fault names its line, its key, what was written and what is allowed.
"""

import difflib
import re
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from outrigger.cases.faults import CaseFaultsError, Fault, cross_faults, key_part, shown
from outrigger.cases.model import Case, split_sources
from outrigger.cases.section import Section
from outrigger.cases.sections import OPTIONAL, SECTIONS, HoldDown

NEEDED = ("project", "basis", "gap", "outrigger")  # tables that hold a key without a default


def validate(raw: Mapping[str, Any], name: str, lines: Mapping[str, int] | None = None) -> Case:
    """The case of a file's tables.

    Raises:
        CaseFaultsError: every fault at once.
    """
    lines = lines or {}
    faults: list[Fault] = []
    parts: dict[str, Any] = {}
    sources: dict[str, str] = {}
    for section, model in SECTIONS.items():
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
    else:
        faults.append(Fault("hold_down", "needs tables, each under its own line [[hold_down]]."))
    for section in raw:
        if section not in SECTIONS and section != "hold_down":
            near = difflib.get_close_matches(section, [*SECTIONS, "hold_down"], n=1)
            hint = f" Did you mean [{near[0]}]?" if near else f" Known: {', '.join(SECTIONS)}."
            faults.append(Fault(key_part(section), f"no such table.{hint}"))
    if not faults:
        try:
            return Case(**parts, sources=sources)
        except ValidationError as error:  # what lies between keys
            faults = [f for one in error.errors() for f in one["ctx"]["error"].faults]
    else:
        faults += cross_faults(parts)
    raise CaseFaultsError(name, [Fault(f.key, f.text, _line(f.key, lines)) for f in faults])


def _section(
    model: type[Section], table: Mapping[str, Any], path: str, faults: list[Fault]
) -> Section | None:
    try:
        return model.model_validate(table)
    except ValidationError as error:
        found = error.errors(include_url=False)
        ours = [detail for detail in found if not _other_branch(detail)]
        faults += [_fault(detail, model, path) for detail in ours or found]
        return None


# of each key that every case needs: what it is, where to find it, how it is written
QUESTIONS = {
    "project.name": 'what is the job called on the permit? "Smith house, garage link", say.',
    "basis.loads": "which code year has the building department adopted? "
    '"ASCE 7-16" or "ASCE 7-22".',
    "gap.width": 'how wide is it, clear from the house finish to the garage framing? "7 in", say.',
    "gap.garage_plate": 'how wide is the plate of the garage wall? "5 1/2 in", say.',
    "gap.edge_bearing": "how long is the solid bearing under an outrigger at the house wall? "
    '"3 in", say.',
    "outrigger.species": 'what does the stamp say? "SPF" or "DF-L", say.',
    "outrigger.grade": 'what does the stamp say? "No. 2", say.',
    "outrigger.size": 'which lumber? "2x8", say.',
    "outrigger.spacing": 'how far from one outrigger to the next? "16 in", say.',
    "outrigger.back_span": 'how far from the house wall back to the last clip? "5 ft", say.',
}


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
    written = detail.get("input")
    kind = detail["type"]
    if kind == "missing":
        asked = f": {QUESTIONS[key]}" if key in QUESTIONS else "."
        return Fault(key, f"is not given, and is needed{asked}")
    if kind == "extra_forbidden":
        name, fields = str(unknown[0]), list(model.model_fields)
        near = difflib.get_close_matches(name, fields, n=1)
        hint = f" Did you mean {near[0]}?" if near else ""
        if not near and key_part(name) != name:
            hint = f" A key is one word without quotes, {fields[0]} say."
        return Fault(key, f"no such key.{hint}")
    if kind == "value_error":
        return Fault(key, f"= {shown(written)}: {detail['ctx']['error']}")
    if kind == "model_type":
        return Fault(key, f"= {shown(written)}: needs a table, {{ ... }}.")
    if kind == "list_type":
        return Fault(key, f'= {shown(written)}: needs a list, ["edge", "back"] say.')
    if kind in ("literal_error", "enum"):
        allowed = detail["ctx"]["expected"].replace("'", '"').replace(" or ", ", ")
        if keys[-1:] and keys[-1] in ("drift", "sliding", "carries"):
            allowed += f", or the table [{key}]"
        return Fault(key, f"= {shown(written)}: allowed are {allowed}.")
    return Fault(key, f"= {shown(written)}: {detail['msg'].lower()}.")


_BRANCHES = ("Drift", "Sliding", "Carries")  # tables that stand in place of "none"
_MODELS = {*_BRANCHES, "BlockingFastening", "BlockingToDeck"}


def _line(key: str, lines: Mapping[str, int]) -> int | None:
    """The line of a key, or of the nearest table above it."""
    parts = re.findall(r'\[\d+\]|\.?(?:"(?:[^"\\]|\\.)*"|[^."\[\]]+)', key)
    for count in range(len(parts), 0, -1):
        above = "".join(parts[:count])
        for name in (above, f"{above}[0]"):
            if name in lines:
                return lines[name]
    return None
