"""The HTML writer: one page of text, MathML and drawings; no script, nothing from the network."""

import base64
import unicodedata
from pathlib import Path

import jinja2
from markupsafe import Markup, escape

from outrigger.base.plain import harmless
from outrigger.formula import layout as maths
from outrigger.report.write.document import (
    AdoptionBox,
    Bar,
    Blank,
    Block,
    Bold,
    Bullets,
    Calculation,
    Document,
    Figure,
    Inline,
    Maths,
    Page,
    PageBreak,
    Paragraph,
    Runs,
    Table,
    runs,
)

PAIRED = 4  # columns of a list that stands in two halves
TEMPLATE = Path(__file__).with_name("summary.html.j2")
BAR_EM = 4.2  # of a ratio of 1.00


def html(document: Document) -> str:
    """The document as one HTML file."""
    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters |= {"block": _block, "text": text, "css": _css}
    template = environment.from_string(TEMPLATE.read_text(encoding="utf-8"))
    return harmless(template.render(doc=document))


def text(given: str) -> Markup:
    """A text, escaped; one that runs right to left kept from turning what stands around it."""
    turned = any(unicodedata.bidirectional(one) in ("R", "AL", "AN") for one in given)
    return Markup("<bdi>{}</bdi>").format(given) if turned else escape(given)


def _css(given: str) -> Markup:
    """A text inside a string of the style sheet: all but letters and digits by their number."""
    plain = (c if c.isascii() and c.isalnum() else f"\\{ord(c):x} " for c in given)
    return Markup("".join(plain))


def _runs(given: Runs) -> Markup:
    return Markup("").join(_run(one) for one in runs(given))


def _run(one: Inline) -> Markup:
    match one:
        case str():
            return text(one)
        case Bold():
            return Markup("<strong>{}</strong>").format(text(one.text))
        case Page(anchor=anchor):
            return Markup('<a href="#{}">below</a>').format(anchor)
        case Blank(width=width, label=label):
            wide = Markup(' style="width:{}in"').format(width) if width else Markup("")
            said = Markup("{} ").format(label) if label else Markup("")
            return Markup('<span class="blank">{}<span{}>&nbsp;</span></span>').format(said, wide)
        case Bar(ratio=ratio):
            if ratio is None:
                return Markup("")
            long = min(ratio, 1.2) * BAR_EM
            return Markup('<span class="bar"><i style="width:{:.2f}em"></i></span>').format(long)
        case Maths(layout=layout):
            return _math(maths.mathml(layout))


def _math(inside: str, label: str = "") -> Markup:
    """A math element; `inside` comes from the notation and numbers, escaped by its printer."""
    said = Markup(' aria-label="{}"').format(label) if label else Markup("")
    return Markup('<math displaystyle="true"{}>{}</math>').format(said, Markup(inside))


def _block(block: Block) -> Markup:
    match block:
        case Paragraph():
            return Markup('<p class="{}">{}</p>').format(block.role or "plain", _runs(block.runs))
        case Bullets():
            items = Markup("").join(Markup("<li>{}</li>").format(_runs(i)) for i in block.items)
            return Markup('<ul class="{}">{}</ul>').format(block.role or "plain", items)
        case Table():
            return _table(block)
        case Calculation():
            return _calculation(block)
        case Figure():
            drawn = base64.b64encode(block.svg.encode()).decode()
            said = text(block.caption)
            return Markup(
                '<figure><img alt="{}" src="data:image/svg+xml;base64,{}">'
                "<figcaption>{}</figcaption></figure>"
            ).format(block.alt, drawn, said)
        case AdoptionBox():
            return Markup('<div class="adoption"><p><strong>{}</strong></p><p>{}</p></div>').format(
                block.heading, _runs(block.line)
            )
        case PageBreak():
            return Markup('<div class="break"></div>')


def _table(table: Table) -> Markup:
    sides = ["right" if side == "r" else "left" for side in table.align]
    columns = Markup("")
    if table.widths:
        whole = sum(table.widths)
        columns = Markup("").join(
            Markup('<col style="width:{:.1f}%">').format(100 * w / whole) for w in table.widths
        )
    head = Markup("").join(
        Markup('<th scope="col" class="{}">{}</th>').format(side, _runs(one))
        for side, one in zip(sides, table.head, strict=False)
    )
    body = Markup("\n").join(
        Markup("<tr>{}</tr>").format(
            Markup("").join(
                Markup('<td class="{}">{}</td>').format(side, _runs(cell))
                for side, cell in zip(sides, row, strict=True)
            )
        )
        for row in table.rows
    )
    top = Markup("<thead><tr>{}</tr></thead>").format(head) if table.head else Markup("")
    half = len(table.head) // 2  # two columns of one list: on a phone one under the other
    pairs = half == PAIRED and tuple(table.head[:half]) == tuple(table.head[half:])
    return Markup(
        '<table{} aria-label="{}"><colgroup>{}</colgroup>{}<tbody>{}</tbody></table>'
    ).format(Markup(' class="pairs"') if pairs else "", table.say, columns, top, body)


def _calculation(one: Calculation) -> Markup:
    """The parts of a line, each free to go to the next line as a whole."""
    first, *rest = (maths.mathml(part) for part in one.line.parts)
    pieces = Markup(" ").join(
        [_math(first, one.line.text), *(_math(f"<mo>=</mo>{part}") for part in rest)]
    )
    return Markup(
        '<div class="line"><span class="number">({})</span><span class="formula">{}</span>'
        '<span class="said">{}</span></div>'
    ).format(one.label, pieces, text(one.said))
