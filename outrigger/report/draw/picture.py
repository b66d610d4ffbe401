"""A drawing as a file of one kind: SVG, PDF, PNG or DXF; the same bytes each time."""

from pathlib import Path

from outrigger.report.draw.primitives import Drawing
from outrigger.report.draw.svg import svg

TEMPLATE = Path(__file__).with_name("picture.typ")
DOTS = 150  # of a PNG, to an inch


def written(drawing: Drawing, kind: str) -> bytes:
    """The bytes of a file; `kind`: its ending, .svg, .pdf, .png or .dxf."""
    if kind == ".dxf":
        from outrigger.report.draw.dxf import dxf  # slow to load; only a DXF needs it

        return dxf(drawing)
    drawn = svg(drawing)
    if kind == ".svg":
        return drawn.encode()
    from outrigger.report.write import typeset  # slow to load; SVG goes without

    data = {
        "svg": drawn,
        "title": drawing.title,
        "said": drawing.said,
        "wide": drawing.wide,
        "tall": drawing.tall,
    }
    if kind == ".pdf":
        return typeset.pdf(TEMPLATE, data)
    return typeset.png(TEMPLATE, data, DOTS)
