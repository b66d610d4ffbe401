"""The layout for the framer: on screen, as CSV, and as the data of its PDF page."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.base.quantity import feet_and_inches, length, tape
from outrigger.base.units import feet
from outrigger.cases.hold_down import BLOCKING, on_rafters
from outrigger.cases.settings import Override
from outrigger.layout.cutting import Stick
from outrigger.layout.layout import Better, LaidOut, MarkLine
from outrigger.report import cautions, verdict_words, words
from outrigger.report.data.sweeps import stamp
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.verdict.notes import roofless, share_notes
from outrigger.verdict.unknown import Unknown

DATUM = "one end of the run, as agreed on site"
RULE = (
    "Measure every mark from the datum, not from the mark before. | is the mark, X the piece: it "
    "lies beyond its mark, away from the datum."
)
BOX = "[ ]"
FAILS = "FAILS"  # in place of a box, at a mark that does
NOT_TO_BUILD = "No boxes to tick: this wall fails, and is not to be built so."


def page(
    laid: LaidOut, width: int, *, sample: bool = False, overrides: Sequence[Override] = ()
) -> str:
    """The whole output of `layout`."""
    width = max(30, width)
    design = laid.design
    said = wrap(verdict_words.verdict_line(design, sample), width)
    lines = [*(wrap(o.text, width) for o in overrides), *to_cut(laid, width, sample)]
    lines += ["", "Material:", *(wrap(text, width, "  ") for text in material_lines(laid))]
    lines += ["", *cautions.caution_lines(design, width)]
    lines += ["", said, wrap(words.ENGINEERS_LINE, width)]
    return words.whole(lines, sample)


def to_cut(laid: LaidOut, width: int, sample: bool) -> list[str]:
    """The marks of one run, what each piece is and what to cut."""
    design = laid.design
    lines = [wrap(words.printable(design.case.project.name), width)]
    lines += [wrap(words.revision(laid.case), width), wrap(words.title(design), width)]
    lines.append(wrap(verdict_words.verdict_line(design, sample), width))
    lines += [*(wrap(f"The wall {text}.", width) for text in roofless(laid.case)), ""]
    lines += [wrap(text, width) for text in (f"Datum: {datum(laid)}.", summary(laid), RULE)]
    lines += ["", *_marks(laid, width), ""]
    lines += [wrap(text, width) for text in notes(laid)]
    lines += ["", "Each piece:", *(wrap(text, width, "  ") for text in along_lines(laid))]
    return [*lines, "", "Cut list:", *(wrap(text, width, "  ") for text in cut_lines(laid))]


def datum(laid: LaidOut) -> str:
    """The datum in words."""
    layout = laid.case.layout
    return words.printable(layout.datum if layout else "").rstrip(".") or DATUM


def summary(laid: LaidOut) -> str:
    """How many marks on what run, and how long each piece is."""
    layout, piece = laid.case.layout, laid.cuts[0]
    assert layout is not None
    plies = laid.case.outrigger.plies
    each = f"{piece.count} pieces" + (f" ({plies} to each)" if plies > 1 else "")
    each = f"cut {each} at" if laid.design.verdict == "pass" else f"cut none yet; {each} of"
    return (
        f"{len(laid.lines)} outriggers on {feet_and_inches(float(layout.run))}; {each} "
        f"{feet_and_inches(piece.length)}."
    )


def failing(laid: LaidOut) -> str:
    """The marks that fail: FAILS: marks 3 to 17; empty: none does."""
    runs: list[list[int]] = []
    for number in laid.failing:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    named = [f"{run[0]} to {run[-1]}" if run[1:] else str(run[0]) for run in runs]
    many = "s" if laid.failing[1:] else ""
    return f"{FAILS}: mark{many} {', '.join(named)}." if named else ""


def _box(laid: LaidOut) -> str:
    """A box to tick before a line; none for a wall that fails."""
    return "" if laid.fails else f"{BOX} "


def _first(laid: LaidOut, line: MarkLine) -> str:
    """What stands before a mark."""
    return _box(laid).strip() or (FAILS if line.status == "fail" else "")


def along_lines(laid: LaidOut) -> list[str]:
    """Where each piece is held, and where its blocks stand, from its outer end."""
    names = {WALL_LINE: "middle of the garage wall", EDGE: "middle of the house bearing"}
    places = ", ".join(f"{names.get(name, words.place(name))} {tape(x)}" for name, x in laid.along)
    blocking = laid.case.outrigger.blocking or []
    stand = ", ".join(
        words.place(one if isinstance(one, str) else f"{one:g} in") for one in blocking
    ).replace("clip ", "")
    blocks = [f"Blocks between the pieces: {stand}."] if stand else []
    return [f"In from the outer end: {places}.", *blocks]


def far_side(line: MarkLine) -> str:
    """The mark and the side the piece goes."""
    return "|X pair" if line.piece.pair else "|X"


def clips(line: MarkLine) -> str:
    """Whether a mark's clips land on the framing, and how far off it the farthest lies."""
    if not line.off:
        return ""
    missed = [abs(off) for off in line.misses.values()]
    return f"off {tape(max(missed))}" if missed else "on framing"


