"""Words of the printers: places, links, units, ratios, in the trade's words."""

import re
import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING

from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.base.plain import deciding
from outrigger.base.quantity import length
from outrigger.cases import revised
from outrigger.cases.batch import on_one_face
from outrigger.cases.below import WallTie
from outrigger.cases.model import Case
from outrigger.formula.kind import Group
from outrigger.loads.parts import WORDS
from outrigger.marks.of_case import has_pairs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

if TYPE_CHECKING:
    from outrigger.layout.cutting import Packing


SAMPLE = "SAMPLE, not your job"
ENGINEERS_LINE = "Not permission to build: the engineer of record decides."

_PLACES = {EDGE: "house wall", BACK: "back clip", WALL_LINE: "garage wall", "arm": "gap"}
_CASES = {
    "D": "dead",
    "L": "storage",
    "Lr": "roof live",
    "S": "snow",
    "W_up": "wind up",
    "W_down": "wind down",
    "E": "seismic",
    "A": WORDS["A_one"],
}


def adopted_line(verdict: str, sample: bool) -> str:
    """The last words of a screen: what a verdict is not."""
    said = (
        f"{verdict.upper()}, not permission to build: a licensed engineer must verify and adopt it"
    )
    return f"{of_sample(said) if sample else said}; local codes govern."


def of_sample(said: str) -> str:
    """A verdict of made-up data: SAMPLE before it, and its word not in capitals."""
    return "SAMPLE: " + re.sub(r"^[A-Z]+( [A-Z]+)*\b", lambda word: word[0].lower(), said)


def place(name: str) -> str:
    """A place as a framer says it."""
    if name.endswith(" in"):
        return f"clip {name}"
    return _PLACES.get(name, name)


def clip(name: str) -> str:
    """The clips of a place: back clip, house wall clip, clip 16 in."""
    text = place(name)
    return text if "clip" in text else f"{text} clip"


def pounds(value: float | None) -> str:
    """A force in whole pounds; a dash where there is none to give."""
    return "-" if value is None else f"{value:,.0f} lb"


def stock(packing: "Packing | None") -> str:
    """What to buy: 8 of 12 ft and 1 of 8 ft."""
    if packing is None:
        return "no stock is long enough"
    counts: dict[float, int] = {}
    for stick, count in packing.sticks:
        counts[stick.stock] = counts.get(stick.stock, 0) + count
    return " and ".join(f"{count} of {length(board)}" for board, count in counts.items())


def what(row: CheckResult, engineers: bool = False) -> str:
    """A check as a framer says it, its link behind a comma; the engineer's word beside it."""
    return row.check.link.engineers if engineers else row.check.link.said


def weakest(rows: Sequence[CheckResult]) -> list[str]:
    """For each hold-down place its weakest link, as a framer says it."""
    worst: dict[str, CheckResult] = {}
    for row in rows:
        link = row.check.link
        fits = link.is_distance and row.status == "pass"
        if link.weakest and not fits:
            old = worst.get(row.check.place)
            if old is None or _weak(row) > _weak(old):
                worst[row.check.place] = row
    said = []
    for name, row in worst.items():
        if not row.demand:
            continue
        used = "cannot be said" if row.ratio is None else f"{ratio(row.ratio)} used"
        at = clip(name)
        said.append(f"{at[0].upper()}{at[1:]}, weakest link: {row.check.link.weakest}, {used}.")
    return said


def _weak(row: CheckResult) -> tuple[int, float]:
    """How weak a link is: one that fails, then one without a capacity, then by its ratio."""
    order = {"fail": 2, "open": 1 if row.ratio is None else 0, "pass": 0}
    return order[row.status], row.ratio if row.ratio is not None else 9.0


def load_case(name: str) -> str:
    """A load case in words."""
    return _CASES.get(name) or WORDS[name]


def load_part(name: str) -> str:
    """A part of the load in words, the back span's apart: dead on the back span."""
    if name == "W_back":
        return "wind suction on the back span"
    if name == "D_own":
        return "own weight of the back span"
    base = name.removesuffix("_back")
    return f"{load_case(base)} on the back span" if base != name else load_case(name)


def amount(value: float, unit: str) -> str:
    """A demand or capacity with its unit: whole pounds and psi, inches to a thousandth."""
    if unit == "":
        return f"{value:.2f}"
    if unit == "in":
        return f"{value:.3f} in"
    return f"{value:,.0f} {unit}" if abs(value) >= 9.95 or value == 0 else f"{value:.1f} {unit}"


