"""Every key of a case file: unit, what is taken where it is left out, who knows it, what it is."""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from outrigger.base.quantity import EXAMPLES, Kind
from outrigger.cases import described
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import form_of, kind_of, table_in
from outrigger.cases.model import Case
from outrigger.cases.names import BASE_KEY
from outrigger.cases.sections import SECTIONS
from outrigger.cli.questions import QUESTIONS
from outrigger.cli.readings import BACK
from outrigger.verdict.unsaid import not_given

# what a case must say to be asked for all else; of no job, and printed nowhere
BARE = {
    "project": {"name": "-"}, "basis": {"loads": "ASCE 7-16"},
    "gap": {"width": "4 in", "garage_plate": "3 1/2 in", "edge_bearing": "3 in"},
    "outrigger": {"species": "DF-L", "grade": "No. 2", "size": "2x6", "spacing": "16 in",
                  "back_span": "30 in"},
    "garage_roof": {"span": "22 ft"}, "hold_down": [{"at": "back", "rated_uplift": "400 lb"}],
}  # fmt: skip

FORMS = {"pitch": "rise:12", "limit": "number", "length or word": "in or ft, or a word"}
Row = tuple[str, str, str, str, str]


def rows() -> list[Row]:
    """Key, how it is written, default, who knows it, what it is, in the order of the file."""
    found: list[Row] = [(BASE_KEY, "text", "nothing", "", described.of(BASE_KEY).about)]
    for name, model in SECTIONS.items():
        found += _of(name, model)
    return [*found, *_of(BACK, HoldDown)]


def page(width: int) -> str:
    """The list, one key a line, folded where the screen is narrow."""
    from tabulate import tabulate

    heads = ("key", "written", "left out", "who knows", "what it is")
    table = rows()
    columns = tabulate(table, heads, tablefmt="plain", disable_numparse=True)
    if max(map(len, columns.splitlines())) <= width:
        return columns
    return "\n".join(
        f"{key}: {said}; {', '.join(filter(None, more))}" for key, *more, said in table
    )


def _of(path: str, model: type[BaseModel]) -> Iterator[Row]:
    who = _who()
    for name, field in model.model_fields.items():
        key = f"{path}.{field.alias or name}"
        if (inner := table_in(field.annotation)) is not None:
            yield key, "table", _default(field), who.get(key, ""), described.of(key).about
            yield from _of(key, inner)
            continue
        kind = kind_of(model, name)
        form = FORMS.get(form_of(model, name) or "") or _words(field.annotation)
        said = _unit(kind) if kind else form
        yield key, said, _default(field, kind), who.get(key, ""), described.of(key).about


@cache
def _who() -> dict[str, str]:
    """Who knows a key: as the ask sheet says of a case without it, else as `new` asks for it."""
    bare = Case.model_validate(BARE)
    asked = {re.sub(r"^hold_down\[0\]", BACK, one.key): one.who for one in not_given(bare)}
    return asked | {key: one.who for one in QUESTIONS for key in one.keys}


def _unit(kind: Kind) -> str:
    return "in or ft" if kind == "length" else EXAMPLES[kind].rpartition(" ")[2]


def _words(annotation: Any) -> str:
    """How a value that is no quantity is written."""
    if get_origin(annotation) is Literal:
        return " | ".join(f'"{one}"' for one in get_args(annotation) if one)
    if get_origin(annotation) is list:
        return "list"
    names = {bool: "true | false", int: "whole number", float: "number", str: "text"}
    if annotation in names:
        return names[annotation]
    inner = [_words(one) for one in get_args(annotation)]
    return " | ".join(dict.fromkeys(filter(None, inner)))


def _default(field: Any, kind: str | None = None) -> str:
    if field.is_required():
        return "needed"
    value = field.get_default(call_default_factory=True)
    if value is None or value == "" or value == []:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    if kind == "length":
        return "none" if value == 0 else f"{value:g} in"
    return f"{value:g}" if isinstance(value, float) else str(value)