def _marks(laid: LaidOut, width: int) -> list[str]:
    """The table of marks; on a narrow screen two lines for each."""
    head = ("", "no", "mark", " ft and in", "piece", "dead", words.load_case(laid.moving), "used",
            " clips")  # fmt: skip
    rows = [
        (
            _first(laid, line),
            f"{line.number}",
            tape(float(line.piece.near)),
            f" {feet_and_inches(float(line.piece.near))}",
            far_side(line),
            f"{line.loads['D']:,.0f} lb",
            f"{line.loads[laid.moving]:,.0f} lb",
            words.ratio(line.governing.ratio),
            f" {clips(line)}",
        )
        for line in laid.lines
    ]
    least = (3, 3, 10, 12, 8, 7, 10, 5)
    listed = columns([head, *rows], "lrrllrrrl", width, least=least, indent="")
    return listed or [text for line in laid.lines for text in _narrow(laid, line, width)]


def _narrow(laid: LaidOut, line: MarkLine, width: int) -> Iterator[str]:
    near = float(line.piece.near)
    first = _first(laid, line) or " " * len(FAILS)
    both = f"{tape(near)}  {feet_and_inches(near)}"
    mark = f"{first} {line.number:>2} {both} {far_side(line)}"
    yield mark if len(mark) <= width else wrap(mark, width)
    said = (
        f"dead {line.loads['D']:,.0f} lb, {words.load_case(laid.moving)} "
        f"{line.loads[laid.moving]:,.0f} lb, used {words.ratio(line.governing.ratio)}"
    )
    at = clips(line)
    yield wrap(said + (f", {at}" if at else ""), width, "    ")


def notes(laid: LaidOut) -> list[str]:
    """The worst mark, clips that miss and what would land more, what the loads follow from."""
    worst = laid.lines[laid.worst - 1]
    found = [f"{failing(laid)} {NOT_TO_BUILD}".lstrip()] if laid.fails else []
    found += [
        f"Worst: mark {worst.number}, {words.subject(worst.governing)} "
        f"{words.ratio(worst.governing.ratio)}; it is the one that check verifies. It carries "
        f"{length(worst.carried)} of wall and {length(worst.share)} of roof."
    ]
    if any(line.piece.pair for line in laid.lines):
        found.append("layout.double_at counts marks without the second pieces of pairs.")
    own = [hold.name for hold in laid.case.hold_down if hold.into == BLOCKING]
    if own:
        places = " and the ".join(map(words.clip, own))
        found.append(
            f"The {places} stand on blocks between the house rafters, right under every foot: how "
            "these are held is open, for the engineer."
        )
    if not laid.clips and any(map(on_rafters, laid.case.hold_down)):
        found.append("Clips on framing or not: house_roof.framing_spacing or framing_at not given.")
    elif laid.clips and not laid.misses:
        found.append("Every clip lands on the framing, less than 3/4 in from its middle.")
    elif laid.clips:
        found.append(
            f"{laid.misses} of {laid.clips} places of clips miss the framing ({_missing(laid)}): "
            "off is from a clip's fastener to the middle of the nearest framing, 3/4 in or more."
        )
        found += [better(one, laid) for one in laid.better] or [
            "No other first mark or closer spacing that was tried lands more: put solid blocking "
            "under the feet."
        ]
    found += [f"{words.capital(text)}." for text in share_notes(laid.design)]
    return found


def _missing(laid: LaidOut) -> str:
    """The places whose clips miss, each with its count."""
    count: dict[str, int] = {}
    for line in laid.lines:
        for at in line.misses:
            count[at] = count.get(at, 0) + 1
    return ", ".join(f"{n} at the {words.place(at)}" for at, n in count.items())


def better(one: Better, laid: LaidOut) -> str:
    """What one change alone would land."""
    said = "all land" if not one.misses else f"{one.misses} of {laid.clips} miss"
    if one.key == "outrigger.spacing" and laid.case.layout:
        return f"At {words.spacing(one.value)} spacing {said}."
    if one.key == "layout.first_mark":
        way = "farther from" if one.shift > 0 else "nearer to"
        return (
            f"With the first mark at {tape(one.value)} (layout.first_mark), the row shifted "
            f"{tape(abs(one.shift))} {way} the datum, {said}."
        )
    caution = f" Caution: {one.caution.words}." if one.caution else ""
    return f"With {one.key.replace('outrigger.', '')} at {length(one.value)} {said}.{caution}"


