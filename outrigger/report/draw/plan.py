"""The plan of a layout to scale: marks from the datum, framing, clips, the gap, the garage wall."""

from collections.abc import Iterator, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.base.quantity import feet_and_inches, length, tape
from outrigger.layout.layout import LaidOut, MarkLine
from outrigger.report import verdict_words, words
from outrigger.report.draw import lettering
from outrigger.report.draw.place import rectangle
from outrigger.report.draw.primitives import (
    LETTERS,
    Area,
    Dash,
    Dimension,
    Dot,
    Drawing,
    Item,
    Layer,
    Line,
    Point,
    Text,
)
from outrigger.report.draw.sheet import framed
from outrigger.report.screen.layout import FAILS, datum, failing

WIDE_POINTS, LONG_POINTS, PAGE_POINTS = 792.0, 1224.0, 504.0  # of sheets, and within a page
LONG_RUN_IN = 360.0  # a longer run goes on the wider sheet
LEFT_POINTS, RIGHT_POINTS = 74.0, 78.0  # for words beside the run
SLOPED_POINTS = 28.0  # more at the left, where lengths are said to be in plan
SLOT_POINTS = 12.5  # of a mark's letters, along the run
ROW_POINTS = 12.0  # from one word beside the run to the next
MOST_SCALE = 4.0  # points for an inch
CLEAR_POINTS = 6.0


class _Plan(Struct, dict=True):
    """A plan that is being drawn; the house lies above, lengths outward run down the sheet."""

    laid: LaidOut
    wide: float
    items: list[Item] = field(default_factory=list)

    def __post_init__(self) -> None:
        layout, shape = self.laid.case.layout, self.laid.design.shape
        assert layout is not None
        self.run = float(layout.run)
        self.aside = LEFT_POINTS + (SLOPED_POINTS if shape.plan < 1 else 0.0)
        room = self.wide - self.aside - RIGHT_POINTS
        self.point = max(self.run / room, 1 / MOST_SCALE)
        flat = shape.plan
        self.inner, self.arm, self.end, self.face = (
            float(v[0, 0]) * flat for v in (shape.house_end, shape.arm, shape.end, shape.face)
        )
        gap = self.laid.case.gap
        self.garage_face = self.face + gap.width
        self.plate = gap.garage_plate
        self.left = -self.aside * self.point
        self.right = max(self.run + RIGHT_POINTS * self.point, self.left + self.wide * self.point)

    def line(
        self, *points: Point, layer: Layer, weight: float = 0.7, dash: Dash = "", gray: float = 0.0
    ) -> None:
        """A line; lengths along the run, and outward."""
        drawn = tuple((x, -out) for x, out in points)
        self.items.append(Line(drawn, layer, weight, dash, gray))

    def area(
        self, x0: float, out0: float, x1: float, out1: float, layer: Layer, *,
        fill: float | None = 1.0, weight: float = 0.7, dash: Dash = "",
    ) -> None:  # fmt: skip
        """A rectangle of the same."""
        self.items.append(Area(rectangle(x0, -out1, x1, -out0), layer, fill, "", weight, dash))

    def text(
        self, said: str, x: float, out: float, *, side: float = 0.0, bold: bool = False,
        turn: float = 0.0, layer: Layer = "text",
    ) -> Text:  # fmt: skip
        """A text whose middle is there; `side` 1: it starts there, -1: it ends there."""
        w, h = (one * self.point for one in lettering.box((said,), LETTERS, bold))
        return Text((x + side * w / 2, -out), (said,), w, h, layer, LETTERS, bold, turn=turn)


def sheet_wide(laid: LaidOut) -> float:
    """Width of the sheet that a plan of its own takes, points."""
    layout = laid.case.layout
    assert layout is not None
    return LONG_POINTS if layout.run > LONG_RUN_IN else WIDE_POINTS


def plan(laid: LaidOut, sample: bool, *, wide: float | None = None, alone: bool = True) -> Drawing:
    """The plan; `wide`: of its sheet, points, and wider where the marks need it; `alone`: no
    document stands around it."""
    need = LEFT_POINTS + SLOPED_POINTS + RIGHT_POINTS + SLOT_POINTS * (len(laid.lines) + 1)
    drawn = _Plan(laid, max(wide or sheet_wide(laid), need))
    _walls(drawn)
    _framing(drawn)
    for line in laid.lines:
        _piece(drawn, line)
    low = _marks(drawn)
    _datum(drawn)
    _lengths(drawn)
    _legend(drawn, low)
    return framed(
        drawn.items, laid.design,
        title=f"{words.printable(laid.case.project.name)}: plan of the outriggers, to scale",
        verdict=verdict(laid, sample), sample=sample,
        left=drawn.left, right=drawn.right, point=drawn.point, alone=alone,
    )  # fmt: skip


