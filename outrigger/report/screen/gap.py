"""A case over a range of gaps on screen: table, what governs, the largest gap, what it costs."""

import math
from collections.abc import Sequence

from outrigger.actions.places import BACK, EDGE
from outrigger.base.quantity import feet_and_inches, length, sixteenths
from outrigger.base.units import SIXTEENTH
from outrigger.cases.settings import Override
from outrigger.report import cautions, verdict_words, words
from outrigger.report.rows import letters
from outrigger.report.screen import brief as brief_screen
from outrigger.report.screen.check import bar, heading
from outrigger.report.screen.columns import columns
from outrigger.report.screen.frame import SO_FAR, between_lines, caution_lines
from outrigger.report.screen.gap_change import answers, more
from outrigger.report.screen.gap_words import closest, decimal, down, inches, length_of, under, up
from outrigger.report.words import wrap
from outrigger.studies.consequences import Change
from outrigger.studies.gap_study import GapRow, GapStudy
from outrigger.studies.search import MOST_GAP_IN
from outrigger.verdict.back_span import mark
from outrigger.verdict.check_result import CheckResult

NONE_WORKS = "none"
OPEN = "?"  # beside a gap at which more is open than in the case as stated


def page(
    found: GapStudy,
    change: Change | None,
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """The whole output of `gap`."""
    width = max(30, width)
    said = wrap(verdict(found, sample), width)
    parts = [*[wrap(o.text, width) for o in overrides], heading(found.asked, width), said, ""]
    parts += answers(found, change, width, [o.key for o in overrides])
    parts += [_table(found, width), "", *_governing(found, width), _legend(found, width)]
    cautioned = [one for row in found.rows for one in (row.caution, row.least_caution)]
    parts += [*caution_lines(cautioned, width), ""]
    largest = _largest(found)
    if found.answer == "open":
        largest = f"{SO_FAR} {largest[0].lower()}{largest[1:]}"
    parts += [wrap(largest, width), *more(found, change, width), ""]
    parts += [*cautions.caution_lines(found.asked, width), "", said]
    parts.append(wrap(words.ENGINEERS_LINE, width))
    return words.whole(parts, sample)


def brief(found: GapStudy, *, changed: bool, sample: bool) -> str:
    """Five short lines to send: how the asked gap stands, and to what gap it works."""
    known = found.answer == "pass" and found.stops is not None
    to = f". To {_tape(found)}" if known else ""
    if found.largest is not None and math.isinf(found.largest.first) and not found.more:
        to = ""  # to any gap that was tried
    return brief_screen.lines(found.asked, changed=changed, sample=sample, more=to)


def verdict(found: GapStudy, sample: bool = False) -> str:
    """The answer in one line: how wide the gap may be, and how the asked one stands."""
    asked = found.asked
    here = length_of(asked.case.gap.width)
    if found.answer == "open" or (found.more and found.sure is None):
        word = found.unknown.cannot_say("to what gap it works") or _unsure(found)
        text = f"{word} {SO_FAR} {_so_far(found)}. At {here}: {closest(asked.closest)}."
        return words.of_sample(text) if sample else text
    if found.largest is None:
        word, rest = "NO GAP", f" works, not even {sixteenths(SIXTEENTH)}"
    elif found.more:
        word, rest = "WORKS", f" over a gap of {_stretch(found)}; {_beyond_that(found)}"
    elif math.isinf(found.largest.first):
        word, rest = "WORKS", f" to {length(found.largest.last)} and beyond"
    else:
        word, rest = "WORKS", f" to a gap of {down(found.largest.last)}"
    here += " it works" if asked.works else " it does not"
    reason = verdict_words.left_open(asked)
    still = f" Open still: {reason}." if reason else ""
    text = f"{word}{rest}. At {here}: {closest(asked.closest)}.{still}"
    return words.of_sample(text) if sample else text


def _tape(found: GapStudy) -> str:
    """The widest gap that can be said to work, as a tape has it."""
    assert found.stops is not None
    return inches(found.stops) if found.more else down(found.stops)


def _stretch(found: GapStudy) -> str:
    """The gaps that can be said to work, where others leave more open."""
    assert found.sure is not None
    return " to ".join(inches(gap) for gap in dict.fromkeys(found.sure))


def _beyond_that(found: GapStudy) -> str:
    """What is open over a wider gap than can be said to work, and to what gap all else works."""
    return f"wider, {'; '.join(found.more)} is open, and all else works {_so_far(found)}"


def _unsure(found: GapStudy) -> str:
    """That it cannot be said to what gap it works, for what is open at gaps of the range alone."""
    return f"CANNOT SAY to what gap it works: {'; '.join(found.open)} is open there."


def _so_far(found: GapStudy) -> str:
    """To what gap the numbers go."""
    if found.largest is None:
        return "to none"
    last = found.largest.last
    return (
        f"to {length(last)} and beyond" if math.isinf(found.largest.first) else f"to {down(last)}"
    )


def _letters(found: GapStudy) -> list[str]:
    """A letter for each stretch; a check that governs again has its own letter again."""
    names = [words.subject(stretch.governing) for stretch in found.stretches]
    return [letters(names)[name] for name in names]


def _letter(found: GapStudy, row: GapRow) -> str:
    for stretch, letter in zip(found.stretches, _letters(found), strict=True):
        if row.gap <= stretch.end:
            return letter
    return ""


def _table(found: GapStudy, width: int) -> str:
    rows = [_cells(found, row) for row in found.rows]
    heads = ["gap", "used", "1.00 at |", "", "piece", "back span", "back clip", "wall clip"]
    under = ["", "", "", "", "", "at least", clip_head(found, BACK), clip_head(found, EDGE)]
    if not any(cells[-1] for cells in rows):
        rows, heads, under = [c[:-1] for c in rows], heads[:-1], under[:-1]
    rows = [[*c[:5], _even(c[5], rows), *c[6:]] for c in rows]
    apart = [[*line[:4], *(f" {cell}" for cell in line[4:])] for line in (heads, under, *rows)]
    lines = columns(apart, "lrllrrrr"[: len(heads)], width)
    return "\n".join(lines or [_narrow(found, row, width) for row in found.rows])


def _cells(found: GapStudy, row: GapRow) -> list[str]:
    governing = row.governing
    return [
        f"{inches(row.gap)}{mark(row.caution)}{OPEN if row.more else ''}",
        words.ratio(governing.ratio),
        bar(governing),
        _letter(found, row),
        feet_and_inches(row.length),
        back_cell(row),
        clip_cell(row, BACK),
        clip_cell(row, EDGE),
    ]


def back_cell(row: GapRow) -> str:
    """The least back span that works at a gap, with marks of its caution and of what is open."""
    if row.least_back_span is None:
        return NONE_WORKS
    opened = OPEN if row.least_more else ""
    return f"{sixteenths(row.least_back_span)}{mark(row.least_caution)}{opened}"


def _even(cell: str, rows: list[list[str]]) -> str:
    """A back span with blanks where others have a mark, so that the numbers stay in line."""
    widest = max(len(_mark_of(one[5])) for one in rows)
    return f"{cell}{' ' * (widest - len(_mark_of(cell)))}"


def _mark_of(cell: str) -> str:
    return cell[len(cell.rstrip("!*?")) :]


def clip_head(found: GapStudy, place: str) -> str:
    """What the numbers of a clip's column are."""
    return "at least" if any(place in row.listed for row in found.rows) else "pulls"


def clip_cell(row: GapRow, place: str) -> str:
    """What a clip of a place needs at a gap, or how far it is pulled; empty: none is there."""
    if place in row.listed:
        needed = row.listed[place]
        return NONE_WORKS if needed is None else f"{needed:,.0f} lb"
    return f"{row.pulls[place]:,.0f} lb" if place in row.pulls else ""


def _narrow(found: GapStudy, row: GapRow, width: int) -> str:
    gap, used, _, letter, piece, back, *clips = _cells(found, row)
    named = zip(("back clip", "wall clip"), (BACK, EDGE), clips, strict=True)
    said = [f"piece {piece}"]
    said.append("no back span works" if back == NONE_WORKS else f"back span at least {back}")
    said += [f"{name} {clip_head(found, place)} {cell}" for name, place, cell in named if cell]
    state = (", open" if row.more else "") if row.works else " does not work"
    return "\n".join(
        (wrap(f"{gap}: {used} {letter}{state}", width), wrap(", ".join(said), width, "  "))
    )


def _governing(found: GapStudy, width: int) -> list[str]:
    """What governs, and where it changes."""
    by_letter: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for stretch, letter in zip(found.stretches, _letters(found), strict=True):
        names[letter] = f"{words.subject(stretch.governing)}{under(stretch.governing)}"
        by_letter.setdefault(letter, []).append(
            f"{_end(found, stretch.start)} to {_end(found, stretch.end)}"
        )
    return [
        wrap(f"{letter}: {names[letter]}, governs from {' and from '.join(ranges)}", width, "  ")
        for letter, ranges in by_letter.items()
    ]


def _legend(found: GapStudy, width: int) -> str:
    """What the columns of needs mean."""
    back = length(found.case.outrigger.back_span)
    kept = "as cut" if found.cut else f"with the back span of {back}"
    text = (
        f"Piece: its length, {kept}. Back span at least: the least that works at that gap, all "
        "else as stated. "
    )
    if any(row.listed for row in found.rows):
        text += "Clip at least: the listed value each needs, in the column read for it. "
    opened = dict.fromkeys(text for row in found.rows for text in (*row.more, *row.least_more))
    if opened:
        text += f"{OPEN} not known to work, open there: {'; '.join(opened)}. "
    text += between_lines(found.case)
    return wrap(text, width, "  ")


def _end(found: GapStudy, value: float) -> str:
    ends = (found.rows[0].gap, found.rows[-1].gap)
    return inches(value) if value in ends else decimal(value)


def _largest(found: GapStudy) -> str:
    """The exact largest gap that works, and why no more."""
    if found.largest is None:
        assert found.beyond is not None
        return f"No gap works: at {sixteenths(SIXTEENTH)} {closest(found.beyond)}."
    if found.beyond is None:
        if found.no_room is not None and found.no_room < MOST_GAP_IN:
            return (
                f"Every gap works that leaves the cut piece a back span: to {down(found.no_room)}."
            )
        return f"Every gap works up to {length(MOST_GAP_IN)}; none wider was tried."
    exact = decimal(found.largest.last)
    text = f"Largest gap that works: {down(found.largest.last)} on the tape, {exact} exactly. "
    if found.more and found.sure is not None:
        text = (
            f"Works over a gap of {_stretch(found)}. Wider, {'; '.join(found.more)} is open; all "
            f"else works to {down(found.largest.last)} on the tape, {exact} exactly. "
        )
    row = found.beyond
    text += f"Wider by a hair, {_beyond(row)}{under(row)}."
    if found.least is not None:
        text += f" Not every narrower gap works: the stretch begins at {up(found.least)}."
    if found.largest_caution is not None:
        text += f" There, {found.largest_caution.words}."
    return text


def _beyond(row: CheckResult) -> str:
    if row.ratio is None:
        return f"{words.subject(row)} fails: {row.check.why}"
    return f"{words.subject(row)} is over its limit"
