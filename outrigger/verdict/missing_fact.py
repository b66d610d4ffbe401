"""One fact that is needed and the file does not give: its key, the question, who may know it."""

from msgspec import Struct

from outrigger.cases import described

ENGINEER, TRUSS, FRAMER = "engineer of record", "truss designer", "framer on site"
CODE, MAKER, DESIGNER = "building department", "maker's listing", "designer"
RUN = "layout.run"
JUST_OVER = 1.005  # under it two digits say 1.00


class NotGiven(Struct, frozen=True):
    """Something needed that the file does not say: its key, the question, who may know; `lack`,
    what is wrong with it; `bears`: a load or a strength hangs on it, so that nothing can be said
    to work without it."""

    key: str
    question: str
    who: str
    lack: str = "not given"
    bears: bool = True

    @property
    def line(self) -> str:
        """What to add to the file."""
        section, _, field = self.key.rpartition(".")
        if self.key == "wall_tie":
            return "[wall_tie] count, rated_uplift, rated_lateral, rated_for; or fastener, count"
        if not section:
            return '[[hold_down]] at = "back", count, rated_uplift, rated_for, into ...'
        header = "[[hold_down]]" if section.startswith("hold_down") else f"[{section}]"
        return f"{header} {field} = {described.of(self.key).shown}"


def run(ratio: float | None) -> NotGiven:
    """How long the wall is, where it decides; ratio: of the second outrigger from each end."""
    used = ""
    if ratio is not None and ratio > 1:
        used = f" ({ratio:.2f})" if ratio >= JUST_OVER else " (just over 1)"
    may = f"the second outrigger from each end may be over{used}"
    return NotGiven(
        RUN,
        f"say how long the wall is (layout.run): {may}. Two side by side there share it.",
        FRAMER,
        f"not given: {may}",
        bears=False,  # what hangs on it is counted: while that one is over, nothing works
    )
