"""The layouts of several runs on one screen: the marks of each, and one list of what to buy."""

from collections.abc import Sequence
from typing import Any

from outrigger.base.quantity import length
from outrigger.cases.settings import Override
from outrigger.layout import together
from outrigger.layout.layout import LaidOut
from outrigger.report import words
from outrigger.report.screen import layout as layout_screen
from outrigger.report.screen.runs import Refused, caution_lines, framed, line
from outrigger.report.words import wrap
from outrigger.studies.runs import Run


def page(
    runs: Sequence[Run],
    laid: Sequence[LaidOut],
    refused: Refused,
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """The whole output of `layout` for several cases: marks of each, one list of what to buy."""
    width, parts = max(30, width), list[str]()
    for run, one in zip(runs, laid, strict=True):
        parts += [wrap(f"{run.file}:", width), *layout_screen.to_cut(one, width, sample), ""]
    parts += ["Material for all:", *(wrap(text, width, "  ") for text in material(runs, laid))]
    parts += ["", *(wrap(text, width) for text in (*left_out(refused), *caution_lines(runs)))]
    return framed(parts, line(runs, refused, sample), width, sample, overrides)


def material(runs: Sequence[Run], laid: Sequence[LaidOut]) -> list[str]:
    """What to buy for all runs, with boxes to tick where none of them fails."""
    failing = [run.file for run in runs if run.design.verdict == "fail"]
    box = "" if failing else f"{layout_screen.BOX} "
    found = [
        f"{box}{count} {name}, {length(stock)}"
        for (name, stock), count in together.lumber(laid).items()
    ]
    for one in together.items(laid):
        how = one.how or "; ".join(map(_part, one.parts))
        found.append(f"{box}{one.count} {one.what}" + (f" ({how})" if how else ""))
    found.append("Boards are cut run by run: none is shared by two runs.")
    if failing:
        found.append(f"No boxes to tick: {', '.join(failing)} fails, and is not to be built so.")
    return found


def _part(part: tuple[int, str, int]) -> str:
    """A count of one run or of several alike, and how it came about."""
    count, how, runs = part
    each = f"{runs} runs, each {count}" if runs > 1 else f"{count}"
    return f"{each}: {how}" if how else each


def left_out(refused: Refused) -> list[str]:
    """The files that are in nothing of the page."""
    return [f"In no list: {', '.join(refused)}."] if refused else []


def page_data(runs: Sequence[Run], laid: Sequence[LaidOut], sample: bool) -> dict[str, Any]:
    """The last page of the PDF: what to buy for all."""
    lines = material(runs, laid)
    boxes = sum(text.startswith(layout_screen.BOX) for text in lines)
    return {
        "title": f"Material for all {len(runs)} runs",
        "name": f"{len(runs)} runs",
        "revision": "cases " + ", ".join(words.digest(one.case.digest)[:9] for one in laid),
        "verdict": line(runs, {}, sample),
        "boxes": boxes,
        "lines": [text.removeprefix(f"{layout_screen.BOX} ") for text in lines],
        "notes": caution_lines(runs),
    }
