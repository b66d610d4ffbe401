"""The proof as two pages to staple to a package: what is reproduced, and from which sources."""

from outrigger import __version__
from outrigger.proof.compared import KINDS, Compared, worst
from outrigger.proof.prove import Proof
from outrigger.report import proof_words
from outrigger.report.write.document import (
    Blank,
    Block,
    Bold,
    Bullets,
    Chapter,
    Document,
    Paragraph,
    Runs,
    Table,
)

MOST_LISTED, FEW = 10, 4  # of what differs; of both, where something is not reproduced


def document(proof: Proof) -> Document:
    """Groups, what is counted apart and what differs; the sources on the second page."""
    program = f"outrigger {__version__}"
    most = FEW if proof.off else MOST_LISTED
    first: list[Block] = [
        Paragraph((Bold(proof_words.verdict(proof)),), "lead"),
        Paragraph(f"{proof_words.apart(proof)} {proof_words.LEGEND} {proof_words.SHARE}", "small"),
        _groups(proof),
    ]
    chapters = [
        Chapter("", first, 0, "proof"),
        *_listed("Not reproduced", proof.off, most),
        Chapter("Farthest off in each group", [_worst(proof)], 2, "worst"),
        *_listed("Known to differ", [row for row in proof.rows if row.differs], most),
        Chapter("What this is", [Paragraph(WHAT, "small"), _cautions(), RUN_BY], 2, "what"),
        Chapter("Sources", [_sources(proof)], 1, "sources", columns=2),
    ]
    foot = f"{program}, outrigger prove"
    return Document(
        title="Published values worked again",
        job=program,
        foot=foot,
        cover_foot=foot,
        sample="",
        sections=chapters,
    )


RUN_BY = Paragraph((Blank(2.5, "run by"), "   ", Blank(1.3, "date")), "small")
WHAT = (
    "The values stand in the program as data, each with its source, table or page and status. The "
    "functions that a check uses worked them again where this page was made; no number here was "
    "made by the program and then expected of it. Nobody here has read the printed standards "
    "themselves: the second page says how each source was read. With --all the command prints "
    "every value, with --unverified every row of a table that was not read in a named source."
)


def pdf(proof: Proof) -> bytes:
    """The two pages; the same bytes for the same proof."""
    from outrigger.report.write import pdf as writer  # slow to load; only pages need it

    return writer.pdf(document(proof))


def _groups(proof: Proof) -> Table:
    rows: list[tuple[Runs, ...]] = []
    for group, listed in proof.groups:
        counts = [proof_words.of_count(proof.count(kind, listed)) for kind in KINDS[:-1]]
        differ = f"{proof.count(KINDS[-1], listed)[1]:,}"
        rows.append((group.title, *counts, differ, proof_words.share(worst(listed))))
    total = [proof_words.of_count(proof.count(kind)) for kind in KINDS[:-1]]
    rows.append(
        (
            (Bold("all"),),
            *((Bold(text),) for text in total),
            f"{proof.counts[KINDS[-1]]:,}",
            proof_words.share(proof.worst),
        )
    )
    head = ("group", *KINDS[:-1], "differ", "worst")
    return Table(head, rows, "lrrrrrr", (2.2, 1, 1, 1, 1, 1, 1), "Counts of each group")


def _worst(proof: Proof) -> Table:
    rows: list[tuple[Runs, ...]] = []
    for _, listed in proof.groups:
        if one := worst(listed):
            of = f"{one.of}, " if one.of else ""
            said = f"{one.source.name}, {one.at}: {of}{one.what}"
            rows.append(
                (
                    said,
                    proof_words.as_printed(one),
                    proof_words.number(one.here),
                    proof_words.share(one),
                )
            )
    head = ("value", "printed", "here", "worst")
    return Table(head, rows, "lrrr", (4.6, 1.0, 1.0, 0.6), "The value farthest off in each group")


def _listed(title: str, rows: list[Compared], most: int) -> list[Chapter]:
    if not rows:
        return []
    items: list[Runs] = [
        proof_words.whole(row) + (f": {row.differs}" if row.differs else "") for row in rows[:most]
    ]
    if len(rows) > most:
        items.append(f"and {len(rows) - most:,} more: outrigger prove --all")
    return [Chapter(title, [Bullets(items, "small")], 2, title.lower().replace(" ", "-"))]


def _cautions() -> Paragraph:
    return Paragraph(" ".join(proof_words.lines()), "small")


def _sources(proof: Proof) -> Bullets:
    items: list[Runs] = [
        (Bold(f"{count:,}"), f"  {proof_words.cited(one)}. {one.read[:1].upper()}{one.read[1:]}.")
        for one, count in proof.sources
    ]
    return Bullets(items, "small")
