"""Cross sections of lumber as sold, with their dressed sizes. NDS Supplement 2018, Table 1A."""

import re
from functools import cache

from msgspec import Struct

from outrigger.base import tables
from outrigger.base.errors import InputError
from outrigger.wood.other_names import size_meant

DEPTHS_IN = (4, 6, 8, 10, 12)  # nominal, of dimension lumber
TIMBER_LEAST_IN = 5  # nominal; Table 4D: 5x5 and larger
DIMENSION_THICKNESSES_IN = (2, 3, 4)  # nominal; the size factors have rows for no others


class Size(Struct, frozen=True):
    """A cross section: nominal and dressed sizes in inches, on edge (d is the larger side)."""

    nominal_b: float
    nominal_d: float
    b: float
    d: float
    status: str
    note: str = ""

    @property
    def name(self) -> str:
        """As sold: 2x6."""
        return f"{self.nominal_b:g}x{self.nominal_d:g}"

    @property
    def is_timber(self) -> bool:
        """5x5 and larger (Table 4D)."""
        return self.nominal_b >= TIMBER_LEAST_IN

    @property
    def timber_class(self) -> str:
        """Table 4D: more than 2 in deeper than thick is a beam, else a post (nominal sizes)."""
        beam = self.nominal_d - self.nominal_b > 2
        return "Beams & Stringers" if beam else "Posts & Timbers"


def read_size(text: str) -> Size:
    """A cross section from its name: 2x6, 2 x 6.

    Raises:
        InputError: not a size on file; the dressed sizes on file are listed.
    """
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[xX×]\s*(\d+(?:\.\d+)?)\s*", text)
    if match is None:
        meant = size_meant(text, _sold())
        raise InputError(f'size = "{text}": not a size. Write it as sold, "2x6".{meant}')
    nominal_b, nominal_d = float(match[1]), float(match[2])
    if nominal_d < nominal_b:
        raise InputError(
            f'size = "{text}": the smaller side comes first: "{nominal_d:g}x{nominal_b:g}"; '
            'laid = "flat" turns it.'
        )
    timber = nominal_b >= TIMBER_LEAST_IN
    if timber:
        sides, faces = {**_dressed("timber")}, {**_dressed("timber")}
    else:
        sides, faces = _dressed("thickness"), _dressed("width")
        sides = {n: row for n, row in sides.items() if n in DIMENSION_THICKNESSES_IN}
    if nominal_b not in sides or nominal_d not in faces:
        listed = ", ".join(f"{b:g}x{d:g}" for b in sides for d in faces if d >= b)
        meant = size_meant(text, _sold())
        raise InputError(f'size = "{text}": no such size. Dressed sizes on file: {listed}.{meant}')
    side, face = sides[nominal_b], faces[nominal_d]
    status = tables.worst(side["status"], face["status"])
    note = face["note"] if timber else ""
    return Size(nominal_b, nominal_d, float(side["dry_in"]), float(face["dry_in"]), status, note)


def sizes_sold() -> tuple[str, ...]:
    """The sizes of dimension lumber on file, as sold."""
    return tuple(f"{b:g}x{d:g}" for b, d, *_ in _sold() if d >= b)


def _sold() -> list[tuple[float, float, float, float]]:
    """The sizes of dimension lumber: nominal sides, dressed sides."""
    faces = _dressed("width")
    sides = {n: r for n, r in _dressed("thickness").items() if n in DIMENSION_THICKNESSES_IN}
    return [
        (b, d, float(side["dry_in"]), float(face["dry_in"]))
        for b, side in sides.items()
        for d, face in faces.items()
    ]


@cache
def _dressed(kind: str) -> dict[float, tables.Row]:
    rows = tables.load("dressed_sizes").matching(kind=kind)
    return {float(row["nominal_in"]): row for row in rows}
