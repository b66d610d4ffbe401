"""The curves of shear, moment and droop as SVG. One ink; what is said is said by words, too."""

from collections.abc import Iterable
from typing import Any

import numpy as np
from matplotlib.figure import Figure

from outrigger.actions.places import WALL_LINE
from outrigger.base.quantity import feet_and_inches
from outrigger.report import words
from outrigger.report.draw.section import INK, SETTINGS, WIDTH_IN, svg
from outrigger.report.draw.style import own_style
from outrigger.studies.curves import Curve, Curves


def diagrams(drawn: Curves) -> str:
    """Shear, moment and droop along the member, with their values at the places that matter."""
    with own_style(SETTINGS):
        figure = Figure(figsize=(WIDTH_IN, 5.2))
        shown = [
            ("shear", "lb", drawn.V, 1.0),
            ("moment", "lb-in", drawn.M, 1.0),
            ("droop", "in", drawn.droop, -1.0),  # down is drawn down
        ]
        for i, (name, unit, curve, sign) in enumerate(shown):
            axes = figure.add_axes((0.075, 0.70 - 0.315 * i, 0.86, 0.235))
            _curve(axes, drawn, name, unit, curve, sign)
        return svg(figure)


def _curve(axes: Any, drawn: Curves, name: str, unit: str, curve: Curve, sign: float) -> None:
    x, y = drawn.x, sign * curve.values
    axes.fill_between(x, y, 0, color="0.88", linewidth=0)
    axes.plot(x, y, color=INK, linewidth=1.1)
    axes.axhline(0, color=INK, linewidth=0.6)
    reach = float(np.max(np.abs(y))) or 1.0
    low, high = min(float(np.min(y)), 0.0), max(float(np.max(y)), 0.0)
    axes.set_ylim(low - 0.34 * reach, high + 0.34 * reach)
    for _, at in drawn.supports:
        axes.plot([at], [0], marker="^", color=INK, markersize=6, clip_on=False)
    _values(axes, curve, sign, unit, reach)
    axes.set_title(f"{name}, {unit}", loc="left", fontsize=9, fontweight="bold", pad=3)
    for spine in ("top", "right", "bottom", "left"):
        axes.spines[spine].set_visible(False)
    axes.set_yticks([])
    axes.set_xticks([])
    if name == "droop":
        ticks = [
            *drawn.supports,
            (WALL_LINE, next(at for n, at, _ in curve.marks if n == WALL_LINE)),
        ]
        axes.set_xticks([at for _, at in ticks])
        labels = [f"{words.place(n)}\n{feet_and_inches(abs(at))}" for n, at in ticks]
        axes.set_xticklabels(labels, fontsize=9)
        axes.tick_params(length=0)
        texts = axes.get_xticklabels()
        if len(texts) > 1:
            texts[-2].set_ha("right")
            texts[-1].set_ha("left")


def _values(axes: Any, curve: Curve, sign: float, unit: str, reach: float) -> None:
    """Each value beside its point, on the outer side of the line."""
    span = axes.get_xlim()
    seen: list[tuple[float, float]] = []
    for i, (name, at, value) in enumerate(curve.marks):
        if abs(value) < 2e-2 * reach:
            continue
        y = sign * value
        text = words.amount(value, unit).removesuffix(f" {unit}").replace("-", "−")
        up = y >= 0
        left = sum(1 for n, a, _ in curve.marks[:i] if a == at) == 0
        left = left and not (name == WALL_LINE and unit == "lb-in")
        ha = "right" if left else "left"
        shift = -2 if left else 2
        if any(abs(at - a) < 0.04 * (span[1] - span[0]) and abs(y - b) < 0.3 * reach
               for a, b in seen):  # fmt: skip
            ha, shift = "left", 4
        seen.append((at, y))
        axes.plot([at], [y], marker="o", markersize=2.6, color=INK)
        axes.annotate(
            text, (at, y), xytext=(shift, 3 if up else -3), textcoords="offset points",
            ha=ha, va="bottom" if up else "top",
        )  # fmt: skip


def said_of(places: Iterable[tuple[str, float, float]], unit: str) -> str:
    """Values of a curve in words, for those who do not see it."""
    return "; ".join(
        f"{words.place(name)} {words.amount(value, unit)}" for name, _, value in places
    )