def cut_lines(laid: LaidOut) -> list[str]:
    """What to cut, and from which stock."""
    layout, packing = laid.case.layout, laid.packing
    assert layout is not None
    found = [
        f"{_box(laid)}{cut.count} {cut.what}{'s' if cut.count > 1 else ''} at {tape(cut.length)}, "
        f"{feet_and_inches(cut.length)}"
        for cut in laid.cuts
    ]
    found += [
        f"{_box(laid)}{count} of {length(stick.stock)}{', each' if count > 1 else ''}: "
        f"{_cut_from(stick, laid)}"
        for stick, count in packing.sticks
    ]
    close = (
        "no packing buys less"
        if packing.over == 0
        else f"at most {length(packing.over)} more than the least possible"
    )
    stock = "" if layout.stock else "; stock of 8 to 16 ft taken, as none is given"
    kerf = f"kerf {length(float(layout.kerf))}, {length(float(layout.squaring))} to square an end"
    found.append(
        f"{feet(packing.bought):,.0f} ft in all, {packing.waste:.0%} waste, {close}; {kerf}{stock}."
    )
    if layout.openings and any(cut.what == "block" for cut in laid.cuts):
        found.append("No block crosses an opening.")
    if laid.case.outrigger.blocking is None:
        found.append("No blocks are cut: outrigger.blocking is not given.")
    return found


def _cut_from(stick: Stick, laid: LaidOut) -> str:
    pieces = zip(stick.cuts, laid.packing.lengths, strict=True)
    cut = " + ".join(f"{n} x {tape(x)}" for n, x in pieces if n)
    return f"{cut}, {tape(laid.packing.offcut(stick))} left"


def material_lines(laid: LaidOut) -> list[str]:
    """Lumber by stock length, then clips, fasteners, sealing, flashing."""
    by_stock: dict[float, int] = {}
    for stick, count in laid.packing.sticks:
        by_stock[stick.stock] = by_stock.get(stick.stock, 0) + count
    wood = laid.design.wood
    name = f"{wood.size.name} {wood.row.species} {wood.row.grade}"
    found = [f"{_box(laid)}{n} {name}, {length(stock)}" for stock, n in by_stock.items()]
    for item in laid.items:
        found.append(
            f"{_box(laid)}{item.count} {item.what}" + (f" ({item.how})" if item.how else "")
        )
    found.append(
        "A tenth more fasteners, flashing girth, laps and lengths are common practice, no source."
    )
    return found


def mark_rows(laid: LaidOut, sample: bool = False) -> list[dict[str, Any]]:
    """One row for each mark, full precision; digest, verdict and what is open are of the wall."""
    parts = ("D", "L", "Lr", "S", "W_up", "W_down")
    stamped = stamp(Unknown(laid.design), sample)
    return [
        {
            "mark": line.number,
            "near_edge_in": float(line.piece.near),
            "near_edge_ft_in": feet_and_inches(float(line.piece.near)),
            "piece": "beyond, pair" if line.piece.pair else "beyond",
            "tributary_in": line.tributary,
            "wall_in": line.carried,
            "roof_in": line.share,
            **{f"{part}_lb": line.loads.get(part, 0.0) for part in parts},
            "ratio": line.governing.ratio,
            "check": line.governing.check.id,
            "place": line.governing.check.place,
            "status": line.status,
            **{f"off_framing_{at}_in": float(off) for at, off in line.off.items()},
            **stamped,
        }
        for line in laid.lines
    ]


def marks_csv(laid: LaidOut, sample: bool = False) -> str:
    """The rows as CSV."""
    return rows_csv(mark_rows(laid, sample))


def rows_csv(rows: Sequence[Mapping[str, Any]]) -> str:
    """Rows of marks as CSV, of one run or several."""
    out = io.StringIO()
    plain = [
        {key: _cell(value) for key, value in row.items()} | {"open": " ".join(row["open"])}
        for row in rows
    ]
    columns = dict.fromkeys(key for row in plain for key in row)
    writer = csv.DictWriter(out, list(columns), lineterminator="\n")
    writer.writeheader()
    writer.writerows(plain)
    return out.getvalue()


def _cell(value: object) -> object:
    """A value in one cell: a list as a text, true and false as other tables have them."""
    if isinstance(value, bool):
        return str(value).lower()
    return "; ".join(map(str, value)) if isinstance(value, list) else value


def page_data(laid: LaidOut, sample: bool) -> dict[str, Any]:
    """What the PDF page prints, as text; user text is data, never markup."""
    design = laid.design
    return {
        "sample": words.SAMPLE if sample else "",
        "name": words.printable(design.case.project.name),
        "revision": words.revision(laid.case),
        "title": words.title(design),
        "datum": datum(laid),
        "summary": summary(laid),
        "rule": RULE,
        "marks": [
            {
                "number": str(line.number),
                "tape": tape(float(line.piece.near)),
                "feet": feet_and_inches(float(line.piece.near)),
                "pair": line.piece.pair,
                "used": words.ratio(line.governing.ratio),
                "fails": line.status == "fail",
                "clips": clips(line),
                "missed": bool(line.misses),
            }
            for line in laid.lines
        ],
        "notes": notes(laid),
        "along": along_lines(laid),
        "cuts": [text.removeprefix(f"{BOX} ") for text in cut_lines(laid)],
        "boxes": sum(text.startswith(BOX) for text in cut_lines(laid)),
        "material_boxes": sum(text.startswith(BOX) for text in material_lines(laid)),
        "fails": laid.fails,
        "material": [text.removeprefix(f"{BOX} ") for text in material_lines(laid)],
        "verdict": verdict_words.verdict_line(design, sample),
        "cautions": list(cautions.two_lines(design)),
        "engineer": words.ENGINEERS_LINE,
    }