def ratio(value: float | None) -> str:
    """A ratio with two digits; near 1 as many as decide."""
    if value is None:
        return "none"
    return deciding(value, 3 if 0.995 <= value <= 1.005 else 2)


def title(design: Design) -> str:
    """The member in one line."""
    piece, gap, wood = design.case.outrigger, design.case.gap, design.wood
    flat = ", laid flat" if piece.laid == "flat" else ""
    plies = f"{piece.plies} " if piece.plies > 1 else ""
    return (
        f"{plies}{wood.size.name} {wood.row.species} {wood.row.grade}{flat} "
        f"at {spacing(piece.spacing)}, gap {length(gap.width)}, "
        f"back span {length(piece.back_span)}, arm {length(float(design.shape.arm[0, 0]))}"
    )


def each(design: Design) -> str:
    """What brings a force to the house at one place: both pieces of a pair bring theirs."""
    return "each outrigger or pair" if has_pairs(design.case) else "each outrigger"


def on_a_pair(case: Case, count: int, fit: int) -> str:
    """What of the connectors of an outrigger fits a piece of a pair, where that is not all."""
    if fit == count or not has_pairs(case):
        return ""
    return f" ({fit} on the outer face of each piece of a pair)"


def ties_on_a_pair(case: Case, tie: WallTie) -> str:
    """The same of what ties the garage wall; fasteners down through its plate all fit."""
    return on_a_pair(case, tie.count, tie.count if tie.fastener else on_one_face(tie.count))


def spacing(inches: float) -> str:
    """A spacing as the trade says it: 16 in, 19.2 in."""
    on_the_tape = abs(inches * 16 - round(inches * 16)) < 1e-9
    return length(inches) if on_the_tape else f"{inches:.4g} in"


def digest(text: str) -> str:
    """A case digest in groups of four."""
    return " ".join(text[i : i + 4] for i in range(0, len(text), 4))


def subject(row: CheckResult) -> str:
    """A check in one phrase: back clip pull-out; shear at the house wall, arm side."""
    return row.check.link.said_at(place(row.check.place))


def group_name(group: Group) -> str:
    """All checks of one id in one phrase."""
    kind, at = group.kind, group.place or group.kind.stands_at
    if kind.place_first:
        return f"{place(at)} {kind.name}"
    text = kind.together or kind.name
    return f"{text} at the {place(at)}" if at else text


def whole(parts: Sequence[str], sample: bool) -> str:
    """A page of its parts, of the sample between its words, no line ending in blanks."""
    kept = [SAMPLE, *parts, SAMPLE] if sample else parts
    return "\n".join(line.rstrip() for line in "\n".join(kept).splitlines())


def job(design: Design) -> str:
    """The job and its revision in one phrase."""
    case = design.case
    return f"{printable(case.project.name)}, rev {rev(case)}"


def revision(case: Case) -> str:
    """Revision and digest, as they stand beside the job's name."""
    return f"rev {rev(case)}    case {digest(case.digest)}"


def rev(case: Case) -> str:
    """The revision alone; "0 changed" where settings change the file."""
    return printable(revised.revision(case))


def printable(text: str) -> str:
    """Text without control characters, on one line."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def shortened(text: str, most: int) -> str:
    """A text of at most so many characters, where it stands in full elsewhere."""
    return text if len(text) <= most else f"{text[: most - 3].rstrip()}..."


def capital(text: str) -> str:
    """A sentence with its first letter large; no symbol may stand first."""
    return text[:1].upper() + text[1:]


def wrap(text: str, width: int, indent: str = "") -> str:
    """A paragraph folded to a width; continuation lines two in."""
    shown = "".join(c if c.isprintable() else " " for c in text)
    return textwrap.fill(
        shown, width, initial_indent=indent, subsequent_indent=indent + "  ", break_on_hyphens=False
    )


def command_lines(command: str, width: int, indent: str) -> list[str]:
    """A command to be copied: folded where the shell allows it."""
    lines = [indent]
    for part in re.findall(r"""(?:[^\s'"]|'[^']*'|"[^"]*")+""", command):
        if len(lines[-1]) + len(part) + 2 > width and lines[-1].strip():
            lines[-1] += "\\"
            lines.append(f"{indent}  ")
        lines[-1] += f"{part} "
    return [line.rstrip() for line in lines]


def quiet(row: CheckResult) -> bool:
    """Whether a row has nothing to carry: no arithmetic stands behind it."""
    return row.demand == 0 and not row.check.steps


def limit(row: CheckResult) -> str:
    """A row's capacity for people."""
    if row.capacity is None:
        return "not known"
    return "none" if row.capacity == 0 else amount(row.capacity, row.check.unit)
