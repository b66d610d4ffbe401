"""What another gap changes, for the client: lengths, boards, clips, flashing, cover, heat."""

from collections.abc import Collection

from outrigger.base.quantity import feet_and_inches, length, sixteenths
from outrigger.report import verdict_words, words
from outrigger.report.screen.gap_words import closest, down, length_of
from outrigger.report.words import wrap
from outrigger.studies.consequences import Change, Yield
from outrigger.studies.gap_study import GapStudy

INSULATION = "gap.roof_insulation"


def answers(
    found: GapStudy, change: Change | None, width: int, settings: Collection[str] = ()
) -> list[str]:
    """The client's questions: does it work, what changes, who must see it. settings: the keys that
    the command sets."""
    if change is None:
        return []
    was, now = (length_of(one.case.gap.width) for one in (change.before, change.after))
    row = change.after.closest
    works = change.after.works
    reason = verdict_words.left_open(change.after)
    answer = "yes" if works else "no"
    if works and found.unknown.missing:
        answer, reason = "cannot say; so far", ""
    still = f" Open still: {reason}." if works and reason else ""
    asked = f"From {was} to {now}, does it work? {answer.capitalize()}: {closest(row)}.{still}"
    revision = words.printable(found.case.project.revision)
    pulls = [
        f"{words.clip(place)}: pulls {words.pounds(after)} each, {words.pounds(before)} before"
        for place, (before, after) in change.pulls.items()
    ]
    engineer = (
        f"back to the engineer: yes, as a new revision. What was adopted is for {was}, rev "
        f"{revision}; loads, clips and lengths differ"
    )
    said = [
        _pieces(found, change),
        *pulls,
        _flashing(change),
        _cover(change, INSULATION in settings),
    ]
    return [wrap(asked, width), *(wrap(text, width, "  ") for text in [*said, engineer]), ""]


def more(found: GapStudy, change: Change | None, width: int) -> list[str]:
    """What else changes with the gap: boards to buy, heat."""
    if change is None:
        return []
    said = [] if found.cut or not change.yields else [_boards(change), *_bought(change)]
    return ["", "What else changes:", *(wrap(text, width, "  ") for text in [*said, _heat(change)])]


def _pieces(found: GapStudy, change: Change) -> str:
    before, after = change.lengths
    count = change.pieces[1]
    many = "as many as before" if count is None else f"{count}, as before"
    cut = f"{feet_and_inches(after)} in place of {feet_and_inches(before)}"
    if found.cut:
        cut = f"{feet_and_inches(after)}, cut already"
        cut += f"; back span {sixteenths(float(change.after.shape.back_span.ravel()[0]))}"
    return f"pieces: {many}; each {cut}"


def _heat(change: Change) -> str:
    (was_R, now_R) = (float(step.value) for step in change.heat)
    fill = [float(step.inputs["R_fill"].value) for step in change.heat]  # type: ignore[union-attr]
    return (
        f"heat, an estimate: as high as the outriggers the band is R {now_R:.0f}, R {was_R:.0f} "
        f"before (R {fill[1]:.0f} and R {fill[0]:.0f} without wood), parallel paths, R 4 an inch "
        "taken for the insulation (common practice, no source), wood 1.8 times as conductive "
        "along its grain, from memory"
    )


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


def _cover(change: Change, is_set: bool) -> str:
    over = change.after.case.gap.roof_insulation
    deep = sixteenths(change.after.member.d)
    if over is None:
        return (
            "roof insulation is not given (gap.roof_insulation): whether it covers outriggers "
            f"{deep} deep, and how long its fasteners must be, is not known"
        )
    assert change.cover is not None
    word = "set to" if is_set else "left at"
    text = f"roof insulation is {word} {length(over)}: "
    if change.cover < 0:
        return text + f"outriggers {deep} deep stand {sixteenths(-change.cover)} out of it"
    return text + (
        f"{sixteenths(change.cover)} of it lies over outriggers {deep} deep; a fastener through it "
        f"needs that and its hold in wood, and {length(over)} and its hold beside them"
    )
