"""Text made safe to print: no control of the terminal in it, and only letters that it has."""

import re
import unicodedata
from collections.abc import Sequence

# All but line feed and tab: what moves a cursor, hides a text or turns its direction, and halves
# of characters, of which a file's name that is no UTF-8 is read.
_CONTROL = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)
_SPELLED = str.maketrans(
    {
        "′": "'", "″": '"', "’": "'", "‘": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"',
        "−": "-", "–": "-", "—": "-", "‐": "-", "×": "x", "°": " deg", "≤": "<=", "≥": ">=",
        "²": "^2", "³": "^3", "⁴": "^4", "√": "sqrt", "·": "*", "±": "+-", "…": "...",
        "ℓ": "l", "⊥": "_perp", "∥": "_par", "⁄": "/",
        "α": "alpha", "γ": "gamma", "Δ": "Delta", "θ": "theta", "λ": "lambda", "π": "pi",
        "φ": "phi", "Ω": "Omega",
    }
)  # fmt: skip


def harmless(text: str) -> str:
    """A text that cannot steer a terminal: control characters as a case file writes them."""
    return _CONTROL.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def one_line(text: str) -> str:
    """A harmless text that cannot look like lines of the program: its own line ends are written
    out."""
    return harmless(text).replace("\n", "\\n").replace("\t", "\\t")


def spelled(text: str, encoding: str) -> str:
    """A text in the letters of an encoding: <= for ≤, x for ×, ' for ′, 1/2 for ½, else "?"."""
    if text.isascii() or encoding.lower().replace("-", "") in ("utf8", "utf16", "utf32"):
        return text
    return "".join(one if one.isascii() else _letter(one, encoding) for one in text)


def _letter(one: str, encoding: str) -> str:
    plain = unicodedata.normalize("NFKD", one).translate(_SPELLED)
    bare = "".join(c for c in plain if not unicodedata.combining(c))
    for way in (one, one.translate(_SPELLED), bare):
        try:
            way.encode(encoding)
        except UnicodeEncodeError:
            continue
        return way
    return "?"


def series(names: Sequence[str]) -> str:
    """Names in a row: a, b and c."""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last


def deciding(ratio: float, digits: int) -> str:
    """A ratio in so many digits, in more where it would read as 1 and is not."""
    for more in range(digits, 15):
        if float(text := f"{ratio:.{more}f}") != 1 or ratio == 1:
            return text
    return f"{ratio:.15f}"
