"""A case over a range of gaps on screen: table, what governs, the largest gap, what it costs."""

import math
from collections.abc import Sequence

from outrigger.actions.places import BACK, EDGE
from outrigger.base.quantity import feet_and_inches, length, sixteenths
from outrigger.base.units import SIXTEENTH
from outrigger.cases.settings import Override
from outrigger.report import cautions, verdict_words, words
from outrigger.report.rows import letters
from outrigger.report.screen.check import bar, heading
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.studies.consequences import Change, Yield
from outrigger.studies.gaps import MOST_GAP_IN, GapRow, GapStudy
from outrigger.verdict.check_result import CheckResult

NONE_WORKS = "none"


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
    parts += [_table(found, width), "", *_governing(found, width), _legend(found, width), ""]
    parts += [wrap(_largest(found), width), *_answers(found, change, width), ""]
    parts += [*cautions.caution_lines(found.asked, width), "", said]
    parts.append(wrap(words.ENGINEERS_LINE, width))
    return words.whole(parts, sample)


def verdict(found: GapStudy, sample: bool = False) -> str:
    """The answer in one line: how wide the gap may be, and how the asked one stands."""
    asked = found.asked
    if found.largest is None:
        word, rest = "NO GAP", f" works, not even {sixteenths(SIXTEENTH)}"
    elif math.isinf(found.largest.first):
        word, rest = "WORKS", f" to {length(found.largest.last)} and beyond"
    else:
        word, rest = "WORKS", f" to a gap of {down(found.largest.last)}"
    here = length_of(asked.case.gap.width)
    here += " it works" if asked.works else " it does not"
    reason = verdict_words.left_open(asked)
    still = f" Open still: {reason}." if reason else ""
    text = f"{rest}. At {here}: {_closest(asked.closest)}.{still}"
    return f"SAMPLE: {word.lower()}{text}" if sample else f"{word}{text}"


def down(inches: float) -> str:
    """A length rounded down to sixteenths: a largest one."""
    return sixteenths(math.floor(inches / SIXTEENTH) * SIXTEENTH)


def up(inches: float) -> str:
    """A length rounded up to sixteenths: a least one."""
    return sixteenths(math.ceil(inches / SIXTEENTH) * SIXTEENTH)


def decimal(inches: float) -> str:
    """A length to a hundred-thousandth, cut off and not rounded."""
    return f"{math.floor(inches * 1e5) / 1e5:.5f} in"


def _closest(row: CheckResult) -> str:
    if row.ratio is None:
        return f"{words.subject(row)}{': ' + row.check.why if row.check.why else ''}"
    return f"{words.subject(row)}, {words.ratio(row.ratio)}"


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
    heads = ["gap", "used", "1.00 at |", "", "piece", "back span", "back clip", "edge clip"]
    under = ["", "", "", "", "", "at least", _kind(found, BACK), _kind(found, EDGE)]
    if not any(cells[-1] for cells in rows):
        rows, heads, under = [c[:-1] for c in rows], heads[:-1], under[:-1]
    apart = [[*line[:4], *(f" {cell}" for cell in line[4:])] for line in (heads, under, *rows)]
    lines = columns(apart, "lrllrrrr"[: len(heads)], width)
    return "\n".join(lines or [_narrow(found, row, width) for row in found.rows])


def _cells(found: GapStudy, row: GapRow) -> list[str]:
    governing = row.governing
    return [
        inches(row.gap),
        words.ratio(governing.ratio),
        bar(governing),
        _letter(found, row),
        feet_and_inches(row.length),
        NONE_WORKS if row.least_back_span is None else sixteenths(row.least_back_span),
        _clip(row, BACK),
        _clip(row, EDGE),
    ]


def inches(value: float) -> str:
    """A gap as asked: in sixteenths where it is one, else in decimals."""
    parts = value / SIXTEENTH
    return sixteenths(value) if parts == round(parts) else f"{value:.4g} in"