def verdict(laid: LaidOut, sample: bool) -> str:
    """The verdict of the screen, which marks fail, and what is open: a plan travels alone."""
    text = verdict_words.verdict_line(laid.design, sample)
    reason = verdict_words.left_open(laid.design) if laid.fails else ""
    still = f"Open still: {reason}." if reason else ""
    return " ".join(part for part in (text, failing(laid), still) if part)


def _walls(on: _Plan) -> None:
    """The house face, the gap, and the garage wall, which openings interrupt."""
    layout = on.laid.case.layout
    assert layout is not None
    on.area(0.0, on.face, on.run, on.garage_face, "gap", fill=0.86, weight=0.0)
    on.line((0.0, 0.0), (on.run, 0.0), layer="house", weight=0.6, dash="dotted")
    on.line((0.0, on.face), (on.run, on.face), layer="house", weight=1.8)
    openings = sorted((max(o.start, 0.0), min(o.end, on.run)) for o in layout.openings)
    at = 0.0
    inside, outside = on.arm - on.plate / 2, on.arm + on.plate / 2
    for start, end in [*openings, (on.run, on.run)]:
        if start > at:
            on.area(at, inside, start, outside, "garage", fill=0.97, weight=1.0)
            on.line((at, on.arm), (start, on.arm), layer="garage", weight=0.4, dash="center",
                    gray=0.4)  # fmt: skip
        if end > start:
            middle = (start + end) / 2
            on.items.append(on.text("opening", middle, on.arm, layer="garage"))
        at = max(at, end)
    aside = on.run + CLEAR_POINTS * on.point
    named = {"house roof": on.inner / 2, "house wall": 0.0, "garage wall": on.arm}
    rows = apart(list(named.values()), ROW_POINTS * on.point)
    on.items += [on.text(said, aside, out, side=1) for said, out in zip(named, rows, strict=True)]


def _framing(on: _Plan) -> None:
    """Centers of the house framing, dashed."""
    laid = on.laid
    flat = laid.design.shape.plan
    for one in () if laid.centres is None else laid.centres:
        at = float(one)
        if laid.crossing and on.inner <= -at * flat <= 0:
            on.line((0.0, -at * flat), (on.run, -at * flat), layer="framing", dash="dashed",
                    gray=0.35)  # fmt: skip
        elif not laid.crossing and 0 <= at <= on.run:
            on.line((at, on.inner - 5 * on.point), (at, 0.0), layer="framing", dash="dashed",
                    gray=0.35)  # fmt: skip


def _piece(on: _Plan, line: MarkLine) -> None:
    """One outrigger with its clips: a dot that lands, a cross that misses."""
    near, far = float(line.piece.near), float(line.piece.far)
    fails = line.status == "fail"
    on.area(near, on.inner, far, on.end, "fails" if fails else "member",
            fill=0.35 if fails else 0.93)  # fmt: skip
    flat = on.laid.design.shape.plan
    for at, x in on.laid.design.model.supports:
        if at in on.laid.design.model.hold_downs:
            where = ((near + far) / 2, float(x[0, 0]) * flat)
            on.items += _clip(on, where, missed=at in line.misses, known=at in line.off)


def _clip(on: _Plan, at: Point, *, missed: bool, known: bool) -> list[Item]:
    (x, out), size = at, 3.0 * on.point
    if not missed:
        return [Dot((x, -out), "fasteners", 2.2, 0.0 if known else 1.0, 0.9)]
    return [
        Line(((x - size, -out - size), (x + size, -out + size)), "fasteners", 1.4),
        Line(((x - size, -out + size), (x + size, -out - size)), "fasteners", 1.4),
    ]


def _marks(on: _Plan) -> float:
    """The number of each piece and its mark, side by side below; how low they reach."""
    lines, point = on.laid.lines, on.point
    middles = [float(line.piece.near + line.piece.thickness / 2) for line in lines]
    places = apart(middles, SLOT_POINTS * point)
    top, low = on.end + 4 * point, on.end
    for line, middle, x in zip(lines, middles, places, strict=True):
        fails = line.status == "fail"
        said = f"{tape(float(line.piece.near))}{f'  {FAILS}' if fails else ''}"
        start = top + 8 * point
        on.line((middle, on.end), (x, start), layer="dimensions", weight=0.4)
        number = on.text(f"{line.number}", x, start + 8 * point, bold=True, turn=90)
        mark = on.text(said, x, 0.0, bold=fails, turn=90, layer="fails" if fails else "text")
        foot = start + 21 * point + mark.wide
        on.items += [number, replace(mark, at=(x, mark.wide / 2 - foot))]
        low = max(low, foot)
    return low


