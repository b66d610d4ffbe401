"""How every drawing and chart is drawn and saved: by the program's settings alone, its texts as
plain text, the same bytes each time."""

import io
import textwrap
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from outrigger.report.cautions import two_lines
from outrigger.verdict.design import Design

if TYPE_CHECKING:  # loaded only when drawing
    from matplotlib.figure import Figure

# a dollar sign is one, never mathematics; no random names; text stays text in a picture
SAME: Any = {
    "text.parse_math": False, "text.usetex": False,
    "svg.hashsalt": "outrigger", "svg.fonttype": "none",
}  # fmt: skip
LETTERS_IN_AN_INCH = 118.0  # of the drawings' font at a size of one point, on the safe side
LINE = 1.25  # from one line to the next, of the size of the letters
DATED = {"svg": {"Date": None}, "png": {"Software": None}}


def caution(design: Design, inches: float, points: float) -> str:
    """The two lines of caution under a picture, folded to its width."""
    letters = int(inches * LETTERS_IN_AN_INCH / points)
    return "\n".join(textwrap.fill(text, letters) for text in two_lines(design))


@contextmanager
def own_style(settings: Any) -> Iterator[None]:
    """While a figure is made and saved: the library's own settings and these, never those that a
    file of the user, or of the folder, gives it."""
    import matplotlib

    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(SAME | settings)
        yield


def saved(figure: "Figure", kind: str, dpi: int, **metadata: None) -> bytes:
    """A figure as a picture, "svg" or "png"; no text in it steers what reads it."""
    from matplotlib.text import Text

    for text in figure.findobj(Text):
        said = text.get_text()
        plain = "".join(c if c.isprintable() or c == "\n" else " " for c in said)
        if plain != said:
            text.set_text(plain)
    out = io.BytesIO()
    figure.savefig(out, format=kind, dpi=dpi, metadata={**DATED[kind], **metadata})
    return out.getvalue()
