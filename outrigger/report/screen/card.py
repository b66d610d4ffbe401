"""The card on screen, as CSV, and as the data of its printed page."""

import csv
import io
from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any

import numpy as np

from outrigger.base.quantity import length, sixteenths
from outrigger.base.units import feet, psf
from outrigger.cases import one_snow
from outrigger.cases.settings import Override
from outrigger.report import cautions, words
from outrigger.report.data.sweeps import bare, stamp
from outrigger.report.rows import letters
from outrigger.report.screen import frame as sweep_words
from outrigger.report.screen.columns import columns
from outrigger.report.screen.frame import ANY_WIDTH, LEAST_WIDTH, SO_FAR, caution_lines
from outrigger.report.screen.inputs import stated_list
from outrigger.report.words import wrap
from outrigger.studies.card import Card, Cell
from outrigger.verdict.back_span import mark
from outrigger.verdict.back_span import words as caution_words
from outrigger.verdict.notes import doubtful

HOLDS = "Holds only where this is so:"
OPEN = "?"  # beside a length at which more is open than in the case as stated
YOURS = ">"  # before the cell of the case itself
NOT_CHECKED = "not checked"
ALWAYS = ("values used unverified", NOT_CHECKED)  # on the page however long the rest is
LEFT = 9  # characters for the snow before a row


