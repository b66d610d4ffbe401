"""Five lines to text to someone: which job, whether it works, what, how hard it pulls, and what it
is not."""

from outrigger.actions.places import BACK
from outrigger.base.quantity import length
from outrigger.report import words
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import in_words

MOST = 40  # characters in a line
WORDS = {"pass": "YES", "fail": "NO", "open": "CANNOT SAY"}


def lines(design: Design, *, changed: bool = False, sample: bool = False, more: str = "") -> str:
    """The five lines; `changed`: settings stand over the file, so it goes back to the engineer;
    `more`: what stands behind the answer, where there is room."""
    piece = design.case.outrigger
    revision = f"rev {words.shortened(words.rev(design.case), 13)}"
    digest = words.digest(design.case.digest)[:9]
    name = "SAMPLE" if sample else words.printable(design.case.project.name)
    which = f" {revision}, {digest}"
    back = f"@ {length(piece.spacing)}, back {length(piece.back_span)}"
    lumber = f"{piece.size} {design.wood.row.species} {piece.grade} {back}"
    if len(lumber) > MOST:
        lumber = f"{piece.size} {piece.grade} {back}"
    end = (
        "Changed: back to the engineer. No permit"
        if changed
        else "Engineer must adopt it. No permit."
    )
    found = [
        words.shortened(name, MOST - len(which)) + which,
        words.shortened(_answer(design, sample, bool(more)) + more, MOST),
        words.shortened(lumber, MOST),
        words.shortened(_pull(design), MOST),
        end,
    ]
    return "\n".join(found)


def _answer(design: Design, sample: bool, short: bool = False) -> str:
    """Yes, no, or that it cannot be said, first; then what decides; `short`: without its place."""
    word = WORDS[design.verdict]
    word = word.lower() if sample else word
    row = design.closest
    if design.verdict == "open":
        missing = len(design.not_given) or sum(r.status == "open" for r in design.rows)
        row = next((one for one in design.rows if one.status == "open"), row)
        first = in_words(design.not_given[0]) if design.not_given else words.subject(row)
        return f"{word}: {first}" if missing == 1 else f"{word}: {missing} things open"
    used = "fails" if row.ratio is None else words.ratio(row.ratio)
    return f"{word}: {used} {row.check.kind.name if short else words.subject(row)}"


def _pull(design: Design) -> str:
    """What a back clip pulls."""
    pull = most_pulls(design).get(BACK)
    return "No back clip given" if pull is None else f"Back clip pulls {pull:,.0f} lb each"