def apart(wanted: Sequence[float], least: float) -> list[float]:
    """Places as near as may be to those wanted, in their order, none closer than the least: those
    that crowd stand around their middle."""
    groups: list[list[float]] = []  # first place, how many
    for at in wanted:
        groups.append([at, 1])
        while len(groups) > 1 and groups[-1][0] < groups[-2][0] + groups[-2][1] * least - 1e-9:
            (start, n), (other, m) = groups[-2], groups[-1]
            middle = (n * (start + (n - 1) * least / 2) + m * (other + (m - 1) * least / 2)) / (
                n + m
            )
            groups[-2:] = [[middle - (n + m - 1) * least / 2, n + m]]
    return [start + k * least for start, n in groups for k in range(int(n))]


def _datum(on: _Plan) -> None:
    """Where every mark is measured from, and which way."""
    point = on.point
    out = on.inner - 36 * point
    on.line((0.0, out - 9 * point), (0.0, out + 9 * point), layer="dimensions", weight=2.0)
    tip = min(50 * point, on.run / 2)
    on.line((0.0, out), (tip - 7 * point, out), layer="dimensions", weight=1.2)
    y, wing = -out, 2.8 * point
    head = ((tip, y), (tip - 7 * point, y + wing), (tip - 7 * point, y - wing))
    on.items.append(Area(head, "dimensions", 0.0, weight=0.0))
    said = lettering.plain(f"DATUM: {datum(on.laid)}")
    room = (on.right - tip) / point - 2 * CLEAR_POINTS
    lines = lettering.folded(said, room, LETTERS, True)
    w, h = (one * point for one in lettering.box(lines, LETTERS, True))
    at = (tip + CLEAR_POINTS * point + w / 2, y + max(0.0, h / 2 - 8 * point))
    on.items.append(Text(at, lines, w, h, "text", LETTERS, True))


def _lengths(on: _Plan) -> None:
    """The run above; the gap and the back span at the left of them."""
    point = on.point
    out = on.inner - 8 * point
    text = on.text(f"run {feet_and_inches(on.run)}", on.run / 2, out - 7 * point)
    feet = ((0.0, -on.inner), (on.run, -on.inner))
    on.items.append(Dimension((0.0, -out), (on.run, -out), feet, "run", on.run, text))
    shape = on.laid.design.shape
    back = float(shape.back_span[0, 0]) * shape.plan
    measured = (("back span", -back, 0.0), ("gap", on.face, on.garage_face))
    rows = apart([(start + end) / 2 for _, start, end in measured], 2 * ROW_POINTS * point)
    for (name, start, end), row in zip(measured, rows, strict=True):
        x, long = -12 * point, end - start
        named = f"{name}, plan" if shape.plan < 1 and name != "gap" else name
        text = on.text(f"{named} {length(long)}", x - 7 * point, row, side=-1)
        if text.wide > (on.aside - 20) * point:  # on two lines
            lines = (named, length(long))
            w, h = (one * point for one in lettering.box(lines))
            text = replace(
                text, at=(x - 7 * point - w / 2, text.at[1]), lines=lines, wide=w, high=h
            )
        feet = (0.0, -start), (0.0, -end)
        on.items.append(Dimension((x, -start), (x, -end), feet, named, long, text))


def _legend(on: _Plan, low: float) -> None:
    """What dashes, dots and crosses are."""
    point, x = on.point, on.left + 8 * on.point
    out = low + 14 * point
    for symbol, said in _listed(on):
        if symbol == "dash":
            on.line((x, out), (x + 22 * point, out), layer="framing", dash="dashed", gray=0.35)
        else:
            on.items += _clip(on, (x + 11 * point, out), missed=symbol == "cross",
                              known=symbol != "hollow")  # fmt: skip
        text = on.text(said, x + 28 * point, out, side=1)
        if text.at[0] + text.wide / 2 > on.right and x > on.left + 9 * point:
            return
        on.items.append(text)
        x += 44 * point + text.wide


def _listed(on: _Plan) -> Iterator[tuple[str, str]]:
    if on.laid.centres is not None:
        yield "dash", "house framing, center"
    if on.laid.clips:
        yield "dot", "clip on framing"
        yield "cross", "clip misses framing"
    else:
        yield "hollow", "clip, framing not known"
