"""The proof on screen: a line a group, the sources; every value where that is asked."""

from collections.abc import Sequence
from itertools import groupby

from outrigger import __version__
from outrigger.base.tables import WORDS
from outrigger.proof.compared import KINDS, Compared, worst
from outrigger.proof.prove import Proof
from outrigger.proof.unverified import LISTED, Listing
from outrigger.report import proof_words
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap

HEAD = ("", "published", "derived", "fitted", "recalled", "differ", "worst")


def page(proof: Proof, width: int, *, every: bool) -> str:
    """The page; `every`: with each value."""
    said = wrap(proof_words.verdict(proof), width)
    parts = [f"outrigger {__version__}, on this machine", said, ""]
    if every:
        for group, rows in proof.groups:
            parts += [f"{group.title}:", *_values(rows, width), ""]
    parts += [*_groups(proof, width), ""]
    if proof.off:
        parts += ["Not reproduced:", *(_value(row, width, whole=True) for row in proof.off), ""]
    parts += [wrap(text, width) for text in (proof_words.apart(proof), proof_words.LEGEND)]
    parts += [wrap(proof_words.SHARE, width), ""]
    different = [row for row in proof.rows if row.differs]
    if every and different:
        parts += ["Known to differ:", *(_different(row, width) for row in different), ""]
    parts += [*_sources(proof, width, every=every), ""]
    if not every:
        names = ", ".join(group.name for group, _ in proof.groups)
        parts.append(wrap(f"Every value: outrigger prove --all, or a group: {names}.", width))
    parts += [wrap(text, width) for text in proof_words.lines()]
    return "\n".join((*parts, said))


def _groups(proof: Proof, width: int) -> list[str]:
    rows: list[tuple[str, ...]] = [HEAD]
    for group, listed in proof.groups:
        counts = (proof_words.of_count(proof.count(kind, listed)) for kind in KINDS[:-1])
        differ = f"{proof.count(KINDS[-1], listed)[1]:,}"
        rows.append((group.title, *counts, differ, proof_words.share(worst(listed))))
    shown = [tuple("" if cell == "0" else cell for cell in row) for row in rows]
    table = columns(shown, "lrrrrrr", width, between="  ")
    return table or [_narrow(row, width) for row in rows[1:]]


def _narrow(row: Sequence[str], width: int) -> str:
    """A group where the screen is too narrow for its row."""
    cells = zip(row[1:-1], HEAD[1:-1], strict=True)
    told = [f"{cell} {name}" for cell, name in cells if cell != "0"]
    return wrap(f"{row[0]}: {', '.join(told)}; worst {row[-1]}", width, "  ")


def _values(rows: Sequence[Compared], width: int) -> list[str]:
    """Each value under its source, table and status."""
    parts = []
    for (name, at, status, of), listed in groupby(rows, key=_heading):
        said = WORDS.get(status, status.lower())
        parts.append(wrap(f"{name}, {at} ({said}){f': {of}' if of else ''}", width, "  "))
        parts += [_value(row, width) for row in listed]
    return parts


def _heading(row: Compared) -> tuple[str, str, str, str]:
    return row.source.name, row.at, row.status, row.of


def _value(row: Compared, width: int, *, whole: bool = False) -> str:
    mark = "" if row.within else "differs " if row.differs else "NOT WITHIN ROUNDING "
    more = f" ({row.why})" if row.why else ""
    said = proof_words.whole(row) if whole else f"{row.what}: {proof_words.here(row)}"
    return wrap(f"{mark}{said}{more}", width, "    ")


def _different(row: Compared, width: int) -> str:
    return wrap(f"{proof_words.whole(row)}: {row.differs}", width, "  ")


def _sources(proof: Proof, width: int, *, every: bool) -> list[str]:
    """The sources with their counts: by name, or in full, one a line."""
    if every:
        lines = [
            wrap(f"{proof_words.cited(one)}: {count:,}; read: {one.read}", width, "  ")
            for one, count in proof.sources
        ]
        return ["Sources, with the values of each:", *lines]
    named = "; ".join(f"{one.name} ({count:,})" for one, count in proof.sources)
    return [wrap(f"Sources, with the values of each: {named}.", width)]


def unverified_page(listings: Sequence[Listing], width: int) -> str:
    """Every value of a table that was not read in a named source."""
    total = {status: sum(len(t.of_status(status)) for t in listings) for status in LISTED}
    said = ", ".join(f"{count:,} {WORDS[status]}" for status, count in total.items() if count)
    head = (
        f"{sum(total.values()):,} values of {len(listings)} tables were not read in a named source "
        f"that shows them: {said}. Each is marked wherever it is used."
    )
    parts = [wrap(head, width), ""]
    for one in listings:
        parts.append(wrap(f"{one.name}: {one.title}, {one.rows} rows", width))
        for status in LISTED:
            if values := one.of_status(status):
                named = "; ".join(f"{v.row} ({v.of})" if v.of else v.row for v in values)
                parts.append(wrap(f"{len(values)} {WORDS[status]}: {named}", width, "  "))
    return "\n".join((*parts, "", *(wrap(text, width) for text in proof_words.lines())))
