"""The library: what `import outrigger` offers, each name loaded on use.

Lengths inside are inches, loads pounds, pressures psi, as everywhere in the package; what is typed
is text with its unit, as in a case file. Every error is an `OutriggerError` and says what to do.

The parts below have a door of their own, for plain numbers without a case: `outrigger.wood`,
`outrigger.fasteners`, `outrigger.loads.snow` and `outrigger.loads.wind`.
"""

import copy
import shutil
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from outrigger.base.errors import InputError, OutriggerError, RangeError, TableError
from outrigger.base.outputs import output
from outrigger.base.units import SIXTEENTH
from outrigger.cases import read as _read
from outrigger.cases import saving as _saving
from outrigger.cases import settings as _settings
from outrigger.cases.batch import Batch
from outrigger.cases.between_keys import cross_faults
from outrigger.cases.faults import CaseFaultsError, Fault
from outrigger.cases.model import Case, Origin
from outrigger.cases.validate import validate
from outrigger.report.data import check as _data
from outrigger.report.screen import first as _screen
from outrigger.studies import changes as _changes
from outrigger.studies import search as _search
from outrigger.studies import sizes as _sizes
from outrigger.studies import sweep as _sweep
from outrigger.studies.search import MOST_GAP_IN
from outrigger.studies.sizes import Sizes
from outrigger.studies.sweep import Sweep
from outrigger.verdict import design as _design
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.worked import worked_of

__all__ = [
    "Case", "CaseFaultsError", "CheckResult", "Design", "Fault", "InputError", "OutriggerError",
    "RangeError", "Sizes", "Sweep", "TableError", "case", "design", "largest_gap", "read_case",
    "sizes", "summary", "sweep",
]  # fmt: skip


class Design(_design.Design, frozen=True, eq=False):
    """What follows from one case: `verdict` is "pass", "fail" or "open", `closest` the check that
    decides, `rows` all of them (id, place, link, demand, capacity, unit, ratio, combination,
    status); `not_given` what keeps it open. `print` shows what the command `check` does."""

    def as_dict(self) -> dict[str, Any]:
        """Everything as plain data, what `check --json` prints. Its "checks" are rows of a table:
        `pandas.DataFrame(result.as_dict()["checks"])`."""
        return _data.as_data(self)

    def __str__(self) -> str:
        width, origin = shutil.get_terminal_size().columns, self.case.origin
        if origin is None:
            return _screen.page(self, width, sample=self.case.project.invented)

        def read(settings: Sequence[str]) -> Case:
            return case(origin.tables, *settings)

        def command(way: _changes.Way) -> str:
            if not origin.path:
                return way.setting
            return _changes.command_of(origin.path, list(origin.settings), way)

        found = _changes.ways(self, read)
        overrides = origin.overrides
        sample = self.case.project.invented
        return _screen.page(
            self, width, sample=sample, overrides=overrides, ways=found, command=command
        )


def read_case(path: str | Path, *settings: str) -> Case:
    """The case of a file, with settings over it as a command takes them: "gap=9 in", "size=2x8".

    Raises:
        InputError: the file cannot be read, or a setting is not name=value.
        CaseFaultsError: every fault of the case at once, each with its key, line and text.
    """
    return _read.read_case(Path(path), settings)[0]


def case(tables: Mapping[str, Any], *settings: str) -> Case:
    """The case of tables as a file has them, {"gap": {"width": "6 in", ...}, ...}, with settings
    over them. The tables stay as they are.

    Raises:
        InputError: a setting is not name=value.
        CaseFaultsError: every fault of the case at once, those between keys too.
    """
    raw = copy.deepcopy(dict(tables))
    overrides = _settings.apply_all(raw, settings)
    found = validate(raw, "case", more=_read.beside_settings(tables, overrides, "case"))
    return found.read_from(Origin(raw, "", settings, overrides))


def design(case: Case) -> Design:
    """What follows from a case: every check, the verdict, the loads handed to the house. With a
    layout, of the mark that is the worst.

    Raises:
        InputError, RangeError, TableError: a provision or a table does not cover the case.
        CaseFaultsError: it was changed in Python, and its keys do not go together.
    """
    return Design(worked_of(Batch(_held(case))))