def _kind(found: GapStudy, place: str) -> str:
    return "at least" if any(place in row.listed for row in found.rows) else "pulls"


def _clip(row: GapRow, place: str) -> str:
    if place in row.listed:
        needed = row.listed[place]
        return NONE_WORKS if needed is None else f"{needed:,.0f} lb"
    return f"{row.pulls[place]:,.0f} lb" if place in row.pulls else ""


def _narrow(found: GapStudy, row: GapRow, width: int) -> str:
    gap, used, _, letter, piece, back, *clips = _cells(found, row)
    named = zip(("back clip", "edge clip"), (BACK, EDGE), clips, strict=True)
    said = [f"piece {piece}"]
    said.append("no back span works" if back == NONE_WORKS else f"back span at least {back}")
    said += [f"{name} {_kind(found, place)} {cell}" for name, place, cell in named if cell]
    state = "" if row.works else " does not work"
    return "\n".join(
        (wrap(f"{gap}: {used} {letter}{state}", width), wrap(", ".join(said), width, "  "))
    )


def _governing(found: GapStudy, width: int) -> list[str]:
    """What governs, and where it changes."""
    by_letter: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for stretch, letter in zip(found.stretches, _letters(found), strict=True):
        names[letter] = f"{words.subject(stretch.governing)}{_under(stretch.governing)}"
        by_letter.setdefault(letter, []).append(
            f"{_end(found, stretch.start)} to {_end(found, stretch.end)}"
        )
    return [
        wrap(f"{letter}: {names[letter]}, governs from {' and from '.join(ranges)}", width, "  ")
        for letter, ranges in by_letter.items()
    ]


def _under(row: CheckResult) -> str:
    named = row.combination_words
    return f", under {named} ({row.combination})" if named else ""


def _legend(found: GapStudy, width: int) -> str:
    """What the columns of needs mean."""
    back = length(found.case.outrigger.back_span)
    kept = "as cut" if found.cut else f"with the back span of {back}"
    text = (
        f"Piece: its length, {kept}. Back span at least: the least that works at that gap, all "
        "else as stated. "
    )
    if any(row.listed for row in found.rows):
        text += "Clip at least: the listed value each needs, in the column read for it."
    return wrap(text, width, "  ")


def _end(found: GapStudy, value: float) -> str:
    ends = (found.rows[0].gap, found.rows[-1].gap)
    return inches(value) if value in ends else decimal(value)


def _largest(found: GapStudy) -> str:
    """The exact largest gap that works, and why no more."""
    if found.largest is None:
        assert found.beyond is not None
        return f"No gap works: at {sixteenths(SIXTEENTH)} {_closest(found.beyond)}."
    if found.beyond is None:
        if found.no_room is not None and found.no_room < MOST_GAP_IN:
            return (
                f"Every gap works that leaves the cut piece a back span: to {down(found.no_room)}."
            )
        return f"Every gap works up to {length(MOST_GAP_IN)}; none wider was tried."
    exact = decimal(found.largest.last)
    text = f"Largest gap that works: {down(found.largest.last)} on the tape, {exact} exactly. "
    row = found.beyond
    text += f"Wider by a hair, {_beyond(row)}{_under(row)}."
    if found.least is not None:
        text += f" Not every narrower gap works: the stretch begins at {up(found.least)}."
    return text


def _beyond(row: CheckResult) -> str:
    if row.ratio is None:
        return f"{words.subject(row)} fails: {row.check.why}"
    return f"{words.subject(row)} is over its limit"


def _answers(found: GapStudy, change: Change | None, width: int) -> list[str]:
    """The client's questions: does it work, what changes, who must see it."""
    if change is None:
        return []
    was, now = (length_of(one.case.gap.width) for one in (change.before, change.after))
    row = change.after.closest
    works = change.after.works
    reason = verdict_words.left_open(change.after)
    answer = "yes" if works else "no"
    still = f" Open still: {reason}." if works and reason else ""
    asked = f"From {was} to {now}, does it work? {answer.capitalize()}: {_closest(row)}.{still}"
    lines = ["", wrap(asked, width), "What changes:"]
    lines += [wrap(text, width, "  ") for text in _changes(found, change)]
    revision = words.printable(found.case.project.revision)
    lines.append(
        wrap(
            f"Back to the engineer: yes, as a new revision. What was adopted is for {was}, "
            f"rev {revision}; loads, clips and lengths differ.",
            width,
        )
    )
    return lines


