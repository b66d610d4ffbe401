"""What people write for lumber that is no name on file: asked back, never taken."""

import re
from collections.abc import Iterable

SAWN_ALONE = "Sawn lumber alone is on file: no LVL, glulam or I-joist."
_ENGINEERED = r"\b(lvl|lsl|psl|osl|glu-?lam|i-?joists?|engineered|laminated)\b"


def engineered(text: str) -> bool:
    """Whether a name says that it is no sawn lumber."""
    return re.search(_ENGINEERED, text.lower()) is not None


def size_meant(text: str, sold: Iterable[tuple[float, float, float, float]]) -> str:
    """A sentence with the size that was probably meant, a blank before it; empty: none comes to
    mind. `sold`: the sizes on file, nominal and dressed."""
    if engineered(text):
        return f" {SAWN_ALONE}"
    sizes = [(f"{b:g}x{d:g}", dressed) for b, d, *dressed in sold]
    names = {name for name, _ in sizes}
    numbers = re.findall(r"\d+(?:\.\d+)?", text)
    if "/" in text:
        return " That is what it measures." if numbers else ""
    name = "x".join(numbers[-2:])
    if name in names and len(numbers) <= 3:
        plies = numbers[0] if len(numbers) == 3 and numbers[0] in ("2", "3") else ""
        pair = f", and plies = {plies}" if plies else ""
        return f' Did you mean "{name}"{pair}?'
    pair_of = [float(number) for number in numbers]
    meant = next((name for name, dressed in sizes if dressed == pair_of), "")
    return f' Did you mean "{meant}"?' if meant else ""
