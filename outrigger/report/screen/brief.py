"""Five lines to text to someone: which job, whether it works, what, how hard it pulls, and what it
is not."""

from outrigger.actions.places import BACK
from outrigger.base.quantity import length
from outrigger.marks.of_case import has_pairs
from outrigger.report import words
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import head, in_words
from outrigger.wood.stamps import stamp_of

MOST = 40  # characters in a line
WORDS = {"pass": "YES", "fail": "NO", "open": "CANNOT SAY"}


def lines(design: Design, *, changed: bool = False, sample: bool = False, more: str = "") -> str:
    """The five lines; `changed`: settings stand over the file, so it goes back to the engineer;
    `more`: what stands behind the answer, where there is room."""
    revision = f"rev {words.shortened(words.rev(design.case), 13)}"
    digest = words.digest(design.case.digest)[:9]
    name = "SAMPLE" if sample else words.printable(design.case.project.name)
    which = f" {revision}, {digest}"
    end = (
        "Changed: back to the engineer. No permit"
        if changed
        else "Engineer must adopt it. No permit."
    )
    said = _answer(design, sample, short=bool(more)) + more
    if len(said) > MOST:  # a number cut short is another number
        said = words.shortened(_answer(design, sample), MOST)
    found = [
        words.shortened(name, MOST - len(which)) + which,
        said,
        words.shortened(_lumber(design), MOST),
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
        missing = [in_words(one) for one in design.not_given]
        missing += [head(text) for text in design.not_covered]
        missing = missing or [words.subject(r) for r in design.rows if r.status == "open"]
        return f"{word}: {missing[0] if len(missing) == 1 else f'{len(missing)} things open'}"
    used = "fails" if row.ratio is None else words.ratio(row.ratio)
    return f"{word}: {used} {row.check.kind.name if short else words.subject(row)}"


def _lumber(design: Design) -> str:
    """What is cut: one piece of two plies, or one laid flat, never reads as a single one on edge;
    the wood by its stamp where its name is too long, the back span left out before the wood."""
    piece, species = design.case.outrigger, design.wood.row.species
    plies = f"{piece.plies} " if piece.plies > 1 else ""
    flat = " flat" if piece.laid == "flat" else ""
    pairs = ", some in pairs" if has_pairs(design.case) else ""
    back = f", back {length(piece.back_span)}"
    stamp = stamp_of(species)
    for wood, more in ((species, back), (stamp, back), (stamp, ""), ("", back), ("", "")):
        named = " ".join(filter(None, (f"{plies}{piece.size}", wood, f"{piece.grade}{flat}")))
        said = f"{named} @ {words.spacing(piece.spacing)}{pairs}{more}"
        if len(said) <= MOST:
            break
    return said


def _pull(design: Design) -> str:
    """The gap, and what a back clip pulls over it."""
    gap = f"Gap {length(design.case.gap.width)}"
    pull = most_pulls(design).get(BACK)
    if pull is None:
        return f"{gap}: no back clip given"
    said = f"{gap}: back clip pulls {pull:,.0f} lb each"
    return said if len(said) <= MOST else said.replace(" pulls", "")
