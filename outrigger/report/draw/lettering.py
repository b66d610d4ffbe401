"""How wide a text prints: the widths of the drawings' letters, on the safe side for others.

Thousandths of the size of the letters, DejaVu Sans 2.37 and its bold, read from the fonts' own
tables; sans-serifs that stand in for it are no wider.
"""

import textwrap

from outrigger.report import words
from outrigger.report.draw.primitives import LEADING, LETTERS

FIRST = 32  # of the characters below, in the order of ASCII
PLAIN = (
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, 637, 637, 637,
    637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632,
    576, 775, 752, 295, 295, 656, 558, 863, 749, 788, 604, 788, 695, 635, 611, 732, 685, 989, 686,
    611, 686, 391, 337, 391, 838, 500, 500, 613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580,
    278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637, 337, 637, 838,
)  # fmt: skip
BOLD = (
    349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416, 380, 366, 696, 696, 696,
    696, 696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831, 684,
    684, 821, 837, 373, 373, 775, 638, 996, 837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771,
    725, 726, 458, 366, 458, 838, 500, 500, 675, 716, 593, 716, 679, 436, 716, 712, 343, 343, 666,
    343, 1042, 712, 688, 716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712, 366, 712, 838,
)  # fmt: skip
WIDEST = {False: 1736, True: 2017}  # of any letter of the fonts


def width(text: str, size: float = LETTERS, bold: bool = False) -> float:
    """Width of one line, points."""
    table = BOLD if bold else PLAIN
    letters = sum(
        table[ord(c) - FIRST] if FIRST <= ord(c) < FIRST + len(table) else WIDEST[bold]
        for c in text
    )
    return letters * size / 1000


def box(lines: tuple[str, ...], size: float = LETTERS, bold: bool = False) -> tuple[float, float]:
    """Width and height of some lines, points."""
    return max(width(one, size, bold) for one in lines), len(lines) * size * LEADING


def folded(text: str, wide: float, size: float = LETTERS, bold: bool = False) -> tuple[str, ...]:
    """A text on lines of at most so many points; a word that is longer is broken."""
    lines: list[str] = []
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width(joined, size, bold) <= wide:
            lines[-1] = joined
            continue
        pieces = [word]
        if width(word, size, bold) > wide:
            letters = max(1, int(wide / (width(word, size, bold) / len(word)) * 0.6))
            pieces = textwrap.wrap(word, letters, break_on_hyphens=False)
        lines += pieces
    return tuple(lines) or ("",)


def plain(text: str) -> str:
    """A text of one line, in letters that the fonts have."""
    said = words.printable(text)
    if said.isascii():
        return said
    from outrigger.report.write.typeset import named  # slow to load; most drawings need it not

    return named(said)
