"""Several runs of wall on one screen: a line for each, the worst first; what each house wall is
handed in all; five lines to send."""

from collections.abc import Callable, Iterable, Sequence

from outrigger.actions.places import EDGE
from outrigger.base.quantity import feet_and_inches
from outrigger.cases.settings import Override
from outrigger.report import cautions, verdict_words, words
from outrigger.report.screen.brief import MOST, WORDS
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.studies.runs import ORDER, Run, Wall, verdict, walls
from outrigger.verdict.envelopes import ASD, PULL, PUSH, STRENGTH, envelopes
from outrigger.verdict.taken import stated_none
from outrigger.verdict.unknown import loads_missing

Refused = dict[str, str]  # files that are no case, and what is wrong with each
COUNTED = {"fail": ("fails", "fail"), "open": ("is open", "are open"), "pass": ("passes", "pass")}
WAYS = {PUSH: "down", PULL: "up"}
NOT_AT_ONCE = (
    "Each run's own most, added: no more than that at one time. What pushes and what pulls are "
    "never set off."
)


def page(
    runs: Sequence[Run],
    refused: Refused,
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
) -> str:
    """The whole output of `check` for several cases; `runs`: the worst first."""
    width = max(30, width)
    parts = [*_rows(runs, width), *(wrap(f"BAD INPUT  {one}", width, "  ") for one in refused), ""]
    for wall in walls(runs):
        parts += [*(wrap(text, width) for text in wall_lines(wall)), ""]
    parts += [wrap(text, width) for text in (*notes(runs, refused), *caution_lines(runs))]
    return framed(parts, line(runs, refused, sample), width, sample, overrides)


def framed(
    parts: Sequence[str], said: str, width: int, sample: bool, overrides: Sequence[Override]
) -> str:
    """A screen of several runs: what is set in all, the verdict of the whole over it and under it,
    and that the engineer decides."""
    line = wrap(said, width)
    above = [*(wrap(f"In every run: {one.text}", width) for one in overrides), line, ""]
    return words.whole([*above, *parts, "", line, wrap(words.ENGINEERS_LINE, width)], sample)


def line(runs: Sequence[Run], refused: Refused, sample: bool = False) -> str:
    """The verdict of the whole in a line: that of its worst run, never better."""
    count = len(runs) + len(refused)
    said = []
    for status in ORDER:
        many = sum(run.design.verdict == status for run in runs)
        if many:
            said.append(f"{many} {COUNTED[status][many > 1]}")
    listed = ", ".join(said)
    if refused:
        bad = "1 file is no case that can be checked"
        if len(refused) > 1:
            bad = f"{len(refused)} files are no cases that can be checked"
        return f"BAD INPUT: {bad}. Of {count} runs {listed or 'none is checked'}."
    word = verdict(runs).upper()
    text = f"{word}: of {count} runs {listed}." if word != "PASS" else f"PASS, all {count} runs."
    return words.of_sample(text) if sample else text


def _rows(runs: Sequence[Run], width: int) -> list[str]:
    """A line for each run; on a narrow screen each folded."""
    cells = [(run.file, *_answer(run), words.rev(run.design.case), _digest(run)) for run in runs]
    named = [(*cell[:4], f"rev {cell[4]}", cell[5]) for cell in cells]
    listed = columns(named, "llrlll", width, between="  ")
    return listed or [wrap("  ".join(filter(None, one)), width, "  ") for one in named]


def _answer(run: Run) -> tuple[str, str, str]:
    """Word, ratio and what decides; of an open run what keeps it open."""
    design, row = run.design, run.design.closest
    word = design.verdict if design.case.project.invented else design.verdict.upper()
    if design.verdict == "open":
        return word, "", verdict_words.left_open(design)
    used = "" if row.ratio is None else words.ratio(row.ratio)
    return word, used, f"{row.check.kind.name} at the {words.place(row.check.place)}"


def _digest(run: Run) -> str:
    return words.digest(run.design.case.digest)[:9]


def wall_lines(wall: Wall) -> list[str]:
    """What a house wall and the roof behind it are handed, in sentences."""
    names = ", ".join(run.file for run in wall.runs)
    apart = [run for run in wall.runs if run.length is None]
    said = [f"House wall {words.printable(wall.name)}: {names}."]
    if wall.measured:
        said[0] = f"{said[0][:-1]}; {feet_and_inches(wall.length)} of wall in all."
        said += [f"  {text}" for text in _in_all(wall)]
        said += [f"  {text}" for text in too_small(wall)]
    said += [f"  Not added: {run.file} has no [layout], its length is not known. {_each(run)}"
             for run in apart]  # fmt: skip
    return said


