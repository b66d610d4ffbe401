"""`size` on screen: what works, ranked, each with its command; what does not, and why."""

from collections.abc import Sequence

from outrigger.base.quantity import length
from outrigger.base.shell import command
from outrigger.cases.settings import Override
from outrigger.report import words
from outrigger.report.screen import frame as sweep_words
from outrigger.report.screen.columns import columns
from outrigger.report.screen.frame import LEAST_WIDTH, SO_FAR, caution_lines
from outrigger.report.words import wrap
from outrigger.studies.sizes import Choice, Rejected, Sizes
from outrigger.verdict.back_span import mark

WHOLE = (
    "Each truss lands whole on one outrigger: closer spacing does not help; put one under each "
    "truss, or double it."
)
MOST_SHOWN = 5  # of those that follow the framing, and of those that do not
MOST_LISTED = 12  # back spans


def page(
    result: Sizes,
    width: int,
    file: str,
    typed: Sequence[str],
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """The choices, best first. `file` and `typed`: the case and the settings, as given."""
    width = max(LEAST_WIDTH, width)
    lines = _each_spacing(result, width)
    lines += [wrap(text, width) for text in (_tried(result), WHOLE * result.whole) if text]
    lines += [""]
    unsure = _unsure(result)
    by = f"{SO_FAR} least" if unsure else "Least"
    kept = [one for one in result.shortest if not one.off_framing]
    off = [one for one in result.shortest if one.off_framing]
    several = _other_species(result)
    if kept:
        lines.append(wrap(f"{by} lumber first (board feet and clips for a foot of wall):", width))
        lines += _listed(kept, width, file, typed, several)
    if off:
        framing = result.asked.case.house_roof.framing_spacing or 0.0
        text = (
            f"The numbers allow these too, but they do not follow the house framing at "
            f"{length(framing)}: check leaves them open until blocking between the rafters carries "
            "the clips."
        )
        lines += ["", wrap(text, width), *_listed(off, width, file, typed, several)]
    if result.rejected:
        lines += ["", "At no spacing and back span:"]
        lines += [wrap(_why(one, several), width, "  ") for one in result.rejected]
    shown: list[Choice | Rejected] = [*kept[:MOST_SHOWN], *off[:MOST_SHOWN], *result.rejected]
    lines += caution_lines((one.caution for one in shown), width)
    return sweep_words.page(
        result.asked, width, lines, _said(result, file, typed), sample=sample, overrides=overrides,
        first=unsure,
    )  # fmt: skip


def _each_spacing(result: Sizes, width: int) -> list[str]:
    """At each spacing the least lumber with its shortest back span: a line each."""
    least: dict[float, Choice] = {}
    for one in result.shortest:
        least.setdefault(one.spacing, one)
    if not least:
        return []
    several = _other_species(result)
    rows = [
        (
            _spacing(spacing),
            f"{_piece(one, several)} {one.grade}",
            f"back span {_back(one)}",
            f"{words.ratio(one.row.ratio)} {one.row.check.kind.name}",
            "misses the framing" if one.off_framing else "",
        )
        for spacing, one in sorted(least.items())
    ]
    said = f"{SO_FAR} the least at each spacing:" if _unsure(result) else "Least at each spacing:"
    table = columns(rows, "llrll", width)
    return [said, *(table or [wrap(", ".join(filter(None, row)), width, "  ") for row in rows]), ""]


def _yours(result: Sizes) -> str:
    """Whether the outrigger of the case itself works."""
    row = result.asked.closest
    used = row.check.why if row.ratio is None else words.ratio(row.ratio)
    does = "WORKS as it is" if result.asked.works else "WORKS, but not as it is"
    if result.asked.works and result.unknown.missing:
        does = "WORKS, though open as it is"
    return f"{does}: {words.subject(row)}, {used}."


def _unsure(result: Sizes) -> str:
    """That it cannot be said what works, and why; empty: something works, or nothing does."""
    if result.answer != "open":
        return ""
    why = "CANNOT SAY what works: which clips land on the house framing is open."
    return result.unknown.cannot_say("what works") or why


def _tried(result: Sizes) -> str:
    spacings, backs = (
        [f"{one:g}" for one in listed] for listed in (result.spacings, result.back_spans)
    )
    if len(backs) > MOST_LISTED:
        backs = [*backs[:3], "...", backs[-1]]
    if not result.tried:
        return ""
    more = f"; as none of these works, {', '.join(result.more)}" if result.more else ""
    return (
        f"{result.tried:,} outriggers run whole: {', '.join(result.families)}{more}, "
        f"at {', '.join(spacings)} in, back spans {', '.join(backs)} in. All else as stated. "
        f"{sweep_words.kept_spacing(result.asked.case)}".rstrip()
    )


def _listed(
    found: Sequence[Choice], width: int, file: str, typed: Sequence[str], several: bool
) -> list[str]:
    lines = []
    for one in found[:MOST_SHOWN]:
        better = " or better" if len(one.grades) > 1 else ""
        if one.grades[0] != one.grade:
            better = f" ({one.grades[0]} too)"
        deep = ", deeper than the roof insulation" if one.deep else ""
        text = (
            f"{one.board_feet:.2f} bd ft, {one.clips:.2g} clips: {_piece(one, several)} "
            f"{one.grade}{better} at {_spacing(one.spacing)}, back span {_back(one)}{deep}. "
            f"Closest: {words.subject(one.row)}, {words.ratio(one.row.ratio)}."
        )
        # a command is not folded: it is there to be copied
        lines += [wrap(text, width, "  "), f"    {_adopt(one, file, typed)}"]
    if more := len(found) - MOST_SHOWN:
        lines += [f"  {more} more with --json."] if more > 0 else []
    return lines


def _piece(one: Choice | Rejected, several: bool) -> str:
    """2x6, or 2 plies of 2x6 Hem-Fir."""
    plies = f"{one.plies} plies of " if one.plies > 1 else ""
    return f"{plies}{one.size}{f' {one.species}' if several else ''}"


def _other_species(result: Sizes) -> bool:
    """Whether another species than that of the case is named: then each is."""
    found = {one.species for one in result.choices} | {one.species for one in result.rejected}
    return bool(found - {result.asked.wood.row.species})


def _back(one: Choice | Rejected) -> str:
    return f"{length(one.back_span)}{mark(one.caution)}"


def _spacing(value: float) -> str:
    """19.2 in is on every tape by that name."""
    return f"{value:g} in"


def _adopt(one: Choice, file: str, typed: Sequence[str]) -> str:
    return command("check", file, [*typed, *one.settings])


def _why(one: Rejected, several: bool) -> str:
    grades = "every grade" if one.every and len(one.grades) > 1 else ", ".join(one.grades)
    closest = f"{one.grade} at {_spacing(one.spacing)}, back span {_back(one)}: "
    if len(one.grades) == 1:
        closest = f"{_spacing(one.spacing)}, back span {_back(one)}: "
    used = words.ratio(one.row.ratio) if one.row.ratio is not None else one.row.check.why
    return f"{_piece(one, several)} {grades}. Closest, {closest}{words.subject(one.row)} {used}."


def _said(result: Sizes, file: str, typed: Sequence[str]) -> str:
    near, unsure, several = result.closest, _unsure(result), _other_species(result)
    if unsure and not result.choices:
        return unsure
    if unsure:
        return f"{unsure} {SO_FAR} least lumber: {_adopt(result.shortest[0], file, typed)}"
    if result.best is not None:
        least = result.best
        piece = f"{_piece(least, several)} {least.grade} at {_spacing(least.spacing)}"
        return f"{_yours(result)} Least lumber: {piece}, back span {_back(least)}."
    if near is None:
        graded = result.asked.wood.row.graded
        kind = graded if graded in ("timber", "machine rated") else "visually graded"
        return f"NOTHING WORKS: none of what is asked for is on file as {kind} in these sizes."
    used = words.ratio(near.row.ratio) if near.row.ratio is not None else near.row.check.why
    return (
        f"NOTHING WORKS. Closest: {_piece(near, several)} {near.grade} at "
        f"{_spacing(near.spacing)}, "
        f"back span {_back(near)}, stopped by {words.subject(near.row)} {used}."
    )
