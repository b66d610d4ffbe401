"""Cautions: one list, the most dangerous first, each tied to the case, for every output."""

import tomllib
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from outrigger.report.words import capital, wrap
from outrigger.verdict import dangers
from outrigger.verdict.design import Design

ADOPT = "A licensed engineer must verify and adopt. Local codes govern."
SEALED = (
    "Not a sealed document: a licensed engineer must verify and adopt it before anything is built; "
    "local codes govern."
)
NO_CASE = "Not checked: any job at all. Lumber by itself is no design."


class Caution(Struct, frozen=True):
    """One caution: in few words for two lines, short for the screen, long for the summary."""

    few: str
    short: str
    long: str
    not_checked: bool = False
    when: str = ""


@cache
def _every() -> tuple[Caution, ...]:
    path = Path(__file__).with_name("cautions.toml")
    return tuple(Caution(**one) for one in tomllib.loads(path.read_text("utf-8"))["caution"])


def cautions(design: Design) -> list[Caution]:
    """The cautions that this case calls for, the most dangerous first, with its numbers."""
    holds, said = dangers.holds(design), dangers.said(design)
    return [
        replace(one, **{key: getattr(one, key).format(**said) for key in ("few", "short", "long")})
        for one in _every()
        if holds[one.when]
    ]


def of_case(design: Design) -> list[Caution]:
    """What this case is warned of."""
    return [one for one in cautions(design) if not one.not_checked]


def not_checked(design: Design) -> list[Caution]:
    """What nothing here looks at."""
    return [one for one in cautions(design) if one.not_checked]


def caution_lines(design: Design, width: int) -> list[str]:
    """The cautions in their short form, folded: of the case first, then what is not checked."""
    missing = "; ".join(one.short for one in not_checked(design))
    said = [f"Caution: {one.short}." for one in of_case(design)]
    return [wrap(text, width) for text in (*said, f"Not checked: {missing}.", SEALED)]


def two_lines(design: Design) -> tuple[str, str]:
    """The cautions where there is room for no more: under a picture, on stderr beside bare rows."""
    first = "".join(f"{capital(one.few)}. " for one in of_case(design))
    return ADOPT, f"{first}Not checked: {few(not_checked(design))}."


def without_case() -> tuple[str, str]:
    """The same where no case is."""
    return ADOPT, NO_CASE


def as_data(design: Design) -> dict[str, list[str]]:
    """The cautions in full."""
    return {
        "cautions": [one.long for one in of_case(design)] + [SEALED],
        "not_checked": [one.long for one in not_checked(design)],
    }


def stamped(design: Design) -> dict[str, list[str]]:
    """The cautions in few words, for every row of a study."""
    return {
        "cautions": [one.few for one in of_case(design)] + [ADOPT],
        "not_checked": list(dict.fromkeys(one.few for one in not_checked(design))),
    }


def few(listed: Sequence[Caution]) -> str:
    """Cautions in few words, in a row."""
    return ", ".join(dict.fromkeys(one.few for one in listed))
