"""A case file as the page has it: its text, what it says on its base, what is typed into it.

What is typed becomes a key of the file itself, never of its base; emptied, the base's value counts.
"""

import json
import re
from collections.abc import Mapping
from functools import cached_property
from typing import Any

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.cases import one_wind
from outrigger.cases.base import OF_ITS_OWN, merged, of_the_old
from outrigger.cases.filled import filled, stated_in
from outrigger.cases.names import BASE_KEY, HOLD_DOWN
from outrigger.cases.one_snow import SNOWS
from outrigger.cases.read import CaseFile, parse
from outrigger.cases.saving import saved
from outrigger.cases.settings import apply_all, as_tables
from outrigger.page.form import TABLE, Form, shown

ENTRY = re.compile(r"([\w.]+)\[[^\[\]]+\]\.")  # of a list of tables


class Sheet(Struct, frozen=True, dict=True):
    """The text of a case file; its base is read once, so that all that is said of it agrees."""

    file: CaseFile

    @property
    def text(self) -> str:
        """The text of the file itself."""
        return self.file.text

    def with_text(self, text: str) -> "Sheet":
        """The same file with another text; its base is read anew."""
        return Sheet(CaseFile(self.file.path, text))

    @cached_property
    def own_tables(self) -> dict[str, Any]:
        """Its tables as it writes them."""
        return parse(self.text, self.file.path.name)

    @cached_property
    def wrong(self) -> str:
        """Why its base cannot be read; empty: it can, or there is none."""
        try:
            self.file.base  # noqa: B018  read here, kept there
        except InputError as error:
            head, _, faults = str(error).partition("\n")
            return " ".join(f"{head.partition(':')[0]} {faults}".split()) if faults else head
        return ""

    @cached_property
    def base(self) -> dict[str, Any]:
        """The tables of its base; none where that cannot be read."""
        return {} if self.wrong or self.file.base is None else self.file.base.tables()

    @property
    def base_name(self) -> str:
        """What its base is called; empty: it has none."""
        if self.wrong or self.file.base is None:
            return str(self.own_tables.get(BASE_KEY, ""))
        return self.file.base.path.name

    @property
    def base_said(self) -> str:
        """The text of its base, or what is wrong with it; empty: it has none."""
        return self.wrong or ("" if self.file.base is None else self.file.base.text)

    @cached_property
    def tables(self) -> dict[str, Any]:
        """Its tables over those of its base."""
        return merged(self.base, self.own_tables) if self.base else self.own_tables

    @cached_property
    def own(self) -> dict[str, Any]:
        """What it states itself, by path."""
        return stated_in(self.own_tables)

    @cached_property
    def below(self) -> dict[str, Any]:
        """What its base states, by path."""
        return stated_in(self.base)

    @cached_property
    def given(self) -> dict[str, Any]:
        """What counts, by path."""
        return stated_in(self.tables)

    @property
    def places(self) -> list[str]:
        """The places of the clips in their order, as the keys of fields name them."""
        entries = self.tables.get(HOLD_DOWN)
        listed = entries if isinstance(entries, list) else []
        return [str(one.get("at", "")).strip().lower() for one in listed if isinstance(one, dict)]

    def values(self, form: Form) -> dict[str, str]:
        """What every field shows; a field that nothing states is not there."""
        given = self.given
        found = {one.key: shown(given[one.key]) for one in form.fields if one.key in given}
        tables = {key.rpartition(".")[0] for key in given}
        for field in form.fields:
            if field.key in tables and (TABLE, TABLE) in field.options:
                found[field.key] = TABLE
        return found

    def hidden(self, form: Form) -> list[int]:
        """The groups that are not asked, by their place, and of which nothing is stated."""
        return [
            i
            for i, group in enumerate(form.asked)
            if not group.only(self.given) and not any(f.key in self.given for f in group.fields)
        ]

    def stands(self, form: Form) -> dict[str, str]:
        """Where the value of each field stands, in words, of a file that has a base."""
        if not self.base:
            return {}
        found = {field.key: self._where(field.key) for field in form.fields}
        return {key: said for key, said in found.items() if said}

    def _where(self, key: str) -> str:
        name, under = self.base_name, self.below.get(key)
        if key not in self.own:
            if key in self.given:
                return f"from {name}"
            return (
                "" if under is None else f"not said here; {shown(under)} in {name} does not count"
            )
        here = f"stated in {self.file.path.name}"
        if under is None:
            return here
        if under == self.own[key]:
            return f"{here}, as in {name}"
        return f"{here}; {name} says {shown(under)}"


