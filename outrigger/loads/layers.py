"""A dead load from the layers that lie there: "shingles + OSB 7/16 + trusses"."""

import math
import re

from msgspec import Struct

from outrigger.base import quantity, tables
from outrigger.base.errors import InputError

LIGHT_SIDE = "on the light side"  # of a dead load by its layers: less holds down than weighs
LISTED = "common practice, no source"
_OWN = re.compile(r"(.+?)\s+(\d+(?:\.\d+)?)\s*psf")  # a layer with its own weight
_SIZE = re.compile(rf"{quantity.NUMBER}(?=\s*(?:in|inch|inches|\")?\.?(?:\s|$))")


class Layer(Struct, frozen=True):
    """One layer: its name, its weight, heavy and light side, psf of plan, and its status."""

    name: str
    psf: float
    light: float
    status: str


class Layers(Struct, frozen=True):
    """What lies one upon the other."""

    parts: tuple[Layer, ...]

    @property
    def psf(self) -> float:
        """Their weight, psf of plan, on the heavy side."""
        return math.fsum(part.psf for part in self.parts)

    @property
    def light(self) -> float:
        """The same on the light side, which wind that lifts is held against."""
        return math.fsum(part.light for part in self.parts)

    @property
    def text(self) -> str:
        """Each with its weight, and where the weights come from."""
        listed = " + ".join(f"{part.name} {part.psf:.3g}" for part in self.parts)
        known = [part.status for part in self.parts if part.status]
        said = f"; {LISTED}" if known else ""
        said += f", {tables.WORDS[tables.worst(*known)]}" if known else ""
        return f"{listed} psf{said}; {self.light:.3g} psf {LIGHT_SIDE}"


def read_layers(text: str, use: str, pitch: float | None = 0.0) -> Layers:
    """The layers of a text, between them "+"; `use`: roof or wall; `pitch`: rise over 12 of the
    surface, since a roof's loads are stated per plan area.

    Raises:
        InputError: a layer that the list does not have, or no pitch.
    """
    named = [piece.strip() for piece in text.split("+")]
    if any(not piece for piece in named):
        raise InputError('a layer is missing beside a "+".')
    if pitch is None:
        raise InputError(
            "layers weigh by the surface, loads by the plan: give the pitch of this roof first, or "
            'the load of plan, "15 psf" say.'
        )
    return Layers(tuple(_layer(piece, use, math.hypot(1.0, pitch / 12)) for piece in named))


def known(use: str) -> list[str]:
    """The layers of the list for one use."""
    rows = tables.load("layer_weights").rows
    return list(dict.fromkeys(row["layer"] for row in rows if row["use"] in (use, "any")))


def _is(row: tables.Row, plain: str) -> bool:
    """Whether a layer is a row of the list: it has all of its words, and no others but a size."""
    said = set(plain.split())
    name = quantity.tidied(row["layer"]).replace("-", " ")
    over = said - set(row["words"].split()) - set(name.split())
    sizes = all(re.fullmatch(r"[\d./]+\"?|in|inch|inches", word) for word in over)
    return set(row["words"].split()) <= said and sizes and (row["per"] == "in" or not over)


def _layer(piece: str, use: str, slope: float) -> Layer:
    plain = quantity.tidied(piece).replace("-", " ")
    if own := _OWN.fullmatch(plain):
        return Layer(own[1], float(own[2]) * slope, float(own[2]) * slope, "")
    rows = [
        row
        for row in tables.load("layer_weights").rows
        if row["use"] in (use, "any") and _is(row, plain)
    ]
    if not rows:
        listed = ", ".join(known(use))
        raise InputError(
            f'"{piece}": not in the list of weights. It has: {listed}. Or give its own weight, '
            f'"{piece} 3 psf" say.'
        )
    row = max(rows, key=lambda row: len(row["words"].split()))
    times, name = 1.0 if row["per"] == "plan" else slope, row["layer"]
    if row["per"] == "in":
        size = _SIZE.search(plain)
        if size is None:
            raise InputError(f'"{piece}": how thick? "{piece} 2 in", say.')
        thick = quantity.read(f"{size[0]} in", "length")
        times, name = times * thick, f"{row['layer']} {quantity.length(thick)}"
    psf, light = float(row["psf"]), float(row["light_psf"])
    return Layer(name, psf * times, light * times, row["status"])
