"""What leaves the summary: what to copy to the plans, and what the engineer is asked."""

from collections.abc import Sequence

from outrigger.actions.geometry import tail_of
from outrigger.base.quantity import feet_and_inches, length
from outrigger.cases.batch import on_a_pair
from outrigger.cases.below import WallTie
from outrigger.cases.hold_down import HoldDown, astride, through
from outrigger.cases.model import Case
from outrigger.cases.sections import Outrigger
from outrigger.marks.of_case import row_of
from outrigger.report import words
from outrigger.report.write.document import Block, Bullets, Page, Paragraph, Runs
from outrigger.verdict import notes
from outrigger.verdict.design import Design
from outrigger.verdict.handed import by_others


def questions(design: Design) -> list[Runs]:
    """What the engineer is asked: what is not given, open, near the line, or unverified."""
    found: list[Runs] = [
        f"{words.capital(one.question)} ({one.key}; {one.who})" for one in design.not_given
    ]
    found += [
        f"{words.capital(words.subject(row))} is open: {row.check.why}."
        for row in design.rows
        if row.status == "open"
    ]
    found += [f"Not computed yet: {text}. Is it covered elsewhere?" for text in design.not_covered]
    found += [
        (
            "Are the reactions on ",
            Page("house"),
            " acceptable to the house roof, wall and foundation?",
        ),
        "Do the adopted code and its local amendments change any load, factor or limit used here?",
    ]
    if values := notes.unverified(design):
        said = f"{len(values)} kinds of value are of unverified source: is each as printed? "
        found.append((said, Page("assumptions")))
    return found


def plan_lines(design: Design) -> list[str]:
    """What the plans must say for this summary to hold."""
    case, shape = design.case, design.shape
    piece, gap = case.outrigger, case.gap
    items = [
        words.title(design) + ".",
        f"Tail {length(tail_of(case))} beyond the wall line, "
        f"{length(piece.behind_back)} behind the back clip; piece "
        f"{length(float(shape.length.ravel()[0]))} long. {_cut_into(piece)}",
        f"Bearing at the house wall {length(gap.edge_bearing)} long, {_setback(gap.edge_setback)}.",
    ]
    items += layout_lines(design)
    if piece.blocking:
        places = ", ".join(b if isinstance(b, str) else length(b) for b in piece.blocking)
        items.append(f"Full-depth blocking at: {places}.{blocks_held(piece)}")
    items += [_held(case, hold) for hold in case.hold_down]
    if case.wall_tie is not None:
        items.append(_tied(case, case.wall_tie))
    if case.garage_wall.studs_over_outriggers:
        items.append("A stud of the garage wall over every outrigger.")
    items.append(f"Loads on the house: those of the table above, under {words.each(design)}.")
    return items


def _cut_into(piece: Outrigger) -> str:
    """The notches of a piece; it has no holes but those of its fasteners."""
    cut = [f"{name} notch {length(deep)} deep" for name, deep in
           (("Top", piece.top_notch), ("Bottom", piece.bottom_notch)) if deep]  # fmt: skip
    notches = f"{', '.join(cut)}, no other" if cut else "No notches"
    return f"{notches}; no holes but those of its fasteners."


def _held(case: Case, hold: HoldDown) -> str:
    """How many hold-downs stand at a place, and what each of them is."""
    pairs = words.on_a_pair(case, hold.count, on_a_pair(hold))
    said = f"{words.capital(words.place(hold.name))}: {hold.count} to an outrigger{pairs}"
    if astride(hold):
        said += ", each over its top with a foot on each side"
    if through(hold) and hold.rated_uplift is not None:
        said += ", ".join(["", *_built_of(hold)] if hold.deck_fastener else ["", "down through it"])
    if hold.rated_uplift is not None:
        into = f"into {words.printable(hold.rated_into)}" if hold.rated_into else ""
        said += _listed(hold, into)
    else:
        said += ", ".join(["", *_built_of(hold)])
    return f"{said}{f', fastened into {hold.into}' if hold.into else ''}."


