"""Nails, wood screws and lag screws: the trade name, read, and the sizes that follow from it.

Lengths in, stresses psi. Hardened screws of a maker are in no table of the standard: report values
only.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Literal

from msgspec import Struct, field

from outrigger.base import quantity, tables
from outrigger.base.errors import InputError, RangeError
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Num, greatest, least

Kind = Literal["nail", "screw", "lag"]
TABLE: dict[Kind, str] = {
    "nail": "NDS 2018 Appendix L, Tables L4 and L6",
    "screw": "NDS 2018 Appendix L, Table L3",
    "lag": "NDS 2018 Appendix L, Table L2",
}
SMALL_D = 0.25  # in; below it the standard's rules for small fasteners hold
LONGEST_NAME = 60  # characters; no name of the trade is longer
LONGEST_IN = 12.0  # catches feet written for inches
FORMS = (
    '"10d common nail", "nail 0.148 x 1 1/2 in", "ring shank nail 0.131 x 2 1/2 in", '
    '"wood screw #10 x 2 1/2 in", "lag 1/4 in x 3 in"'
)


@formula("T_thread", "in", clause="NDS 2018 Table L2", constants={"6": "in", "0.5": "in"})
def lag_thread(L_f: Num) -> Num:
    """Thread of a lag screw with its tip: never longer than the screw."""
    return least(6, L_f / 2 + 0.5, L_f)


@formula("T_thread", "in", clause="NDS 2018 Table L3")
def screw_thread(D_nom: Num, L_f: Num) -> Num:
    """Thread of a wood screw with its tip: never longer than the screw."""
    return least(greatest(4 * D_nom, 2 * L_f / 3), L_f)


@formula("E_tip", "in", clause="NDS 2018 12.1.5.6, 12.1.6.4")
def tip_length(n_D: Num, D_nom: Num) -> Num:
    """Tip of a nail or of a wood screw."""
    return n_D * D_nom


class Fastener(Struct, frozen=True):
    """One fastener: what was understood, and its sizes; in, psi.

    `D` is nominal, `Dr` the root (a nail: `D`); `head` the diameter of the head (a lag: the width
    across the flats); `ring` the length of ring shank of a nail by ASTM F1667, 0 for any other;
    `lag_tip` the tip of a lag. `statuses` by symbol of the notation; `notes` say what was taken.
    """

    name: str
    kind: Kind
    D: float
    Dr: float
    length: float
    head: float
    Fyb: float
    lag_tip: float = 0.0
    ring: float = 0.0
    stainless: bool = False
    statuses: Mapping[str, str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()

    @property
    def small(self) -> bool:
        """Whether D is under 1/4 in."""
        return self.D < SMALL_D

    @property
    def tip(self) -> float:
        """Length of the tapered tip, in."""
        return float(self.step("E_tip").value)

    def step(self, key: str) -> Step:
        """A size as a step, by its symbol: D_nom, D, L_f, DH, E_tip, T_thread, t_ring, Fyb."""
        if key == "T_thread":
            if self.kind == "lag":
                return lag_thread.step(L_f=self.step("L_f"))
            return screw_thread.step(D_nom=self.step("D_nom"), L_f=self.step("L_f"))
        if key == "E_tip" and self.kind != "lag":
            return tip_length.step(n_D=multiple(self.kind, "tip_D"), D_nom=self.step("D_nom"))
        root = "shank of a nail" if self.kind == "nail" else "root: threads in the shear plane"
        flats = "across the flats" if self.kind == "lag" else self.name
        value, note = {
            "D_nom": (self.D, self.name),
            "D": (self.Dr, root),
            "L_f": (self.length, self.name),
            "DH": (self.head, flats),
            "E_tip": (self.lag_tip, self.name),
            "t_ring": (self.ring, self.name),
            "Fyb": (self.Fyb, self.name),
        }[key]
        clause = {"Fyb": "NDS 2018 Table I1", "D": "NDS 2018 12.3.7"}.get(key, TABLE[self.kind])
        return given(key, value, symbol(key).unit, clause, note, self.statuses.get(key, ""))


def multiple(kind: Kind, column: str) -> Step:
    """A penetration or tip of a kind of fastener, as a multiple of D: least_D, full_D, tip_D."""
    row = tables.load("fastener_rules").find(kind=kind)
    key = "n_full" if column == "full_D" else "n_D"
    return given(key, float(row[column]), "", f"NDS 2018 {row['clause']}", "", row["status"])


def bending_yield(D: float) -> tuple[float, str]:
    """Fyb of a nail or a wood screw of diameter D, psi, and the status of its band.

    Raises:
        RangeError: D lies in no band of Table I1.
    """
    for row in tables.load("fyb_bands").rows:
        if tables.in_range(row, "D", D):
            return float(row["Fyb_psi"]), row["status"]
    raise RangeError(f"Fyb: D {D:g} in lies outside the bands of NDS 2018 Table I1.")


_INCH = r'(?:\s*(?:inches|inch|in|")\.?)'
_NAME = re.compile(
    r"(?P<before>[a-z\s-]*?)[\s,]*"
    rf"(?P<size>\d+\s?(?:d|penny)\b|(?:#|\bno\.?)\s*\d+|{quantity.NUMBER}{_INCH}?)"
    r"[\s,]*(?P<middle>[a-z\s-]*?)[\s,]*"
    rf"(?:(?<![a-z])x\s*(?P<length>{quantity.NUMBER}\s*(?:inches|inch|in|ft|feet|[\"'])?\.?))?"
    r"[\s,]*(?P<after>[a-z\s-]*)"
)
_IDLE = {"shank", "smooth", "bright", "galvanized", "steel", "wire", "long"}  # change nothing here
_NAILS = ("common", "box", "sinker")


def read_fastener(text: str) -> Fastener:
    """A fastener from its trade name; `name` of the result says what was understood.

    Raises:
        InputError: no size on file, a name that fits more than one, no length, or a screw that is
            in no table of the standard; what comes near is listed.
    """
    plain = quantity.tidied(text).replace("×", "x")
    found = _NAME.fullmatch(plain) if len(plain) <= LONGEST_NAME else None
    if found is None:
        raise InputError(f"not a fastener that is read here. Write one as {FORMS}.")
    spoken = re.split(r"[\s-]+", f"{found['before']} {found['middle']} {found['after']}")
    words = {w.removesuffix("s") if w != "stainless" else w for w in spoken if w} - _IDLE
    size = found["size"]
    length = quantity.read(found["length"], "length") if found["length"] else None
    if length is not None and not 0 < length <= LONGEST_IN:
        raise InputError(
            f"a fastener {quantity.length(length)} long. Allowed: to {LONGEST_IN:g} in."
        )
    if "lag" in words and words <= {"lag", "screw", "bolt"}:
        return _lag(_inches(size), length)
    if {"wood", "screw"} == words and size[0] in "#n":
        return _screw(re.sub(r"\D", "", size), length)
    if "screw" in words or size[0] in "#n":
        raise InputError(
            'not a screw of the tables: "wood screw #10 x 2 1/2 in" (ASME B18.6.1) and '
            '"lag 1/4 in x 3 in" are. A hardened screw of a maker has report values only: '
            "give them as a listed value."
        )
    penny = re.fullmatch(r"(\d+)\s?(?:d|penny)", size)
    if not words <= {"nail", "ring", "stainless", *_NAILS} or not (penny or "nail" in words):
        raise InputError(f"not a fastener that is read here. Write one as {FORMS}.")
    return _nail(f"{penny[1]}d" if penny else None, size, length, words)


def _inches(size: str) -> float:
    return quantity.read(size if re.search(r'[a-z"]', size) else f"{size} in", "length")


def _nail(penny: str | None, size: str, length: float | None, words: set[str]) -> Fastener:
    """A nail by penny size or by diameter."""
    rows = tables.load("nails").rows
    kinds = [k for k in _NAILS if k in words] or ["short", *_NAILS]
    ring = [r for r in rows if r["kind"] == "ring"]
    smooth = [r for r in rows if r["kind"] in kinds]
    if penny:
        same = [r for r in smooth if r["size"] == penny]
        exact = [r for r in same if length in (None, float(r["length_in"]))]
        named = len(kinds) == 1  # a bare 10d is common, box or sinker
        if not same or "ring" in words or (not named and (length is None or len(exact) != 1)):
            raise InputError(f"which nail? {_listed(ring if 'ring' in words else same or smooth)}.")
        row = exact[0] if exact else same[0]
        return _sized(row, length or float(row["length_in"]), words, penny)
    D = _inches(size)
    both = [*ring, *smooth] if "ring" in words else smooth
    same = [r for r in both if float(r["D_in"]) == D]
    if not same:
        near = sorted({float(r["D_in"]) for r in both}, key=lambda d: (abs(d - D), d))[:4]
        listed = _listed(r for r in both if float(r["D_in"]) in near)
        raise InputError(f"no {' '.join(sorted(words))} of {D:g} in on file. Near: {listed}.")
    if length is None:
        raise InputError(f'no length. Write it as "nail {D:g} x 3 in". On file: {_listed(same)}.')
    exact = [r for r in same if float(r["length_in"]) == length]
    smallest = min((r for r in same if r["kind"] != "ring"), key=lambda r: float(r["head_in"]))
    return _sized(exact[0] if exact else smallest, length, words, None)


def _sized(row: tables.Row, length: float, words: set[str], penny: str | None) -> Fastener:
    """A nail of a row of the nail table, in its own or another length, in."""
    D, own = float(row["D_in"]), float(row["length_in"]) == length
    Fyb, Fyb_status = bending_yield(D)
    notes = [] if own else [f"head {row['head_in']} in taken: this length is not in the table"]
    ring = float(row["ring_in"]) if row["ring_in"] and own and "stainless" not in words else 0.0
    if "ring" in words and not ring:
        notes.append("not a carbon steel ring shank nail of ASTM F1667 on file: counted as smooth")
    if "stainless" in words:
        notes.append("Fyb of carbon steel nails taken for stainless steel")
    called = (
        f"{penny} {row['kind'] if row['kind'] in _NAILS else 'short'} nail" if penny else "nail"
    )
    called = (
        f"ring shank {called}" + ("" if ring else " counted as smooth")
        if "ring" in words
        else called
    )
    called = f"stainless {called}" if "stainless" in words else called
    return Fastener(
        name=f"{called}, {D:g} in x {quantity.sixteenths(length)}",
        kind="nail",
        D=D,
        Dr=D,
        length=length,
        head=float(row["head_in"]),
        Fyb=Fyb,
        ring=ring,
        stainless="stainless" in words,
        statuses={
            **dict.fromkeys(("D_nom", "D"), row["status"]),
            "L_f": row["status"] if own else "",
            "DH": row["head_status"],
            "t_ring": row["ring_status"],
            "Fyb": "MEMORY" if "stainless" in words else Fyb_status,
        },
        notes=tuple(notes),
    )


def _screw(number: str, length: float | None) -> Fastener:
    rows = tables.load("wood_screws").rows
    row = next((r for r in rows if r["number"] == number), None)
    if row is None:
        listed = ", ".join(f"#{r['number']}" for r in rows)
        raise InputError(f"no wood screw #{number} on file. It has: {listed}.")
    if length is None:
        raise InputError(f'no length. Write it as "wood screw #{number} x 2 1/2 in".')
    D, Dr = float(row["D_in"]), float(row["Dr_in"])
    Fyb, Fyb_status = bending_yield(D)
    return Fastener(
        name=f"wood screw #{number}, {D:g} in x {quantity.sixteenths(length)}",
        kind="screw",
        D=D,
        Dr=Dr,
        length=length,
        head=float(row["head_in"]),
        Fyb=Fyb,
        statuses={
            **dict.fromkeys(("D_nom", "D"), row["status"]),
            "DH": row["head_status"],
            "Fyb": Fyb_status,
        },
    )


def _lag(D: float, length: float | None) -> Fastener:
    rows = tables.load("lag_screws").rows
    row = next((r for r in rows if float(r["D_in"]) == D), None)
    if row is None:
        listed = ", ".join(quantity.sixteenths(float(r["D_in"])) for r in rows)
        raise InputError(f"no lag screw of {D:g} in on file. It has: {listed}.")
    if length is None:
        raise InputError(f'no length. Write it as "lag {quantity.sixteenths(D)} x 3 in".')
    return Fastener(
        name=f"lag screw, {quantity.sixteenths(D)} x {quantity.sixteenths(length)}",
        kind="lag",
        D=D,
        Dr=float(row["Dr_in"]),
        length=length,
        head=float(row["head_in"]),
        Fyb=float(row["Fyb_psi"]),
        lag_tip=float(row["tip_in"]),
        statuses={
            "D": row["status"],
            "E_tip": row["tip_status"],
            "DH": row["head_status"],
            "Fyb": row["Fyb_status"],
        },
    )


def _listed(rows: Iterable[tables.Row]) -> str:
    """Nails of the table, for people."""
    words = {"short": "short nail", "ring": "ring shank nail"}
    return "; ".join(
        f"{r['size']} {words.get(r['kind'], r['kind'])} "
        f"({r['D_in']} x {quantity.sixteenths(float(r['length_in']))})"
        for r in rows
    )
