"""A drawing as a file of one kind: SVG, PDF, PNG or DXF; the same bytes each time."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from outrigger.report.draw.primitives import Drawing
from outrigger.report.draw.svg import svg

TEMPLATE = Path(__file__).with_name("picture.typ")
DOTS = 150  # of a PNG, to an inch


def written(drawing: Drawing, kind: str) -> bytes:
    """The bytes of a file; `kind`: its ending, .svg, .pdf, .png or .dxf."""
    if kind == ".dxf":
        from outrigger.report.draw.dxf import dxf  # slow to load; only a DXF needs it

        return dxf(drawing)
    if kind == ".svg":
        return svg(drawing).encode()
    if kind == ".pdf":
        return sheets([drawing])
    from outrigger.report.write import typeset  # slow to load; SVG goes without

    return typeset.png(TEMPLATE, _data([drawing]), DOTS)


def sheets(drawings: Sequence[Drawing]) -> bytes:
    """Several drawings as one PDF, a sheet for each."""
    from outrigger.report.write import typeset

    return typeset.pdf(TEMPLATE, _data(drawings))


def _data(drawings: Sequence[Drawing]) -> dict[str, Any]:
    return {
        "title": "; ".join(one.title for one in drawings),
        "sheets": [
            {"svg": svg(one), "said": one.said, "wide": one.wide, "tall": one.tall}
            for one in drawings
        ],
    }