def page(
    result: Card, width: int, *, sample: bool = False, overrides: Sequence[Override] = ()
) -> str:
    """The card as text; too wide for the terminal, its spans go into blocks."""
    width = max(LEAST_WIDTH, width)
    keys = _keys(result)
    column = 2 + max(len(_marked(result, keys, cell)) for cell in result.cells)
    many = max(1, (width - LEFT) // column)
    lines = [wrap(_title(result), width)]
    for start in range(0, len(result.spans), many):
        spans = result.spans[start : start + many]
        lines += ["", wrap(f"{_snow(result)} down, roof span across", width)]
        lines += _block(result, spans, keys, column)
    lines += ["", *(wrap(text, width) for text in _legend(result, keys))]
    lines += _marks(result, width)
    lines += ["", wrap(HOLDS, width)]
    stated = [one for one in assumptions(result) if one[0] != NOT_CHECKED]  # told at the end
    lines += [wrap(f"{name}: {text}.", width) for name, text in stated]
    return sweep_words.page(
        result.asked, width, lines, _said(result), sample=sample, overrides=overrides,
        first=_unsure(result),
    )  # fmt: skip


def _marks(result: Card, width: int) -> list[str]:
    """What the marks beside lengths mean."""
    lines = caution_lines((cell.caution for cell in result.cells), width)
    if result.open:
        text = f"{OPEN} not known to work, open there: {'; '.join(result.open)}."
        lines.append(wrap(text, width, "  "))
    return lines


def _unsure(result: Card) -> str:
    """That it cannot be said what works, and why; empty: some cell works, or none does."""
    if result.answer != "open":
        return ""
    every = f"CANNOT SAY what works: no cell works without what is open: {'; '.join(result.open)}."
    return result.unknown.cannot_say("what works") or every


def _block(
    result: Card, spans: Sequence[float], keys: dict[str, str], column: int
) -> Iterator[str]:
    """The cells of some spans, side by side: a line for each snow under its spacing."""
    text_of = partial(_marked, result, keys)
    rows = [["", *(f"{span:g} ft" for span in spans)]]
    rows += [
        [f"{snow:g} psf", *(text_of(_at(result, spacing, snow, span)) for span in spans)]
        for spacing in result.spacings
        for snow in result.snows
    ]
    least = (LEFT, *(column - 1 for _ in spans))
    align = "r" * (1 + len(spans))
    head, *lines = columns(rows, align, ANY_WIDTH, least=least, indent="") or []
    yield head
    for i, spacing in enumerate(result.spacings):
        yield f"at {spacing:g} in"
        yield from lines[i * len(result.snows) : (i + 1) * len(result.snows)]


def _title(result: Card) -> str:
    works = "by what is stated so far" if _unsure(result) else "that works"
    if result.over == "gap":
        back = length(result.asked.case.outrigger.back_span)
        return f"Card: largest gap, in, {works} with a back span of {back}"
    gap = length(result.asked.case.gap.width)
    return f"Card: least back span, in, {works} over a gap of {gap}"


def _snow(result: Card) -> str:
    return "Ground snow" if result.snow_key == "snow.ground" else "Roof snow"


def _at(result: Card, spacing: float, snow: float, span: float) -> Cell:
    return next(c for c in result.cells if _place(c) == (spacing, snow, span))


def _keys(result: Card) -> dict[str, str]:
    """A letter for each check that stops a cell."""
    return letters(words.subject(cell.stops) for cell in result.cells if cell.stops is not None)


def _cell(cell: Cell, keys: dict[str, str]) -> str:
    """7 1/2 a; a range where a smaller gap or a longer back span fails; - where nothing works."""
    letter = "" if cell.stops is None else f" {keys[words.subject(cell.stops)]}"
    return f"{_lengths(cell)}{letter}"


def _marked(result: Card, keys: dict[str, str], cell: Cell) -> str:
    """A cell, the reader's own behind a mark."""
    return f"{_mark(result, cell)}{_cell(cell, keys)}"


def _mark(result: Card, cell: Cell) -> str:
    return YOURS if cell is _own(result) else ""


def _lengths(cell: Cell) -> str:
    if cell.low is None or cell.high is None:
        return "-"
    low, high = (sixteenths(v).removesuffix(" in") for v in (cell.low, cell.high))
    caution = f"{mark(cell.caution)}{OPEN if cell.open else ''}"
    if cell.to_the_end:
        return f"{high if cell.over == 'gap' else low}{caution}"
    return f"{low} to {high}{caution}" if cell.over == "gap" else f"{low}{caution} to {high}"


def _legend(result: Card, keys: dict[str, str]) -> list[str]:
    least, most = (length(float(result.lengths[i])) for i in (0, -1))
    step = sixteenths(float(result.lengths[1] - result.lengths[0]))
    beyond = "a larger gap" if result.over == "gap" else "a shorter back span"
    ends = "smaller gaps fail" if result.over == "gap" else "longer back spans fail"
    lines = [f"What stops {beyond}, and a blank cell (-):"]
    lines += [f"  {letter}: {text}" for text, letter in keys.items()]
    lines.append(
        f"Looked at from {least} to {most} in steps of {step}; no letter: it works to the end of "
        f"that. Two numbers: {ends} too. Every cell was run whole, and nothing lies between two "
        "cells: for another spacing, snow or span run the case. "
        f"{sweep_words.house_snow(result.asked.case)}".rstrip()
    )
    lines += [text for text in [sweep_words.kept_spacing(result.asked.case)] if text]
    return lines


def assumptions(result: Card) -> list[tuple[str, str]]:
    """Everything else that the card holds for, under its headings."""
    asked = result.asked
    length_key = "gap.width" if result.over == "gap" else "outrigger.back_span"
    swept = {"outrigger.spacing", "garage_roof.span", result.snow_key, length_key}
    swept |= set(one_snow.follow(asked.case))
    lines = stated_list(asked.case, swept)
    lines.append(("taken by default", "; ".join(asked.defaults)))
    values = [f"{word}: {'; '.join(texts)}" for word, texts in doubtful(asked).items()]
    lines.append(("values used unverified", "; ".join(values)))
    missing = cautions.few(cautions.not_checked(asked))
    return [(name, text) for name, text in [*lines, (NOT_CHECKED, missing)] if text]


def _said(result: Card) -> str:
    count = sum(cell.works for cell in result.cells)
    asked = sum(bool(cell.open) for cell in result.cells)
    more = f", {asked} more are open ({OPEN})" if asked else ""
    what = "gap" if result.over == "gap" else "back span"
    text = f"{count} of {len(result.cells)} cells have a {what} that works{more}{_yours(result)}"
    if unsure := _unsure(result):
        return f"{unsure} {SO_FAR} {count} of {len(result.cells)} cells have a {what}{more}."
    return f"{words.capital(text)}."


def _own(result: Card) -> Cell | None:
    """The cell of the case itself, where the card has it."""
    return next((cell for cell in result.cells if np.allclose(_place(cell), _here(result))), None)


def _place(cell: Cell) -> tuple[float, float, float]:
    return cell.spacing, cell.snow, cell.span


def _here(result: Card) -> tuple[float, float, float]:
    """Spacing, in, snow, psf, and span, ft, of the case itself."""
    case = result.asked.case
    snow = case.snow.ground if result.snow_key == "snow.ground" else case.snow.roof
    return case.outrigger.spacing, psf(snow or 0.0), feet(case.garage_roof.span or 0.0)


def _yours(result: Card) -> str:
    """What stands in the case's own cell."""
    cell = _own(result)
    if cell is None:
        return ""
    spacing, snow, span = _here(result)
    found = "none" if cell.low is None else f"{_lengths(cell)} in"
    return f"; yours ({YOURS}), {length(spacing)}, {snow:g} psf, {span:g} ft: {found}"


def as_rows(result: Card, sample: bool = False) -> list[dict[str, Any]]:
    """One row for each cell, full precision."""
    name = "gap" if result.over == "gap" else "back_span"
    stamped = stamp(result.unknown, sample)
    return [
        {
            **stamped,
            "verdict": "open" if cell.open else stamped["verdict"],
            "open": [*stamped["open"], *(text for text in cell.open)],
            "spacing_in": cell.spacing,
            "snow_psf": cell.snow,
            "roof_span_ft": cell.span,
            f"least_{name}_in": cell.low,
            f"largest_{name}_in": cell.high,
            "stopped_by": None if cell.stops is None else cell.stops.check.id,
            "place": None if cell.stops is None else cell.stops.check.place,
            "house_snow_psf": cell.house_snow,
            "caution": caution_words(cell.caution),
            "works": cell.works and not result.unknown.missing,
        }
        for cell in result.cells
    ]


def as_csv(result: Card, sample: bool = False) -> str:
    """The rows as CSV; blank where nothing works."""
    rows = [
        bare(row) | {"open": " ".join(row["open"]), "works": str(row["works"]).lower()}
        for row in as_rows(result, sample)
    ]
    rows = [row | {"sample": str(sample).lower()} for row in rows]
    text = io.StringIO()
    writer = csv.DictWriter(text, list(rows[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def as_printed(result: Card, sample: bool) -> dict[str, Any]:
    """What the template of the printed page sets: text only, nothing to compute."""
    keys = _keys(result)
    asked = result.asked
    project = asked.case.project
    cautioned = [text.strip() for text in _marks(result, ANY_WIDTH)]
    holds = [{"name": name, "text": f"{text}."} for name, text in assumptions(result)]
    return {
        "sample": words.SAMPLE if sample else "",
        "job": words.printable(project.name),
        "mark": f"revision {words.rev(asked.case)}, case {words.digest(asked.case.digest)}",
        "title": _title(result),
        "member": _member(result),
        "clips": _clips(result),
        "open": _unsure(result) or sweep_words.open_line(asked, 10_000),
        "snow": _snow(result),
        "spans": [f"{span:g} ft" for span in result.spans],
        "groups": [
            {
                "spacing": f"{spacing:g} in",
                "rows": [
                    {
                        "snow": f"{snow:g} psf",
                        "cells": [
                            _printed(result, _at(result, spacing, snow, span), keys)
                            for span in result.spans
                        ],
                    }
                    for snow in result.snows
                ],
            }
            for spacing in result.spacings
        ],
        "legend": _legend(result, keys)[0],
        "keys": [{"letter": letter, "text": text} for text, letter in keys.items()],
        "how": " ".join([_legend(result, keys)[-1], *cautioned]),
        "holds": HOLDS,
        "assumptions": [one for one in holds if one["name"] not in ALWAYS],
        "always": [one for one in holds if one["name"] in ALWAYS],
        "cautions": [*(one.short for one in cautions.of_case(asked)), cautions.SEALED[:-1]],
        "said": _said(result),
        "engineer": words.ENGINEERS_LINE,
    }


def _printed(result: Card, cell: Cell, keys: dict[str, str]) -> dict[str, str]:
    letter = "" if cell.stops is None else keys[words.subject(cell.stops)]
    return {"length": f"{_mark(result, cell)}{_lengths(cell)}", "letter": letter}


def _member(result: Card) -> str:
    asked = result.asked
    piece, wood = asked.case.outrigger, asked.wood
    plies = f"{piece.plies} " if piece.plies > 1 else ""
    basis = asked.case.basis
    flat = ", laid flat" if piece.laid == "flat" else ""
    return (
        f"{plies}{wood.size.name} {wood.row.species} {wood.row.grade}{flat}. "
        f"{basis.method}, {basis.loads}, {basis.wood}"
    )


def _clips(result: Card) -> str:
    """The clips in one line: back: 2, 420 lb each, listed for wind."""
    said = []
    for hold in result.asked.case.hold_down:
        at = hold.at if isinstance(hold.at, str) else length(hold.at)
        listed = "not listed" if hold.rated_uplift is None else f"{hold.rated_uplift:,.0f} lb each"
        column = f", listed for {hold.rated_for}" if hold.rated_for else ""
        said.append(f"{at}: {hold.count}, {listed}{column}")
    return f"Clips on each outrigger, {'; '.join(said)}." if said else "No clips are given."