def length_of(value: float) -> str:
    """A gap: as asked where it is sixteenths, else to five decimals."""
    return inches(value) if (value / SIXTEENTH).is_integer() else decimal(value)


def _changes(found: GapStudy, change: Change) -> list[str]:
    before, after = change.lengths
    count = change.pieces[1]
    many = "as many as before" if count is None else f"{count}, as before"
    cut = f"{feet_and_inches(after)} in place of {feet_and_inches(before)}"
    if found.cut:
        cut = f"{feet_and_inches(after)}, cut already"
        cut += f"; back span {sixteenths(float(change.after.shape.back_span.ravel()[0]))}"
    said = [f"pieces: {many}; each {cut}"]
    if change.yields and not found.cut:
        said += [_boards(change), *_bought(change)]
    for place, (was, now) in change.pulls.items():
        pulls = f"pulls {words.pounds(now)} each, {words.pounds(was)} before"
        said.append(f"{words.clip(place)}: {pulls}")
    said.append(_flashing(change))
    said.append(_cover(change))
    (was_R, now_R) = (float(step.value) for step in change.heat)
    fill = [float(step.inputs["R_fill"].value) for step in change.heat]  # type: ignore[union-attr]
    said.append(
        f"heat, an estimate: as high as the outriggers the band is R {now_R:.0f}, R {was_R:.0f} "
        f"before (R {fill[1]:.0f} and R {fill[0]:.0f} without wood), parallel paths, R 4 an inch "
        "taken for the insulation (common practice, no source), wood 1.8 times as conductive "
        "along its grain, from memory"
    )
    return said


def _boards(change: Change) -> str:
    def one(found: Yield) -> str:
        before = "" if found.before == found.after else f" ({found.before} before)"
        return f"{length(found.board)} gives {found.after}{before}"

    text = f"boards: {'; '.join(one(found) for found in change.yields)}"
    soon = min((y for y in change.yields if y.after), key=lambda y: y.until, default=None)
    if soon is not None:
        text += f". Over a gap of {down(soon.until)} a {length(soon.board)} board gives one less"
    return text if change.stock_stated else f"{text} (stock lengths taken)"


def _bought(change: Change) -> list[str]:
    """Stock for outriggers and blocks, as the cut list of `layout` has it."""
    if change.pieces[1] is None:
        return []
    before, after = (words.stock(packing) for packing in change.bought)
    return [f"to buy, blocks included: {after}; before: {before}"]


def _flashing(change: Change) -> str:
    wider = "wider" if change.girth >= 0 else "narrower"
    number = "lengths as before"
    if change.flashing is not None:
        number = f"{change.flashing} lengths of 10 ft as before"
    return f"flashing over the gap: girth {length_of(abs(change.girth))} {wider}; {number}"


def _cover(change: Change) -> str:
    over = change.after.case.gap.roof_insulation
    deep = sixteenths(change.after.member.d)
    if over is None:
        return (
            "roof insulation is not given (gap.roof_insulation): whether it covers outriggers "
            f"{deep} deep, and how long its fasteners must be, is not known"
        )
    assert change.cover is not None
    text = f"roof insulation is left at {length(over)}: "
    if change.cover < 0:
        return text + f"outriggers {deep} deep stand {sixteenths(-change.cover)} out of it"
    return text + (
        f"{sixteenths(change.cover)} of it lies over outriggers {deep} deep; a fastener through it "
        f"needs that and its hold in wood, and {length(over)} and its hold beside them"
    )
