"""Pages that are handed on by themselves: to the inspector, what to look at, in order; to the
designer of the house's trusses, what the outriggers put on them."""

from collections.abc import Iterator

from outrigger.actions.geometry import tail_of
from outrigger.actions.places import BACK
from outrigger.base.quantity import feet_and_inches, length
from outrigger.cases.batch import on_a_pair
from outrigger.cases.hold_down import HoldDown
from outrigger.report import cautions, handed, words
from outrigger.report.summary.hand_over import blocks_held, layout_lines
from outrigger.report.write.document import (
    Block,
    Bold,
    Bullets,
    Chapter,
    Figure,
    Paragraph,
    Runs,
    Table,
)
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import LEVELS

BOX, TRUSS = "[ ]", "truss"
NOT_TO_BUILD = "Nothing to look at: this wall fails, and is not to be built so."
TIE = "\N{NO-BREAK SPACE}"


def pages(design: Design, section: Figure) -> list[Chapter]:
    """The page for the inspector, with the section, and that for the truss designer where the house
    has trusses."""
    blocks: list[Block] = [
        Paragraph(f"{words.job(design)}, case {words.digest(design.case.digest)}.", "small"),
        Paragraph((Bold(f"{words.title(design)}."),)),
        *_list(design),
        section,
        Paragraph(f"{cautions.SEALED} {words.ENGINEERS_LINE}", "small"),
    ]  # fmt: skip
    found = [Chapter("For the inspector", blocks, 1, "inspector")]
    rafter = design.case.house_rafter
    if rafter is not None and rafter.kind == TRUSS:
        title = "For the designer of the house trusses"
        found.append(Chapter(title, _trusses(design), 1, "trusses"))
    return found


def _list(design: Design) -> list[Block]:
    """The lines with a box to tick; none for a wall that fails."""
    if design.verdict == "fail":
        return [Paragraph((Bold(NOT_TO_BUILD),))]
    head = ("seen", "what, in the order of the work", "clause")
    rows = list(_looked_at(design))
    return [Table(head, rows, "lll", (0.45, 5.0, 1.8), "What the inspector looks at")]


def _looked_at(design: Design) -> Iterator[tuple[Runs, ...]]:
    """A line for each thing: what must be there, and the clause of the check that rests on it."""
    case, piece, gap = design.case, design.case.outrigger, design.case.gap
    clauses = {row.check.kind.id: row.check.clause for row in reversed(design.rows)}

    def line(what: str, kind: str = "") -> tuple[Runs, ...]:
        return (BOX, what, clauses.get(kind, ""))

    wet = f", {piece.moisture} in service" if piece.moisture else ""
    plies = f"{piece.plies} plies of " if piece.plies > 1 else ""
    named = design.wood.row
    yield line(f"Stamp: {plies}{piece.size} {named.species} {named.grade}{wet}", "bending")
    yield from (line(said.removesuffix(".")) for said in layout_lines(design))
    lies = f"back span {length(piece.back_span)}; gap {length(gap.width)}"
    if case.layout is None:
        lies = f"every {words.spacing(piece.spacing)}; {lies}"
    yield line(
        f"{words.capital(lies)}; {length(piece.behind_back)} behind the back clip, tail "
        f"{length(tail_of(case))}; piece {feet_and_inches(float(design.shape.length.ravel()[0]))}"
    )
    cut = [f"{name} notch {length(deep)}" for name, deep in
           (("top", piece.top_notch), ("bottom", piece.bottom_notch)) if deep]  # fmt: skip
    yield line(f"Cut: {', '.join(cut) or 'no notch'}; no holes but those of its fasteners", "notch")
    yield line(f"Bears {length(gap.edge_bearing)} on the house wall, on solid wood", "edge_bearing")
    if piece.blocking:
        places = ", ".join(b if isinstance(b, str) else length(b) for b in piece.blocking)
        yield line(f"Full-depth blocks at: {places}.{blocks_held(piece)}", "roll_over")
    for hold in case.hold_down:
        by = hold.rated_source or hold.side_fastener or hold.deck_fastener
        into = f", its fasteners seen in {hold.into}" if hold.into else ""
        said = f"{words.capital(words.clip(hold.name))}: {hold.count} on each"
        said += f"{words.on_a_pair(case, hold.count, on_a_pair(hold))}{into}"
        yield line(f"{said}; {words.printable(by)}" if by else said, "hold_down")
    if (tie := case.wall_tie) is not None:
        by = tie.fastener or tie.rated_source
        said = f"Garage plate tied down to each outrigger, {tie.count}"
        said += words.ties_on_a_pair(case, tie)
        yield line(f"{said}: {words.printable(by)}" if by else said, "wall_tie")
    if (edge := case.house_edge) is not None:
        said = f"Right under them: {edge.kind}, {edge.plies} x {edge.size} {edge.species}"
        yield line(f"{said} {edge.grade}, span {length(edge.span)}", "house_edge")
    if (rafter := case.house_rafter) is not None and rafter.size:
        said = f"House rafters {rafter.size} {rafter.species or ''} {rafter.grade}"
        yield line(said.strip(), "house_rafter")
    yield line("Room under the garage wall, so that it is not lifted; free to slip at its ends")
    yield line("Nobody on the end before the clips are in")


def _inward(design: Design, hold: HoldDown) -> float:
    """How far inward of the bearing on the house wall a clip stands, along the outrigger, in."""
    if isinstance(hold.at, float):
        return hold.at
    return design.case.outrigger.back_span if hold.at == BACK else 0.0


def _trusses(design: Design) -> list[Block]:
    """Places, the most of each way at both levels, the loads by source, the snow on the roof."""
    rows: list[tuple[Runs, ...]] = []
    for phrase, levels in handed.most(design):
        at = {one.level: one for one in levels}
        cells = [f"{at[level].force:,.0f}{TIE}lb" if level in at else "" for level in LEVELS]
        rows.append((phrase, *cells))
    table, cases = handed.table(design)
    by_load: list[tuple[Runs, ...]] = [
        (phrase, *("" if one is None else f"{one[0]:,.0f}{TIE}lb" for one in cells))
        for phrase, cells in table
    ]
    places = [
        f"{words.capital(words.clip(hold.name))}: "
        f"{length(_inward(design, hold))} in from the middle of the bearing on the house wall"
        for hold in design.case.hold_down
    ]
    title = f"{words.capital(handed.title(design))}."
    return [
        Paragraph(f"{words.job(design)}, case {words.digest(design.case.digest)}.", "small"),
        Paragraph((Bold(f"{words.title(design)}."),)),
        Paragraph("Each outrigger pulls and pushes at these places; the trusses are not checked "
                  "here, and are open until their designer has taken these loads in."),
        Bullets(places),
        Table((f"at most, {words.each(design)}", *LEVELS), rows, "lrr", (4.0, 1.2, 1.2),
              "Envelopes"),
        Table(("unfactored", *map(words.load_case, cases)), by_load, "l" + "r" * len(cases),
              (2.6, *(1.0,) * len(cases)), "Unfactored, by load and source"),
        *(Paragraph(words.printable(text), "small") for text in handed.snow_on_house(design)),
        Paragraph(title, "small"),
        Paragraph(f"{cautions.SEALED} {words.ENGINEERS_LINE}", "small"),
    ]  # fmt: skip
