"""The verdict in words: what fails, what is open, the last lines of an output."""

from outrigger.checks.hold_downs import RATED, listed_uplift
from outrigger.report.words import amount, of_sample, place, ratio, subject
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.elsewhere import elsewhere
from outrigger.verdict.missing_fact import ENGINEER
from outrigger.verdict.unknown import in_words

MOST_ELSEWHERE = 3  # named where there is little room


def verdict(design: Design) -> str:
    """The verdict in one line, with its count and its closest check."""
    rows = [row for row in design.rows if row.demand or row.status != "pass"]  # something to carry
    passed = sum(row.status == "pass" for row in rows)
    count = f"{passed} of {len(rows)} checks"
    governing = design.closest
    used = ratio(governing.ratio)
    match design.verdict:
        case "pass":
            lowered = " of its lowered value" if _lowered(design, governing) else ""
            return f"PASS, {count}. Closest: {subject(governing)}, {used}{lowered}."
        case "fail":
            return f"FAIL: {_failure(governing, rows)} {count} pass."
    if _engineers_alone(design):
        return f"OPEN for the engineer only: {left_open(design)}. {count} pass."
    return f"OPEN: cannot say yet, {left_open(design)}. {count} pass so far."


def _engineers_alone(design: Design) -> bool:
    """Whether all that is open is a question that only the engineer of record answers, and no load
    and no strength hangs on it."""
    asked = bool(design.not_given) and not design.not_covered
    rows = any(row.status == "open" for row in design.rows)
    return (
        asked
        and not rows
        and all(one.who == ENGINEER and not one.bears for one in design.not_given)
    )


def _failure(governing: CheckResult, rows: list[CheckResult]) -> str:
    """What fails first, and how many more."""
    failing = [row for row in rows if row.status == "fail"]
    first = governing if governing.status == "fail" else failing[0]
    others = len(failing) - 1
    more = f" {others} more {'fails' if others == 1 else 'fail'}." if others else ""
    if first.check.link.missing:
        uplift = amount(first.demand, first.check.unit)
        return f"net uplift of {uplift} at the {place(first.check.place)} and no tie there.{more}"
    if first.ratio is None:
        return f"{subject(first)}: {first.check.why}.{more}"
    return f"{subject(first)} {ratio(first.ratio)}.{more}"


def _lowered(design: Design, row: CheckResult) -> bool:
    """Whether a row is held to one listed value, and that is lowered to longer loads."""
    if row.check.link != RATED or row.check.unit != "lb":  # with a side force: two values
        return False
    hold = design.member.holds[row.check.place]
    return listed_uplift(design.member, hold).duration is not None


def left_open(design: Design) -> str:
    """What keeps a verdict open, the first reason and how many more; empty: nothing does."""
    rows = design.rows
    reasons = [f"{in_words(one)} {one.lack}" for one in design.not_given]
    reasons += [f"{text.partition(':')[0]} not computed" for text in design.not_covered]
    reasons += [f"{subject(row)} is open" for row in rows if row.status == "open"]
    more = f" and {len(reasons) - 1} more" if len(reasons) > 1 else ""
    return reasons[0] + more if reasons else ""


def verdict_line(design: Design, sample: bool = False) -> str:
    """The verdict, the same at the top and near the end."""
    return of_sample(verdict(design)) if sample else verdict(design)


def at_other_marks(design: Design, most: int | None = MOST_ELSEWHERE) -> str:
    """Of a layout, that the rows are of one mark, and what others use more of; empty where none
    does. `most`: so many, None: all."""
    more = elsewhere(design)
    if not more:
        return ""
    shown = [f"{subject(one.row)} {ratio(one.row.ratio)} (mark {one.mark})" for one in more[:most]]
    rest, left = "", more[len(shown) :]
    if left:
        over = ratio(left[0].row.ratio)
        rest = f" and {len(left)} more, none over {over}, in `outrigger layout` and --all"
    return f"Rows are of mark {design.mark}. Others use more of: {', '.join(shown)}{rest}."
