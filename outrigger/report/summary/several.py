"""The calculation summary of several runs: one cover that lists them, the worst first, with what
each house wall is handed in all; then the pages of each, their titles with its name."""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.places import EDGE
from outrigger.base.quantity import feet_and_inches
from outrigger.report import words
from outrigger.report.screen.runs import NOT_AT_ONCE, caution_lines, line, notes, too_small
from outrigger.report.summary import build as summary
from outrigger.report.summary.cover import ADOPTION, PRELIMINARY
from outrigger.report.write.document import (
    AdoptionBox,
    Attachment,
    Block,
    Bold,
    Bullets,
    Chapter,
    Document,
    Page,
    Paragraph,
    Runs,
    Table,
    runs,
)
from outrigger.studies.for_summary import Findings
from outrigger.studies.runs import Run, Wall, walls
from outrigger.verdict.envelopes import PUSH

KINDS = (".pdf", ".html", ".md")
LONGEST = 60  # characters of all the names at the foot of the cover


class Part(Struct, frozen=True, eq=False):
    """One run of the document: its design as studied, its file and settings."""

    run: Run
    found: Findings
    called: summary.Called


def build(parts: Sequence[Part], sample: bool) -> Document:
    """The document of several runs; `parts`: the worst first."""
    listed = [part.run for part in parts]
    documents = [summary.build(part.found, part.called) for part in parts]
    names = [words.printable(run.design.case.project.name) for run in listed]
    foot = f"{words.shortened(', '.join(names), LONGEST)}: {len(parts)} runs, cases " + ", ".join(
        words.digest(run.design.case.digest)[:9] for run in listed
    )
    return Document(
        title="Outrigger calculation summary",
        job=f"{len(parts)} runs of wall: {', '.join(names)}",
        foot=f"{foot}, preliminary until adopted, see cover",
        cover_foot=foot,
        sample=words.SAMPLE if sample else "",
        sections=[
            Chapter("", _cover(listed, sample), 0, "cover"),
            *(
                chapter
                for i, one in enumerate(documents, 1)
                for chapter in _chapters(i, parts[i - 1].run, one)
            ),
        ],
        attachments=[
            Attachment(f"run-{i}.{kind}", one.text, one.kind, f"Run {i}. {one.says}")
            for i, document in enumerate(documents, 1)
            for one, kind in zip(document.attachments, ("toml", "json"), strict=True)
        ],
    )


def _cover(listed: Sequence[Run], sample: bool) -> list[Block]:
    """The one cover: the box, the verdict of the whole, the runs, what each house wall gets."""
    blocks: list[Block] = [
        AdoptionBox(PRELIMINARY, ADOPTION),
        Paragraph((Bold(line(listed, {}, sample)),), "lead"),
        _runs(listed),
    ]
    for wall in walls(listed):
        blocks += _wall(wall)
    said = [text for text in notes(listed, {}) if text != NOT_AT_ONCE]
    return [*blocks, *(Paragraph(text, "small") for text in (*said, *caution_lines(listed)))]


def _runs(listed: Sequence[Run]) -> Table:
    """A row for each run, the worst first."""
    states = {"fail": "FAILS", "open": "open", "pass": "passes"}
    rows: list[tuple[Runs, ...]] = []
    for i, run in enumerate(listed, 1):
        design, row = run.design, run.design.closest
        known = row.ratio is not None and design.verdict != "open"
        rows.append((
            words.printable(design.case.project.name),
            (Bold(states[design.verdict]),),
            words.ratio(row.ratio) if known else "",
            words.subject(row) if design.verdict != "open" else "see what is missing",
            "" if run.length is None else feet_and_inches(run.length),
            words.printable(run.wall),
            words.rev(design.case),
            words.digest(design.case.digest),
            (Page(f"run-{i}"),),
        ))  # fmt: skip
    head = ("run", "verdict", "used", "closest", "long", "house wall", "rev", "case", "see")
    widths = (1.5, 0.6, 0.45, 1.6, 0.8, 0.8, 0.45, 0.9, 0.45)
    return Table(head, rows, "llrlrlllr", widths, "Every run, the worst first")


def _wall(wall: Wall) -> list[Block]:
    """What one house wall and the roof behind it are handed by all its runs."""
    apart = [run.file for run in wall.runs if run.length is None]
    missing = f" Not added, without a [layout]: {', '.join(apart)}." if apart else ""
    missing += "".join(f" {text}" for text in too_small(wall))
    if not wall.measured:
        return [Paragraph(f"House wall {words.printable(wall.name)}: no total.{missing}", "small")]
    title = (
        f"Handed to the house wall {words.printable(wall.name)} by "
        f"{feet_and_inches(wall.length)} of wall in all."
    )
    rows: list[tuple[Runs, ...]] = []
    for at, way, asd, strength in wall.handed:
        where = "wall" if at == EDGE else f"roof, {words.clip(at)}s"
        place = f"{'pushes down' if way == PUSH else 'pulls up'} on the house {where}"
        rows.append((place, (Bold(words.amount(asd, "lb")),), words.amount(strength, "lb")))
    table = Table(("in all", "ASD", "strength"), rows, "lrr", (4.5, 1.2, 1.2), title)
    return [
        Paragraph((Bold(title), f"{missing} {NOT_AT_ONCE}")), table, *_unfactored(wall)
    ]  # fmt: skip


def _unfactored(wall: Wall) -> list[Block]:
    """The same without factors, by load and source."""
    if len(wall.editions) > 1:
        said = "Unfactored loads of two editions are not added: their snow is of two levels."
        return [Paragraph(said, "small")]
    found: dict[str, list[str]] = {}
    for one in wall.totals:
        if not one.level and round(one.force):
            way = "down" if one.way == PUSH else "up"
            text = f"{words.load_case(one.case)} {one.force:,.0f} lb {way} ({one.source})"
            found.setdefault(words.place(one.at), []).append(text)
    items: list[Runs] = [f"{words.capital(at)}: {', '.join(of)}." for at, of in found.items()]
    return [Paragraph("Unfactored, in all:", "small"), Bullets(items, "small")] if items else []


def _chapters(number: int, run: Run, document: Document) -> list[Chapter]:
    """The chapters of one run: its name in their titles, anchors of its own, no box to adopt."""
    prefix, name = f"run-{number}-", words.printable(run.design.case.project.name)
    opens = Chapter(f"Run {number}: {name}", [], 1, f"run-{number}", foot=document.foot)
    found = [opens]
    for one in document.sections:
        blocks = [_own(block, prefix) for block in one.blocks if not isinstance(block, AdoptionBox)]
        title = f"{one.title}, run {number}: {name}" if one.title and one.level < 3 else one.title
        level = 2 if one.level == 1 else one.level
        anchor = prefix + one.anchor if one.anchor else ""
        found.append(replace(one, title=title, blocks=blocks, level=level, anchor=anchor))
    return found


def _own(block: Block, prefix: str) -> Block:
    """A block whose pages are those of its own run."""
    match block:
        case Paragraph():
            return replace(block, runs=_pages(block.runs, prefix))
        case Bullets():
            return replace(block, items=[_pages(one, prefix) for one in block.items])
        case Table():
            rows = [[_pages(cell, prefix) for cell in row] for row in block.rows]
            return replace(block, rows=rows)
    return block


def _pages(given: Runs, prefix: str) -> Runs:
    return tuple(Page(prefix + one.anchor) if isinstance(one, Page) else one for one in runs(given))
