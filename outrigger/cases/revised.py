"""Which revision a paper carries: never one for two cases."""

import re

from outrigger.base.errors import InputError
from outrigger.cases.model import Case
from outrigger.cases.settings import Override

KEY = "project.revision"
CHANGED = "changed"


def revision(case: Case) -> str:
    """The revision of a case, as papers and screens name it: "0"; "0 changed" where settings over
    its file, a study or Python change it and give it no revision of its own."""
    origin, stated, before = case.origin, case.project.revision, case.changed_from
    if origin is None and before is not None and before == case:
        return revision(before)
    if origin is None and before is not None and before.project.revision == stated:
        return f"{stated} {CHANGED}"
    overrides = () if origin is None else origin.overrides
    own = any(one.key == KEY and one.value != one.before for one in overrides)
    return f"{stated} {CHANGED}" if overrides and not own else stated


def next_setting(case: Case, overrides: tuple[Override, ...]) -> tuple[str, ...]:
    """The setting that gives a changed case the next revision; none where nothing changes it, or
    it is given one."""
    if not overrides or any(one.key == KEY for one in overrides):
        return ()
    return (f'{KEY}="{following(case.project.revision)}"',)


def following(revision: str) -> str:
    """The revision after one: 1 after 0, B after A, 10 after 9, P2 after P1.

    Raises:
        InputError: it ends in neither a digit nor a letter before Z; the next is to be named.
    """
    if found := re.fullmatch(r"(.*?)(\d+)", revision):
        return f"{found[1]}{int(found[2]) + 1:0{len(found[2])}d}"
    if re.fullmatch(r"(.*[^A-Za-z])?[A-Ya-y]", revision):
        return f"{revision[:-1]}{chr(ord(revision[-1]) + 1)}"
    raise InputError(
        f'{KEY} "{revision}": what comes after it? A changed case has a revision of its own. Add '
        f"{KEY}=..., a number or a letter."
    )


def refuse_same(earlier: Case, now: Case) -> None:
    """Two cases that differ are not one revision.

    Raises:
        InputError: they are.
    """
    if earlier.digest != now.digest and revision(earlier) == revision(now):
        raise InputError(
            f'{KEY} "{now.project.revision}": the earlier case has it too, and says something '
            f'else. Give this one its own: {KEY} = "{following(now.project.revision)}".'
        )
