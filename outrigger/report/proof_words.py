"""The proof in words: what its counts are, and its sources."""

from outrigger.base.tables import OTHER_EDITION, SECOND_HAND, SEEN
from outrigger.proof.compared import PUBLISHED, Compared, Source
from outrigger.proof.prove import Proof
from outrigger.report import cautions

NO_JOB = "Not checked: any job at all. That numbers agree with books is no design."
LEGEND = (
    "Published: printed by a source. Derived: computed apart from the program, by hand, by another "
    "program or by sympy. Fitted: a number that the source does not print was chosen so that this "
    "one comes out. Recalled: not read, or in a document whose name was not kept."
)
SHARE = (
    "Worst: how far off, as a share of half of the last printed digit, or of what is said beside a "
    "value; over 1.00 it is not reproduced."
)

APART = ("derived", "fitted", "recalled")
READ = {
    SEEN: "were read in the source or in a named page that shows it",
    SECOND_HAND: "second-hand, in a program or a transcription alone",
    OTHER_EDITION: "in another edition",
}


def verdict(proof: Proof) -> str:
    """The proof in one sentence."""
    within, of = proof.count("published")
    sources = len(proof.sources)
    if proof.holds and not of:
        return (
            f"All {len(proof.rows):,} values are within their rounding; none of them is published."
        )
    if proof.holds:
        return f"Reproduces {of:,} published values of {sources} sources, each within its rounding."
    missed = len(proof.off)
    return (
        f"NOT REPRODUCED: {missed:,} value{'' if missed == 1 else 's'}. {within:,} of {of:,} "
        f"published values of {sources} sources are within their rounding."
    )


def apart(proof: Proof) -> str:
    """What is counted apart."""
    said = ", ".join(
        f"{count:,} {kind}" for kind, count in proof.counts.items() if kind in APART and count
    )
    different = proof.counts["differs"]
    more = f" {different} known to differ, each with its reason." if different else ""
    return f"{read(proof)}Counted apart: {said or 'none'}.{more}"


def read(proof: Proof) -> str:
    """How the published values were read."""
    statuses = [row.status for row in proof.rows if row.kind == PUBLISHED]
    said = ", ".join(
        f"{statuses.count(status):,} {how}" for status, how in READ.items() if status in statuses
    )
    return f"Of the published {said}. " if said else ""


def of_count(pair: tuple[int, int]) -> str:
    """A count of one kind: plain where all are within rounding."""
    within, of = pair
    return f"{of:,}" if within == of else f"{within:,} of {of:,}"


def share(row: Compared | None) -> str:
    """How far off a value is, as a share of what is allowed."""
    return "" if row is None else f"{row.off:.2f}"


def number(value: float) -> str:
    """A number of the program, to six digits."""
    return f"{value:,.6g}"


def here(row: Compared) -> str:
    """As printed, and here."""
    return f"{as_printed(row)}, here {number(row.here)}"


def as_printed(row: Compared) -> str:
    """A value as its source prints it, with its unit; feet and inches in inches too."""
    if "-" in row.printed[1:]:
        return f"{row.printed} ({row.value:g} {row.unit})"
    return f"{row.printed} {row.unit}".rstrip()


def whole(row: Compared) -> str:
    """A value with its source, as printed and here."""
    of = f"{row.of}, " if row.of else ""
    return f"{row.source.name}, {row.at}: {of}{row.what}: {here(row)}"


def cited(source: Source) -> str:
    """Author or body, title, edition."""
    return f"{source.author}, {source.title} ({source.edition})"


def lines() -> tuple[str, str]:
    """The cautions of a page that is of no job."""
    return cautions.ADOPT, NO_JOB
