"""Two designs side by side on screen."""

from collections.abc import Sequence

from outrigger.actions.places import BACK, EDGE
from outrigger.base.quantity import feet_and_inches, length
from outrigger.cases.settings import Override
from outrigger.report import cautions, verdict_words, words
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.studies.compare import Comparison
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import ASD, PULL, PUSH, envelopes

BeforeAfter = tuple[str, str, str]  # what, before, after
NONE = "-"


def page(
    found: Comparison,
    names: tuple[str, str],
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """The whole output of `compare`; names: what each case is called."""
    width = max(30, width)
    sides = [f"{letter}: {_name(name, one)}" for letter, name, one in
             zip("AB", names, (found.before, found.after), strict=True)]  # fmt: skip
    said = wrap(_verdict("B", found.after, sample), width)
    parts = [*[wrap(f"B: {o.text}", width) for o in overrides]]
    parts += [wrap(_verdict("A", found.before, sample), width), said]
    parts += [*[wrap(text, width) for text in [*_more_on_the_house(found), *sides]], ""]
    inputs = [(one.key, one.before, one.after) for one in found.inputs]
    parts += _table("What differs in", inputs, width, "no input that changes a number")
    rows = ratios(found)
    moving = [row for row in rows if row[1] != row[2]]
    used = f"Used of each limit{_at_marks(found)}"
    parts += _table(used, moving, width, f"no ratio moves, {len(rows)} alike")
    if moving and (still := len(rows) - len(moving)):
        parts[-1:] = [wrap(f"{still} more do not move.", width, "  "), ""]
    level = "snow and wind" if found.after.case.basis.loads == "ASCE 7-22" else "wind"
    under = words.each(found.after)
    title = f"Handed to the house under {under}, unfactored ({level} at strength level)"
    parts += _table(title, forces(found), width, "every load alike")
    parts += _table("Pieces and clips", pieces(found), width, "")
    parts += [*cautions.caution_lines(found.after, width), "", said]
    parts.append(wrap(words.ENGINEERS_LINE, width))
    return words.whole(parts, sample)


def _at_marks(found: Comparison) -> str:
    """Of layouts, which marks the rows are of: what moves at another mark is not among them."""
    marks = [one.mark for one in (found.before, found.after)]
    if marks == [None, None]:
        return ""
    said = ", ".join(f"{letter} {NONE if mark is None else mark}"
                     for letter, mark in zip("AB", marks, strict=True))  # fmt: skip
    return f", at the worst mark of the layout ({said}) alone"


def _more_on_the_house(found: Comparison) -> list[str]:
    """How much more or less the house gets, of each way that it gets most of."""
    said = []
    places = ((EDGE, PUSH, "down on the house wall"), (BACK, PULL, "up at the back"))
    for at, way, words_of in places:
        before, after = (
            next((e.force for e in envelopes(one, (ASD,)) if (e.at, e.way) == (at, way)), 0.0)
            for one in (found.before, found.after)
        )
        if round(before) != round(after):
            said.append(f"{before:,.0f} to {after:,.0f} lb {words_of}")
    return [f"Most on {words.each(found.after)} (ASD): {', '.join(said)}."] if said else []


def _name(name: str, design: Design) -> str:
    case = words.digest(design.case.digest)
    return f"{name}, {words.job(design)}, case {case}; {words.title(design)}"


def _verdict(letter: str, design: Design, sample: bool) -> str:
    return f"{letter} {verdict_words.verdict_line(design, sample)}"


def _table(title: str, lines: list[BeforeAfter], width: int, nothing: str) -> list[str]:
    """A title and three columns; each line folded where they do not fit."""
    if not lines:
        return [wrap(f"{title}: {nothing}.", width), ""] if nothing else []
    rows = [("", "A", "B"), *lines]
    listed = columns(rows, "lrr", width, between="  ")
    listed = listed or [wrap(f"{a}: A {b}; B {c}", width, "  ") for a, b, c in lines]
    return [wrap(f"{title}:", width), *listed, ""]


def ratios(found: Comparison) -> list[BeforeAfter]:
    """Used of each limit: every check of both, the closest of the second first."""
    rows = sorted(found.rows, key=lambda pair: -_rank(pair[1]))
    return [
        (words.subject(one or other), _used(one), _used(other))  # type: ignore[arg-type]
        for one, other in rows
    ]


def _rank(row: CheckResult | None) -> float:
    if row is None:
        return -1.0
    return {"fail": 9.0, "open": 8.0, "pass": 0.0}[row.status] if row.ratio is None else row.ratio


def _used(row: CheckResult | None) -> str:
    if row is None:
        return NONE
    if row.ratio is None:
        return {"fail": "FAILS", "open": "open", "pass": NONE}[row.status]
    return words.ratio(row.ratio) + {"fail": " FAILS", "open": " open", "pass": ""}[row.status]


def forces(found: Comparison) -> list[BeforeAfter]:
    """Loads handed to the house."""
    lines = []
    for force in found.forces:
        one, other = (_pounds(value) for value in (force.before, force.after))
        if {one, other} != {_pounds(0.0)}:
            at = f"{words.place(force.at)}, {force.source}"
            lines.append((f"{at}, {words.load_case(force.case)}", one, other))
    return lines


def _pounds(value: float) -> str:
    if round(value) == 0:
        return "0 lb"
    return f"{abs(value):,.0f} lb {'down' if value > 0 else 'up'}"


def pieces(found: Comparison) -> list[BeforeAfter]:
    """Lengths to cut, and the clips with their pull."""
    change = found.change
    long, other_long = change.lengths
    lines = [("piece", feet_and_inches(long), feet_and_inches(other_long))]
    lines += [
        (f"pieces from {length(y.board)}", str(y.before), str(y.after)) for y in change.yields
    ]
    if change.pieces != (None, None):
        one, other = (NONE if count is None else str(count) for count in change.pieces)
        lines.append(("outriggers, every ply", one, other))
        one, other = (
            NONE if count is None else words.stock(packing)
            for count, packing in zip(change.pieces, change.bought, strict=True)
        )
        lines.append(("stock to buy, blocks included", one, other))
    one, other = map(str, found.clips)
    lines.append(("clips on each outrigger", one, other))
    for place, pulls in change.pulls.items():
        was, now = (words.pounds(pull) for pull in pulls)
        lines.append((f"{words.clip(place)}, pull on each", was, now))
    return lines