def too_small(wall: Wall) -> list[str]:
    """What the totals of a wall are without, or are of two kinds of."""
    found = [
        f"Too small: {run.file} does not give {', '.join(missing)}; what is not given is not in it."
        for run in wall.measured
        if (missing := loads_missing(run.design))
    ]
    if len(wall.editions) > 1:
        named = " and ".join(sorted(wall.editions))
        found.append(f"Not one total: loads of {named} are added. State one edition in all runs.")
    return found


def _in_all(wall: Wall) -> list[str]:
    """The totals of each place: down and up, at both levels."""
    said: dict[str, list[str]] = {}
    for at, way, asd, strength in wall.handed:
        text = f"{WAYS[way]} {asd:,.0f} lb {ASD} ({strength:,.0f} {STRENGTH})"
        said.setdefault(at, []).append(text)
    return [f"{words.capital(_place(at))}: {'; '.join(ways)}." for at, ways in said.items()]


def _place(at: str) -> str:
    return words.place(EDGE) if at == EDGE else f"house roof at the {words.clip(at)}s"


def _each(run: Run) -> str:
    """The most of one outrigger at the house wall, over each foot of it."""
    most = {one.way: one.per_foot for one in envelopes(run.design, (ASD,)) if one.at == EDGE}
    ways = [
        f"{most[way]:,.0f} plf {word}" for way, word in WAYS.items() if round(most.get(way, 0.0))
    ]
    return f"The house wall gets at most {', '.join(ways)} ({ASD})." if ways else ""


def notes(runs: Sequence[Run], refused: Refused) -> list[str]:
    """How the totals are to be read."""
    found = [NOT_AT_ONCE] if any(run.length for run in runs) else []
    if len(runs) > 1 and not all(run.design.case.project.house_wall for run in runs):
        found.append(
            "Runs of one house wall are added where each names it: project.house_wall. Without, a "
            "run is counted as a wall of its own."
        )
    found += _declared_none(runs)
    if refused:
        found.append(f"In no total: {', '.join(refused)}.")
    return found


def _declared_none(runs: Sequence[Run]) -> list[str]:
    """What is zero by the user's word, with the runs that say so."""
    of = _whose(runs, lambda run: stated_none(run.design.case))
    named = [f"{one} ({files})" if files else one for one, files in of.items()]
    return [f"You said none of: {', '.join(named)}."] if named else []


def _whose(runs: Sequence[Run], said: Callable[[Run], Iterable[str]]) -> dict[str, str]:
    """What is said of the runs, each once, with the files that it is said of; of all: empty."""
    of: dict[str, list[str]] = {}
    for run in runs:
        for one in said(run):
            of.setdefault(one, []).append(run.file)
    return {one: "" if len(found) == len(runs) else ", ".join(found) for one, found in of.items()}


def caution_lines(runs: Sequence[Run]) -> list[str]:
    """The cautions of every run, each named with the runs that it is of; what is not checked."""
    of = _whose(runs, lambda run: (one.short for one in cautions.of_case(run.design)))
    missing = [one for run in runs for one in cautions.not_checked(run.design)]
    said = [f"Caution{f', {files}' if files else ''}: {text}." for text, files in of.items()]
    unchecked = f"Not checked: {cautions.few(missing)}. In full: outrigger check of each, --all."
    return [*said, *([unchecked] if runs else []), cautions.SEALED]


def two_lines(runs: Sequence[Run]) -> tuple[str, str]:
    """The cautions of all where there is room for no more."""
    found = [one for run in runs for one in cautions.of_case(run.design)]
    first = "".join(f"{text}. " for text in dict.fromkeys(words.capital(o.few) for o in found))
    missing = [one for run in runs for one in cautions.not_checked(run.design)]
    return cautions.ADOPT, f"{first}Not checked: {cautions.few(missing)}."


def brief(
    runs: Sequence[Run], refused: Refused, *, changed: bool = False, sample: bool = False
) -> str:
    """To text to someone: the answer for all, then two lines a run, at most 40 characters each."""
    word = "BAD INPUT" if refused else WORDS[verdict(runs)]
    count = len(runs) + len(refused)
    bad = [run for run in runs if run.design.verdict == verdict(runs)]
    which = f"all {count} runs" if word == "YES" else f"{len(refused or bad)} of {count} runs"
    first = f"{word.lower() if sample else word}: {which}"
    found = [f"SAMPLE {first}" if sample else first]
    for run in runs:
        used, what = _answer(run)[1:]
        answer = WORDS[run.design.verdict]
        answer = answer.lower() if sample else answer
        end = f" {_digest(run)}"
        found.append(words.shortened(words.printable(run.file), MOST - len(end)) + end)
        found.append(words.shortened(f" {answer}: {used} {what}".replace(":  ", ": "), MOST))
    found += [words.shortened(f"{name}: bad input", MOST) for name in refused]
    end = "Engineer must adopt it. No permit."
    found.append("Changed: back to the engineer. No permit" if changed else end)
    return "\n".join(found)
