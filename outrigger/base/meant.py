"""What a text that is no quantity was probably meant for: asked back, never taken."""

import re

from outrigger.base.quantity import EXAMPLES, NUMBER, Kind

# units of elsewhere: the trade's own unit, how many of it they are
_FOREIGN: dict[str, tuple[Kind, str, float]] = {
    "mm": ("length", "in", 1 / 25.4), "cm": ("length", "in", 1 / 2.54),
    "m": ("length", "ft", 3.281),
    "kpa": ("pressure", "psf", 20.89), "kn": ("force", "lb", 224.8), "kip": ("force", "lb", 1000.0),
    "kips": ("force", "lb", 1000.0), "kg": ("force", "lb", 2.205), "mpa": ("stress", "psi", 145.0),
    "kn/m": ("line load", "plf", 68.52), "km/h": ("speed", "mph", 0.6214),
}  # fmt: skip
# other spellings of the trade's units
_SPELLED = {
    "lb/sf": "psf", "lbs/sf": "psf", "lb/ft2": "psf", "lbs/ft2": "psf", "lb/ft^2": "psf",
    "lb/ft²": "psf", "#/sf": "psf", "lbs/ft": "plf", "#/ft": "plf", "lb/lf": "plf", "lbs/lf": "plf",
    "lb/in2": "psi", "lbs/in2": "psi", "pounds": "lb", "pound": "lb", "miles": "mph",
}  # fmt: skip
_UNIT = r"[a-z#²^/][a-z0-9#²^/]*"


def meant(plain: str, kind: Kind) -> str:
    """A sentence with what was probably meant by a tidied text; empty: nothing comes to mind."""
    own = EXAMPLES[kind].rpartition(" ")[2]
    if found := re.fullmatch(rf"({NUMBER})\s*({_UNIT})", plain):
        number, unit = found.groups()
        of_kind, ours, factor = _FOREIGN.get(unit, ("", "", 0.0))
        if of_kind == kind and "/" not in number:
            return f' That is "{float(number) * factor:.4g} {ours}".'
        if _SPELLED.get(unit) == own or (unit == "#" and kind in ("force", "pressure")):
            return _did(f"{number} {own}")
    if found := re.fullmatch(r"(0|[1-9]\d*),(\d{1,2})\s*([a-z'\"/]+)\.?", plain):
        return f' A decimal has a point. Did you mean "{found[1]}.{found[2]} {found[3]}"?'
    return _meant_length(plain) if kind == "length" else ""


def _meant_length(plain: str) -> str:
    if found := re.fullmatch(rf"({NUMBER})\s*o\.?\s?c\.?", plain):
        return _did(f"{found[1]} in o.c.")
    if found := re.fullmatch(rf"({NUMBER})\s*(?:ft|')\s*-?\s*({NUMBER})", plain):
        return _did(f"{found[1]} ft {found[2]} in")
    if found := re.fullmatch(rf"({NUMBER})\s*-\s*({NUMBER})(\s*in|\s*\"|)", plain):
        return _two(*found.groups())
    if re.search(r"\d.*(?:\bto\b|\bor\b|\.\.|,|;|\d\s*-\s*\d).*\d", plain):
        return " Two numbers: give one of them."
    return "" if re.search(r"\d", plain) else " Write it in figures, with its unit."


def _two(first: str, second: str, unit: str) -> str:
    """Two numbers with a dash between them: feet and inches, a fraction, or a range."""
    if unit and second in ("2", "4", "8", "16", "32"):
        return f' Did you mean "{first}/{second} in"? Of two lengths, give one.'
    if not unit:
        return f' Did you mean "{first} ft {second} in"? Of two lengths, give one, "{first} in".'
    return f' Two numbers: give one of them, "{first} in" or "{second} in".'


def _did(text: str) -> str:
    return f' Did you mean "{text}"?'
