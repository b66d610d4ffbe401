"""Several case files of one command: each read, none hidden by another that is bad."""

import json
import shutil
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

import typer
from msgspec import Struct

from outrigger.base.errors import InputError, OutriggerError
from outrigger.cases.model import Case
from outrigger.cases.read import CaseFile, opened
from outrigger.cases.settings import Override
from outrigger.cases.validate import NEEDED
from outrigger.cli.common import BAD_INPUT, EXIT, fold, say, several_files
from outrigger.layout.layout import LaidOut, layout
from outrigger.report.data import runs as data
from outrigger.report.screen import runs as screen
from outrigger.studies.runs import Run, verdict, worst_first
from outrigger.verdict.design import design


class Called(Struct, frozen=True):
    """One case of several: its run, its file, settings as read."""

    run: Run
    file: CaseFile
    overrides: tuple[Override, ...]
    laid: LaidOut | None = None

    @property
    def case(self) -> Case:
        """What it states."""
        return self.run.design.case


class Several(Struct, frozen=True):
    """The cases of a command, the worst first; the files that are none, each with its faults."""

    cases: tuple[Called, ...]
    refused: dict[str, str]

    @property
    def runs(self) -> list[Run]:
        """The runs, the worst first."""
        return [one.run for one in self.cases]

    @property
    def sample(self) -> bool:
        """Whether the data of any is made up."""
        return any(one.case.project.invented for one in self.cases)

    @property
    def overrides(self) -> tuple[Override, ...]:
        """The settings, as the worst run has them."""
        return self.cases[0].overrides if self.cases else ()

    @property
    def reads(self) -> list[Path]:
        """Every file that is read."""
        return [path for one in self.cases for path in one.file.reads]

    @property
    def laid(self) -> list[LaidOut]:
        """Their layouts."""
        return [one.laid for one in self.cases if one.laid is not None]

    def all_or_nothing(self, path: Path) -> None:
        """Papers are of every run that was named.

        Raises:
            Exit: a file is bad.
        """
        if self.refused:
            names = ", ".join(self.refused)
            said = f"outrigger: {path} is not written: it would be without {names}."
            print(fold(said), file=sys.stderr)
            self.leave()

    def leave(self) -> NoReturn:
        """Leave with the status of the worst: 2 where a file is bad, else 1 where a run fails, else
        3 where one is open."""
        raise typer.Exit(BAD_INPUT if self.refused else EXIT[verdict(self.runs)])


def read(words_given: list[str], *, layouts: bool = False) -> Several:
    """The cases of a command's words, settings put over each, and their layouts. What is wrong with
    a file is told on stderr, and kept.

    Raises:
        InputError: a file is named twice.
    """
    names = several_files(words_given)
    _refuse_twice(names)
    settings = words_given[len(names) :]
    files: dict[str, CaseFile] = {}
    refused: dict[str, str] = {}
    for name, path in _labels(names).items():
        try:
            files[name] = opened(path)
        except OutriggerError as error:
            refused[name] = str(error)
    bases = {
        file.base.path.resolve(): name
        for name, file in files.items()
        if _readable(file) and file.base is not None
    }
    found: list[Called] = []
    for name, file in files.items():
        over = bases.get(file.path.resolve())
        if over is not None and _states_no_run(file):
            print(fold(f"{name}: the base of {over}, and no run of its own."), file=sys.stderr)
            continue
        try:
            case, overrides = file.case(settings)
            laid = layout(case) if layouts else None
            run = Run(name, laid.design if laid else design(case))
            found.append(Called(run, file, overrides, laid))
            _refuse_twin(found)
        except OutriggerError as error:
            found = [one for one in found if one.run.file != name]
            refused[name] = str(error)
    _tell(refused)
    by_run = {one.run.file: one for one in found}
    ordered = [by_run[run.file] for run in worst_first(one.run for one in found)]
    return Several(tuple(ordered), refused)


def _labels(names: Sequence[str]) -> dict[str, Path]:
    """What each file is called: its name, with its folder where two are called alike."""
    short = [Path(name).name for name in names]
    called = short if len(set(short)) == len(short) else names
    return dict(zip(called, map(Path, names), strict=True))


def _refuse_twice(names: Sequence[str]) -> None:
    """A file under two names, or named twice, is one run.

    Raises:
        InputError: one is.
    """
    found: set[Path] = set()
    for name in names:
        path = Path(name).resolve()
        if path in found:
            raise InputError(f"{name}: named twice. Name each run once.")
        found.add(path)


def _tell(refused: dict[str, str]) -> None:
    """What is wrong with each file, on stderr; once where it is wrong with all, a setting say."""
    for text in dict.fromkeys(refused.values()):
        names = [name for name, said in refused.items() if said == text]
        whose = "" if names[0] in text.partition(":")[0] else f"{', '.join(names)}: "
        print(fold(f"outrigger: {whose}{text}"), file=sys.stderr)


def _readable(file: CaseFile) -> bool:
    try:
        return file.base is None or bool(file.base.text)
    except OutriggerError:
        return False  # told where its case is read


def _states_no_run(file: CaseFile) -> bool:
    """Whether a base has no table of its own that a run cannot be without."""
    try:
        return not set(NEEDED) <= set(file.tables())
    except OutriggerError:
        return False


def _refuse_twin(found: Sequence[Called]) -> None:
    """One case under two names is not two runs.

    Raises:
        InputError: the last is the same case as one before it.
    """
    *before, last = found
    for one in before:
        if one.case.digest == last.case.digest:
            raise InputError(
                f"{last.run.file}: the same case as {one.run.file}, digest and all. If it is "
                "another run of wall, give it its own project.name."
            )


def check(words_given: list[str], *, brief: bool, as_json: bool) -> NoReturn:
    """`check` of several cases: a line for each, the totals of each house wall."""
    found = read(words_given)
    if as_json:
        say(json.dumps(data.rows(found.runs, found.refused), indent=1, allow_nan=False))
        found.leave()
    if not found.cases:
        found.leave()
    changed = bool(found.overrides)
    if brief:
        say(screen.brief(found.runs, found.refused, changed=changed, sample=found.sample))
        found.leave()
    width = shutil.get_terminal_size().columns
    sample, overrides = found.sample, found.overrides
    say(screen.page(found.runs, found.refused, width, sample=sample, overrides=overrides))
    found.leave()


def refuse(options: dict[str, object], names: Sequence[str]) -> None:
    """Options that are of one case.

    Raises:
        InputError: one of them is asked of several.
    """
    asked = next((name for name, value in options.items() if value), None)
    if asked is not None:
        raise InputError(
            f"{asked} is of one case, and {len(names)} are named. Name one: {names[0]}, say."
        )
