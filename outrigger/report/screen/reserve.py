"""`reserve` on screen: how far each number can go, and what goes wrong on site."""

import textwrap
from collections.abc import Sequence

from outrigger.cases import one_snow
from outrigger.cases.settings import Override
from outrigger.formula.check import Status
from outrigger.report import verdict_words, words
from outrigger.report.screen import frame as sweep_words
from outrigger.report.screen.columns import columns
from outrigger.report.screen.frame import LEAST_WIDTH, SO_FAR, between_lines, caution_lines, number
from outrigger.report.words import wrap
from outrigger.studies.mishaps import Mishap
from outrigger.studies.reserve import Reserve, Side
from outrigger.verdict.back_span import mark
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import Unknown

WAYS = {(True, True): "up to", (True, False): "down to", (False, False): "at most",
        (False, True): "at least"}  # fmt: skip
APART, LEAST_WORDS = 9, 21  # blanks of a row before its last column, and the least left for that
SPACING = "outrigger.spacing"
OPEN = "?"  # beside a number at which more is open than in the case as stated
WORSE: dict[Status, int] = {"pass": 0, "open": 1, "fail": 2}
VERDICTS: dict[Status, str] = {"pass": "passes", "open": "is open", "fail": "FAILS"}


def page(
    result: Reserve, width: int, *, sample: bool = False, overrides: Sequence[Override] = ()
) -> str:
    """How far each number can go, alone."""
    width = max(LEAST_WIDTH, width)
    found = [side for side in result.sides if side.turn is not None]
    unsure = _unsure(result)
    if unsure and result.works:
        text = f"{SO_FAR} each of these alone can go, all else as stated:"
        lines = [wrap(text, width), ""]
        same = "The numbers stay as far as was looked: "
    elif result.works:
        lines = [wrap("It works. All else as stated, each of these alone can go:", width), ""]
        same = "The answer is the same as far as was looked: "
    else:
        stops = words.subject(result.asked.closest)
        text = f"It does not work as stated: {stops}."
        lines = [wrap(text, width)]
        if found:
            text = "All else as stated, each of these alone makes it work:"
            text = f"{SO_FAR} each of these alone cures that:" if unsure else text
            lines.append(wrap(text, width))
        lines.append("")
        same = "None of these alone makes it work, as far as was looked: "
    lines += _table(found, result.works, width)
    lines += [*caution_lines((side.caution for side in found), width), *under(result, width)]
    if any(side.quantity.key == "outrigger.back_span" for side in found):
        lines += [wrap(text, width) for text in [between_lines(result.asked.case)] if text]
    rest = [side for side in result.sides if side.turn is None]
    if rest:
        lines += [""] if found else []
        lines.append(wrap(f"{same}{'; '.join(map(looked, rest))}.", width))
    body = [line for line in lines if line is not None]
    return sweep_words.page(
        result.asked, width, body, _said(result), sample=sample, overrides=overrides, first=unsure
    )


def under(result: Reserve, width: int) -> list[str]:
    """What stands under the table: what is open at some of its numbers, and what of the case moves
    with them or stays: other snow, other winds, the spacing."""
    case, said = result.asked.case, list[str]()
    keys = {side.quantity.key: None for side in result.sides}
    opened = dict.fromkeys(text for side in result.sides for text in side.open)
    if opened:
        said.append(f"{OPEN} not known to work, open there: {'; '.join(opened)}.")
    if any(key in one_snow.SNOWS for key in keys):
        said.append(sweep_words.house_snow(case))
    said.append(sweep_words.other_winds(case, keys))
    said.append(sweep_words.off_lines(case) if SPACING in keys else sweep_words.kept_spacing(case))
    return [wrap(text, width) for text in said if text]


def marks(side: Side) -> str:
    """What stands beside a number: a caution, and that more is open there."""
    return f"{mark(side.caution)}{OPEN if side.open else ''}"


def _unsure(result: Reserve) -> str:
    """That it cannot be said whether it works, and why; empty: it works or does not."""
    what = "whether it works" if result.works else "what makes it work"
    return result.unknown.cannot_say(what) if result.answer == "open" else ""


