"""What the pages of size, reserve and card share: opening and closing lines, numbers."""

from collections.abc import Iterable, Sequence

from outrigger.base import units
from outrigger.base.plain import series
from outrigger.base.quantity import feet_and_inches, in_trade, length, sixteenths
from outrigger.base.units import INCHES_PER_FOOT
from outrigger.cases import one_snow, one_wind
from outrigger.cases.model import Case
from outrigger.cases.paths import number_at
from outrigger.cases.settings import Override
from outrigger.report import cautions, verdict_words, words
from outrigger.report.screen import check as screen
from outrigger.report.words import wrap
from outrigger.studies.reserve import Quantity
from outrigger.verdict.back_span import SHORT_BACKS, ShortBack
from outrigger.verdict.design import Design
from outrigger.verdict.missing_fact import RUN

LEAST_WIDTH, ANY_WIDTH = 30, 10_000
SO_FAR = "By what is stated so far,"  # before what the numbers say while something is missing


def page(
    design: Design,
    width: int,
    body: Iterable[str],
    said: str,
    *,
    sample: bool,
    overrides: Sequence[Override],
    first: str = "",
) -> str:
    """A whole page: what was changed, the case, the answer, what is open, the body, the answer
    again as the last words; `first`: in place of the answer at the top, that nothing can be said,
    and why."""
    last = wrap(words.of_sample(said) if sample else said, width)
    parts = [*(wrap(one.text, width) for one in overrides), screen.heading(design, width)]
    top = wrap(words.of_sample(first) if sample else first, width) if first else ""
    parts += [
        top or "\n".join(filter(None, (last, open_line(design, width)))),
        "",
        *body,
        "",
        *cautions.caution_lines(design, width),
        "",
        last,
        wrap(words.ENGINEERS_LINE, width),
    ]
    return words.whole([part for i, part in enumerate(parts) if part or i or sample], sample)


def open_line(design: Design, width: int) -> str:
    """What is open in the case; empty: nothing is. No search says more than the case does."""
    reason = verdict_words.left_open(design)
    if not reason:
        return ""
    stays = "" if _may_close(design) else ", and open it stays in all that follows"
    text = f"Open{stays}: {reason}. See outrigger check."
    return wrap(text, width)


def _may_close(design: Design) -> bool:
    """Whether other numbers may close all that is open: the length of the wall, and what is stated
    and not computed, as clips that land on the framing at some lengths alone."""
    asked = {one.key for one in design.not_given}
    return asked <= {RUN} and "open" not in {row.status for row in design.rows}


def house_snow(case: Case) -> str:
    """What becomes of the snows that a case states of their own where a study changes the snow;
    empty: it has none."""
    said, texts = [], []
    for path in one_snow.follow(case):
        kind, where = one_snow.FOLLOW[path]
        number, unit = in_trade(number_at(case, path) or 0.0, kind)
        said.append(f"{number:.4g} {unit} {where}")
    if said:
        texts.append(
            f"Snow as stated goes with the garage roof's in proportion: {', '.join(said)}."
        )
    elif one_snow.stays(case):
        own = f"{units.psf(case.house_roof.snow or 0.0):.4g} psf"
        texts.append(f"Snow on the house roof stays at {own}: no other snow is stated to go by.")
    if stay := [one_snow.STAY[path] for path in one_snow.left(case, one_snow.SNOWS[0])]:
        texts.append(
            f"The snow of {series(stay)} stays as stated beside another snow: state it anew there."
        )
    return " ".join(texts)


def other_winds(case: Case, keys: Iterable[str]) -> str:
    """What stays as stated where a study changes the wind of one place; empty: nothing is."""
    paths = dict.fromkeys(path for key in keys for path in one_wind.left(case, key))
    if not paths:
        return ""
    said = ", ".join(one_wind.in_words(case, path) for path in paths)
    return (
        f"Each wind load alone, the others as stated: {said}. One site has one wind: where it is "
        "another, state them all anew."
    )


def kept_spacing(case: Case) -> str:
    """That the spacing is not varied, and why; empty: it is."""
    if case.layout is None or not case.layout.double_at:
        return ""
    return "The spacing is not varied: layout.double_at names marks of this one."


def caution_lines(found: Iterable[ShortBack | None], width: int) -> list[str]:
    """What the marks beside back spans mean, the gravest first; each once."""
    used = set(found)
    return [wrap(f"{one.mark} {one.words}.", width, "  ") for one in SHORT_BACKS if one in used]


def between_lines(case: Case) -> str:
    """That back spans between two lines of crossing framing are open; empty: it does not cross."""
    house = case.house_roof
    if house.framing_parallel is not False or house.framing_spacing is None:
        return ""
    return (
        f"The house framing crosses every {length(house.framing_spacing)}: at a back span between "
        "two of its lines the clips miss it, and check leaves that open."
    )


def off_lines(case: Case) -> str:
    """That spacings which do not follow framing beside the outriggers are open; empty: none is."""
    house = case.house_roof
    if not house.framing_parallel or (house.framing_spacing is None and house.framing_at is None):
        return ""
    return (
        "The house framing runs beside the outriggers: at a spacing that does not follow it the "
        "clips miss it, and check leaves that open."
    )


def number(quantity: Quantity, value: float) -> str:
    """A stated number for people, in its unit; one that its step does not reach in full."""
    if quantity.unit == "in":
        if abs(value / quantity.step - round(value / quantity.step)) > 1e-9:
            return sixteenths(value) if value == quantity.now else f"{value:.9g} in"
        whole = value == int(value / INCHES_PER_FOOT) * INCHES_PER_FOOT
        span = quantity.key == "garage_roof.span" and not whole
        return feet_and_inches(value) if span else length(value)
    shown = value * quantity.times
    if value == 0:
        return "none"
    digits = 0 if quantity.unit in ("lb", "plf", "mph") else 1
    text = f"{shown:,.{digits}f}".removesuffix(".0")
    exact = abs(value / quantity.step - round(value / quantity.step)) < 1e-6
    return f"{text if exact else f'{shown:.9g}'} {quantity.unit}"
