"""The section drawn in characters, for a first look at what was told; the numbers below it."""

from outrigger.base.quantity import length
from outrigger.formula.numbers import pick
from outrigger.report.words import wrap
from outrigger.verdict.design import Design

WIDEST = 72


def sketch(design: Design, width: int) -> str:
    """House to the left, garage wall to the right; lengths along the outrigger to one scale."""
    case, shape = design.case, design.shape
    start, end = pick(shape.house_end), pick(shape.end)
    columns = min(WIDEST, max(30, width)) - 4
    scale = (columns - 1) / (end - start)

    def at(x: float) -> int:
        return min(columns - 1, max(0, round((x - start) * scale)))

    def row(marks: dict[str, tuple[float, float]]) -> str:
        line = [" "] * columns
        for mark, (low, high) in marks.items():
            for i in range(at(low), at(high) + 1):
                line[i] = mark
        return "  " + "".join(line).rstrip()

    arm, face, back = pick(shape.arm), pick(shape.face), pick(shape.back_span)
    half = case.gap.garage_plate / 2
    bearing = case.gap.edge_bearing / 2
    wall = row({"#": (arm - half, arm + half)})
    clips = {one.name for one in case.hold_down}
    feet = {"H": (-bearing, bearing), "F": (face, face), "G": (arm - half, arm - half)}
    feet |= {"B": (-back, -back)} if "back" in clips else {}
    edge = "clips" if "edge" in clips else "clips not said"
    under = case.house_roof.edge_support or "not said what"
    member = f"{case.outrigger.plies} x " if case.outrigger.plies > 1 else ""
    tall = "" if case.garage_wall.height is None else f" {length(case.garage_wall.height)} high"
    lines = [
        wrap(f"{member}{design.wood.size.name} every {length(case.outrigger.spacing)}; on it the "
             f"garage wall{tall}, plate {length(case.gap.garage_plate)}", width),
        "", wall, wall, row({"=": (start, end)}), row(feet), "",
        wrap(f"H house wall: {under}, bearing {length(case.gap.edge_bearing)}, {edge}", width),
        wrap(f"{'B last clip, to' if 'back' in clips else 'Back clip not said; to'} the middle of "
             f"H: {length(back)}", width),
        wrap(f"F to G gap: {length(case.gap.width)}; middle of H to middle of #, the arm: "
             f"{length(arm)}", width),
    ]  # fmt: skip
    return "\n".join(lines)