def sweep(
    case: Case,
    values: Mapping[str, Iterable[Any]] | None = None,
    *,
    cross: bool = True,
    workers: int = 1,
    **named: Iterable[Any],
) -> Sweep:
    """A case over lists of values, by path or by short name:

        sweep(case, {"gap.width": ["6 in", "7 in"], "outrigger.size": ["2x6", "2x8"]})
        sweep(case, gap=np.arange(4, 13), spacing=["12 in", "16 in"])

    A value is text as a file writes it; a length may be a number, in inches; other loads need
    their unit. Every value stands with every other; with `cross=False` the lists are columns of one
    length. The limits of the file on gap and spacing do not hold here. `workers`: processes that
    share a sweep of thousands of rows, of which each has 2,000 at least; where the machine starts
    them anew (Windows, macOS), only below `if __name__ == "__main__":` of a script.

    Each row is the same as the case with its values designed alone. Arrays (rows,): `works`,
    `ratio`, `ratios[id]`; `as_dict()["rows"]` go into a table, each with digest, verdict, open.

    Raises:
        InputError: no such path, a value outside its range, columns of unlike length, no worker.
        CaseFaultsError: a row whose keys do not go together.
    """
    return _sweep.sweep(_held(case), {**(values or {}), **named}, cross=cross, workers=workers)


def largest_gap(case: Case) -> float | None:
    """The largest gap, in, at which the case works, to the sixteenth below; None: at none.

    To 48 in. Beyond it the case works no more; what is open stays open. With a layout at every
    mark.
    """
    answer = _search.works(_held(case), "gap.width")
    every = np.arange(SIXTEENTH, MOST_GAP_IN + SIXTEENTH / 2, SIXTEENTH)
    held = np.flatnonzero(answer(every))
    return float(every[held[-1]]) if len(held) else None


def sizes(case: Case, species: Iterable[str] = ()) -> Sizes:
    """Every size, grade, spacing and back span that works, the least lumber first: `choices`.
    species: to try, by full name; none: that of the case.

    Raises:
        InputError: not a species.
    """
    return _sizes.sizes(_held(case), tuple(species))


def summary(
    of: Case | Design, path: str | Path, *, overwrite: bool = False, paper: str = "letter"
) -> Path:
    """Write the calculation summary of a case or its design to a .pdf, .html or .md file, or its
    live workbook to an .xlsx file.

    Raises:
        InputError: no such kind of file or paper, the file is there already, or the case was
            changed in Python and has no tables to print.
    """
    from outrigger.report.summary import build
    from outrigger.report.summary import file as summary_file
    from outrigger.studies import for_summary

    file, result = Path(path), of if isinstance(of, Design) else design(of)
    origin = result.case.origin
    if origin is None:
        raise InputError("summary: this case was built or changed in Python. Read it with case().")
    if file.exists() and not overwrite:
        raise InputError(f"{file}: is there already. Say overwrite=True, or name another file.")
    reads = [Path(origin.path)] if origin.path else []
    to = output("summary", file, summary_file.KINDS, reads, overwrite)
    assert to is not None
    invented = result.case.project.invented
    ending, size = file.suffix.lower(), summary_file.paper_of(paper)
    if ending == ".xlsx":
        from outrigger.report.book import file as book_file
        from outrigger.studies.workbook import workbook

        to.write(book_file.written(workbook(result), invented, origin.overrides, size))
        return file
    called = build.Called(_toml(origin), origin.tables, invented, origin.overrides)
    document = build.build(for_summary.findings(result), called)
    to.write(summary_file.written(document, ending, size))
    return file


def _held(case: Case) -> Case:
    """A case; refused where it is none, or was changed so that its keys do not go together.

    Raises:
        InputError: it is no case.
        CaseFaultsError: every fault between its keys.
    """
    if not isinstance(case, Case):
        raise InputError(f"{type(case).__name__}: no case. Read one with read_case() or case().")
    if case.origin is None and (faults := list(cross_faults(dict(case)))):
        raise CaseFaultsError("case", faults)
    return case


def _toml(origin: Origin) -> str:
    """A case as the text of a file: its own with the settings in it, or its tables."""
    if origin.text:
        return _saving.saved_text(origin.text, origin.overrides, origin.tables)
    import tomlkit

    return tomlkit.dumps(origin.tables)