def _table(sides: Sequence[Side], works: bool, width: int) -> list[str]:
    """One line for each way that ends somewhere; folded where the terminal is narrow."""
    cells, last = [], ""
    for side in sides:
        one = side.quantity
        first = ("", "") if one.name == last else (one.name, number(one, one.now))
        last = one.name
        shown = "" if side.shown is None else f"{number(one, side.shown)}{marks(side)}"
        stops = "" if side.stops is None else words.subject(side.stops)
        cells.append((*first, WAYS[works, side.up], shown, stops))
    if not cells:
        return []
    head = ("what", "now", "", "", "beyond it" if works else "until then")
    room = [max(len(row[i]) for row in [head, *cells]) for i in range(4)]
    left = width - sum(room) - APART  # for the check that decides
    if left < LEAST_WORDS:
        return _narrow(sides, works, width)
    rows = []
    for name, now, way, shown, stops in [head, *cells]:
        folded = textwrap.wrap(stops, left, break_on_hyphens=False) or [""]
        rows.append((name, f" {now}", f" {way}", shown, f" {folded[0]}"))
        rows += [("", "", "", "", f" {text}") for text in folded[1:]]
    return columns(rows, "lrlrl", width) or _narrow(sides, works, width)


def _narrow(sides: Sequence[Side], works: bool, width: int) -> list[str]:
    lines = []
    for side in sides:
        one = side.quantity
        shown = "" if side.shown is None else f"{number(one, side.shown)}{marks(side)}"
        text = f"{one.name}, {number(one, one.now)}: {WAYS[works, side.up]} {shown}"
        stops = "" if side.stops is None else words.subject(side.stops)
        lines += [wrap(text, width), wrap(stops, width, "  ")]
    return lines


def looked(side: Side) -> str:
    """How far a way was looked at."""
    one = side.quantity
    end = one.high if side.up else one.low
    return f"{one.name} {'up' if side.up else 'down'} to {number(one, end)}"


def _said(result: Reserve) -> str:
    """The last words: how near the nearest turn is."""
    near, unsure = result.nearest, _unsure(result)
    if unsure and (near is None or near.shown is None):
        return unsure
    if near is None or near.shown is None:
        return "WORKS." if result.works else "DOES NOT WORK, and no single number above changes it."
    one = near.quantity
    way = WAYS[result.works, near.up]
    text = f"{one.name} {way} {number(one, near.shown)}, {number(one, one.now)} now."
    text += f" There, {near.caution.words}." if near.caution is not None else ""
    text += f" Open there: {'; '.join(near.open)}." if near.open else ""
    if unsure and result.works:
        return f"{unsure} {SO_FAR} least to spare: {text}"
    if unsure:
        return f"{unsure} {SO_FAR} the smallest change of the numbers: {text}"
    if result.works:
        return f"WORKS. Least to spare: {text}"
    return f"DOES NOT WORK. The smallest change that works: {text}"


def mishaps_page(
    asked: Design,
    found: Sequence[Mishap],
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """What may go wrong on site, and which of it turns the verdict."""
    width = max(LEAST_WIDTH, width)
    first = asked.verdict
    turned = [one for one in found if WORSE[one.verdict] > WORSE[first]]
    lines = [wrap(f"As stated: {verdict_words.verdict(asked)}", width), "", "One thing gone wrong:"]
    for one in found:
        mark = "TURNS IT: " if one in turned else ""
        place = "end" if one.place == "end" else words.place(one.place)
        place = f"{place} clip" if place == "house wall" else place
        lines.append(wrap(f"{place}: {one.text}", width, "  "))
        lines.append(wrap(f"{mark}{VERDICTS[one.verdict]}; {_closest(one)}", width, "    "))
    text = (
        "Each for one outrigger as it would then stand. A clip beside the rafter is in sheathing "
        "only and counts as none. That a clip on one side only twists the piece is not counted."
    )
    lines += ["", wrap(text, width)]
    said = "No single one of these mishaps turns the verdict."
    if turned:
        said = f"{len(turned)} of {len(found)} mishaps turn the verdict: {_names(turned)}."
    unknown = Unknown(asked)
    unsure = unknown.cannot_say("whether it works") if unknown.answer(asked.works) == "open" else ""
    said = f"{unsure} {said}" if unsure else said
    return sweep_words.page(
        asked, width, lines, said, sample=sample, overrides=overrides, first=unsure
    )


def _names(found: Sequence[Mishap]) -> str:
    return "; ".join(f"{one.what} ({words.place(one.place)})" for one in found)


def _closest(one: Mishap) -> str:
    """The check that decides, and beside it that of the place itself."""
    if one.unheld is not None:
        uplift = words.amount(one.unheld.demand, "lb")
        return f"{uplift} of uplift and nothing holds it"
    said = [f"{words.subject(one.stops)} {words.ratio(one.stops.ratio)}"]
    own = one.own
    if own is not None and own.check is not one.stops.check:
        said.append(f"{words.subject(own)} {words.ratio(own.ratio)}")
    return ", ".join(said)