def _tied(case: Case, tie: WallTie) -> str:
    """What ties the garage wall to an outrigger."""
    pairs = words.ties_on_a_pair(case, tie)
    said = f"Garage plate tied to each outrigger by {tie.count}"
    if tie.fastener:
        return f"{said} of {words.printable(tie.fastener)}{pairs}, straight down through it."
    return f"{said}{pairs}{_listed(tie, '')}."


def _listed(one: HoldDown | WallTie, into: str) -> str:
    """The least listed values, the column read, the wood and what they hold in."""
    values = [f"{words.amount(value, 'lb')} {way}" for value, way in
              ((one.rated_uplift, "uplift"), (one.rated_lateral, "sideways")) if value]  # fmt: skip
    of = [one.rated_for or "column not given", one.rated_wood or "wood not given", into]
    return f", each listed for not less than {' and '.join(values)} ({', '.join(filter(None, of))})"


def _built_of(hold: HoldDown) -> list[str]:
    """The fasteners, steel and distances of one hold-down that is not listed."""
    deck = f"{hold.deck_fasteners} of {words.printable(hold.deck_fastener)}"
    if through(hold):
        found = [f"{deck} down through it"] if hold.deck_fastener else []
    else:
        high = hold.side_height
        top = f", the top one {length(high)} above the deck" if isinstance(high, float) else ""
        side = f"{hold.side_fasteners} of {words.printable(hold.side_fastener)} into its side{top}"
        found = [f"each of {words.printable(hold.steel)} steel"] if hold.steel else []
        found += [side] if hold.side_fastener else []
        found += [f"{deck} into the house roof"] if hold.deck_fastener else []
    apart = {
        "from its face": hold.leg_offset, "from an edge": hold.edge_distance,
        "from an end": hold.end_distance, "from one to the next": hold.fastener_spacing,
    }  # fmt: skip
    return found + [f"{length(x)} {where}" for where, x in apart.items() if x is not None]


def layout_lines(design: Design) -> list[str]:
    """The run, its pairs and its openings, by the marks of the summary."""
    layout = design.case.layout
    if layout is None:
        return []
    row = row_of(design.case)
    pairs = [str(i) for i, piece in enumerate(row.pieces, 1) if piece.pair]
    beside = f"; pairs side by side: marks {', '.join(pairs)}." if pairs else "."
    run = feet_and_inches(float(layout.run))
    found = [f"{len(row.pieces)} outriggers on {run}, at the marks of this summary{beside}"]
    for one in layout.openings:
        found.append(
            f"No outrigger from {feet_and_inches(one.start)} to {feet_and_inches(one.end)}."
        )
    for over, most in by_others(design).items():
        found.append(
            f"Header by others {over}, over the outrigger at both ends: up to {most:,.0f} lb of "
            f"roof and wall in all ({design.case.basis.method}), half to each, beside point loads."
        )
    return found


def plans(lines: Sequence[str], by_load: str) -> list[Block]:
    """The same, and for how long it holds; by_load: where the loads by source stand."""
    return [
        Bullets(lines, "small"),
        Paragraph(
            ("Unfactored, by load and source: ", Page(by_load), ". Valid only with the loads and "
             "the lumber of this summary; any change asks for a new one."), "small"
        ),
    ]  # fmt: skip


def blocks_held(piece: Outrigger) -> str:
    """How the blocks are fastened, where that holds the outriggers against tipping over."""
    deck, ends = piece.blocking_to_deck, piece.blocking_fastening
    if deck is not None:
        return (
            " At house wall and back each block is tight, of the outriggers' lumber, fastened up "
            f"through the sheathing by {words.printable(deck.fastener)} at {length(deck.spacing)} "
            "along it; one more block outside the last outrigger at each end of the row."
        )
    if ends is not None and ends.driven:
        return (
            f" Each end of each block {ends.driven} by {ends.count} "
            f"{words.printable(ends.fastener)} over {length(ends.spread)} of its depth."
        )
    return ""


def _setback(value: float) -> str:
    return "flush with the house framing" if value == 0 else f"set back {length(value)}"