class Taken(Struct, frozen=True):
    """A file with answers in it; what was refused, by key, and why; what moved with them; which
    values of the base count again or still."""

    sheet: Sheet
    refused: dict[str, str]
    moved: list[str]
    back: list[str]


def taken(form: Form, sheet: Sheet, typed: Mapping[str, str]) -> Taken:
    """A file with what was typed in its fields, by key; nothing typed takes a key out.

    Raises:
        InputError: a key that is no field.
    """
    refused, moved, back = dict[str, str](), list[str](), list[str]()
    was, before = sheet, sheet.given
    for key, piece in typed.items():
        field = form.by_key.get(key)
        if field is None or field.read is None:
            raise InputError(f"{key}: no field of this page. Load it again.")
        if sheet.wrong:
            refused[key] = f"{sheet.base_name} cannot be read: put that right first."
            continue
        try:
            given = field.read(piece.strip(), sheet.given) if piece.strip() else {key: None}
            sheet, said = _with(sheet, given)
            moved += said
        except InputError as error:
            refused[key] = str(error)
            continue
        if given.get(key, "") is None and key in sheet.below and sheet.given.get(key) is not None:
            name = form.links[key].name
            back.append(f"{name}: {shown(sheet.given[key])}, from {sheet.base_name}.")
    moved += [*_other_winds(sheet, before), *_of_the_old(was, sheet, typed)]
    return Taken(sheet, refused, moved, back)


def _of_the_old(was: Sheet, now: Sheet, typed: Mapping[str, Any]) -> list[str]:
    """What the file still says for a value that was typed anew, in words."""
    if now.wrong:
        return []
    own = as_tables({key: now.given[key] for key in typed if key in now.given})
    found = of_the_old(was.tables, own, now.file.path.name, OF_ITS_OWN)
    return [f"{fault.key} {fault.text}" for fault in found]


def _other_winds(sheet: Sheet, before: Mapping[str, Any]) -> list[str]:
    """Where a wind was typed in place of another, the wind loads that stay as they are."""
    now = {} if sheet.wrong else sheet.given
    anew = [
        key for key, was in before.items() if one_wind.changes(key) and now.get(key, was) != was
    ]
    others = one_wind.left_in_file(sheet.file.tables(), anew) if anew else []
    return [f"{', '.join(anew)}: {one_wind.told(others)}."] if others else []


def _with(sheet: Sheet, values: Mapping[str, Any]) -> tuple[Sheet, list[str]]:
    """A file with values by path in it, None for the base's; what moved with them."""
    moved: list[str] = []
    for key, value in values.items():
        now = sheet.below.get(key) if value is None else value
        if key in SNOWS and key in sheet.given and now is not None and now != sheet.given[key]:
            sheet, said = _one_snow(sheet, key, now)
            moved += said
    lists = {found[1] for key in values if (found := ENTRY.match(key))}
    for path in lists:
        if at(sheet.base, path):
            return _with_list(sheet, path, values), moved
    return sheet.with_text(filled(sheet.text, values)), moved


def _with_list(sheet: Sheet, path: str, values: Mapping[str, Any]) -> Sheet:
    """Values in a list of tables, clips say, where the base has such a list: the file then states
    the whole of it, and none where it would say the same."""
    import tomlkit

    text, below, own = sheet.text, at(sheet.base, path), at(sheet.own_tables, path)
    if own is None and path == HOLD_DOWN:
        text = f"{text.rstrip()}\n\n{tomlkit.dumps({path: below})}"
    elif own is None:
        text = filled(text, {path: below})
    now = {key: sheet.below.get(key) if one is None else one for key, one in values.items()}
    after = sheet.with_text(filled(text, now))
    if at(after.own_tables, path) != below:
        return after
    if own is None:
        return sheet
    if path != HOLD_DOWN:
        return sheet.with_text(filled(after.text, {path: None}))
    document = tomlkit.parse(after.text)
    del document[path]
    return sheet.with_text(tomlkit.dumps(document).rstrip() + "\n")


def at(tables: Mapping[str, Any], path: str) -> Any:
    """What a file says at a path of a table and a key."""
    name, _, key = path.partition(".")
    table = tables.get(name)
    return table.get(key) if isinstance(table, dict) and key else table


def _one_snow(sheet: Sheet, key: str, value: Any) -> tuple[Sheet, list[str]]:
    """Another snow, and every snow of the site that moves with it, as a setting has it."""
    tables = sheet.file.tables()
    overrides = apply_all(tables, [f"{key}={json.dumps(value)}"])
    text = saved(sheet.file, overrides, tables, sheet.file.path)
    return sheet.with_text(text), [one.text for one in overrides if one.too]
