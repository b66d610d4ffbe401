"""The command line: a command reads its input, makes one call, prints."""

import json
import os
import shutil
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from outrigger import __version__
from outrigger.base import quantity
from outrigger.base.errors import InputError, OutriggerError
from outrigger.base.files import write_new
from outrigger.cases.model import Case
from outrigger.cases.model import schema as schema_of_case
from outrigger.cases.read import parse, read_case, read_text, tables_of
from outrigger.cases.settings import Override, saved_text
from outrigger.report import words
from outrigger.report.data import check as data
from outrigger.report.screen import check as screen
from outrigger.report.screen import lumber as lumber_list
from outrigger.report.screen.progress import Progress
from outrigger.verdict.design import Design, design
from outrigger.wood import lumber

if TYPE_CHECKING:
    from outrigger.studies.changes import Way

BAD_INPUT = 2
EXIT = {"pass": 0, "fail": 1, "open": 3}
SAMPLE_FILE = Path(__file__).parents[1] / "sample.toml"
STARTER_FILE = Path(__file__).parents[1] / "starter.toml"

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)


def run() -> None:
    """Run a command: errors on stderr in words, exit status 2, never a traceback."""
    from outrigger.cli import summary as cli_summary

    app.command("summary", epilog=cli_summary.EXAMPLE)(cli_summary.summary_command)
    try:
        app()
    except OutriggerError as error:
        print(fold(f"outrigger: {error}"), file=sys.stderr)
        sys.exit(BAD_INPUT)


def fold(text: str) -> str:
    """Lines folded to the terminal, each keeping its own indent."""
    width = shutil.get_terminal_size().columns
    folded = []
    for line in text.splitlines():
        indent = line[: len(line) - len(line.lstrip())]
        folded.append(textwrap.fill(line, max(20, width), subsequent_indent=indent + "  "))
    return "\n".join(folded)


def _version(wanted: bool) -> None:
    if wanted:
        say(f"outrigger {__version__}")
        raise typer.Exit


@app.callback(epilog="Example: outrigger lumber SPF")
def every_command(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Check the small wood outriggers that carry a garage wall across an insulation gap."""


CaseArgument = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[CASE.toml] [name=value ...]",
        help="The case file, then settings over it: gap=9in spacing=12in snow=30psf.",
    ),
]


def is_file(word: str) -> bool:
    """Whether a word of a command names a case file, not a setting."""
    return "=" not in word or word.endswith(".toml")


def split(words_given: list[str] | None) -> tuple[str, list[str]]:
    """The case file of a command's words, empty for the sample, and its settings."""
    given = list(words_given or [])
    named = bool(given) and is_file(given[0])
    return (given[0], given[1:]) if named else ("", given)


def case_of(words_given: list[str] | None) -> tuple[Case, tuple[Override, ...], Path, bool]:
    """The case of a command's words; without a file the bundled sample."""
    file, settings = split(words_given)
    if not file:
        here = [path for path in sorted(Path().glob("*.toml")) if _is_case(path)]
        if len(here) == 1:
            hint = f"One case file is here. To check it: outrigger check {here[0].name}"
            print(fold(hint), file=sys.stderr)
    path = Path(file) if file else SAMPLE_FILE
    case, overrides = read_case(path, settings)
    return case, overrides, path, not file


def _is_case(path: Path) -> bool:
    """Whether a file looks like a case: it has a [gap] table."""
    try:
        return "[gap]" in read_text(path)
    except OutriggerError:
        return False


def say(text: str) -> None:
    """Print results; a reader that has seen enough of a pipe is no error."""
    try:
        print(text, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@app.command("check", epilog="Example: outrigger check job.toml gap=9in --steps")
def check_command(
    case_words: CaseArgument = None,
    steps: Annotated[bool, typer.Option("--steps", help="Show the arithmetic.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Everything as JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="The reactions as CSV.")] = False,
    save: Annotated[
        Path | None, typer.Option("--save", help="Write the case with its settings to a new file.")
    ] = None,
) -> None:
    """Check one run of outriggers: ratios, clip loads, loads handed to the house, verdict.

    Without a case file the bundled sample runs. Exit status: 0 pass, 1 fail, 3 open, 2 bad input.
    """
    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, path, sample = case_of(case_words)
    if save is not None:
        text = saved_text(read_text(path), overrides)
        parse(text, save.name)
        write_new(save, text)
    result = design(case)
    width = shutil.get_terminal_size().columns
    if as_json or as_csv:
        if sample:
            print(words.SAMPLE, file=sys.stderr)
        if as_json:
            say(json.dumps(data.as_data(result, sample), indent=1, allow_nan=False))
        else:
            say(data.reactions_csv(result).rstrip("\n"))
    else:
        found, command = ways_of(result, case_words, path)
        page = screen.page(
            result,
            width,
            sample=sample,
            overrides=overrides,
            steps=steps,
            ways=found,
            command=command,
        )
        say(page)
    raise typer.Exit(EXIT[result.verdict()])


def ways_of(
    result: Design, case_words: list[str] | None, path: Path
) -> "tuple[list[Way], Callable[[Way], str]]":
    """What would make a case that does not pass work, and the command that tries each."""
    if result.verdict() == "pass":
        return [], str
    from outrigger.studies import changes as ways  # most runs pass, and start sooner without it

    file, settings = split(case_words)
    found = ways.ways(result, lambda one: read_case(path, [*settings, one])[0])
    return found, lambda way: ways.command(file, settings, way)


@app.command("gap", epilog="Example: outrigger gap job.toml gap=7in --plot gaps.svg")
def gap_command(
    case_words: CaseArgument = None,
    first: Annotated[str, typer.Option("--from", help="Smallest gap.")] = "2 in",
    last: Annotated[str, typer.Option("--to", help="Widest gap.")] = "12 in",
    step: Annotated[str, typer.Option("--step", help="From one gap to the next.")] = "1/2 in",
    cut: Annotated[
        bool, typer.Option("--cut", help="The pieces are cut: a wider gap takes back span.")
    ] = False,
    plot: Annotated[
        Path | None, typer.Option("--plot", help="Draw the ratios to a .png or .svg file.")
    ] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Draw over a file that is there.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="A row for each gap as JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="A row for each gap as CSV.")] = False,
) -> None:
    """Run the case over a range of gaps: ratios, what governs, the largest gap that works.

    gap=7in asks for another gap than the file's: what changes is listed. Exit status: 0 some gap
    of the range works, 1 none, 2 bad input.
    """
    from outrigger.report.data import gap as gap_data
    from outrigger.report.screen import gap as gap_page
    from outrigger.studies import consequences
    from outrigger.studies import gaps as study

    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, _, sample = case_of(case_words)
    values = study.gaps(
        *(length_of(option, text)
          for option, text in (("--from", first), ("--to", last), ("--step", step)))
    )  # fmt: skip
    files_gap = next((o.before for o in overrides if o.key == "gap.width"), None)
    before = None if files_gap is None else length_of("gap.width", files_gap)
    with Progress("gaps", len(values)) as progress:
        found = study.study(case, values, before=before, cut=cut, told=progress.told)
    if plot is not None:
        from outrigger.report.draw import gaps as gap_chart

        write_new(plot, gap_chart.draw(found, plot.suffix, sample), overwrite=overwrite)
    if sample and (as_json or as_csv):
        print(words.SAMPLE, file=sys.stderr)
    if as_json:
        say(json.dumps(gap_data.as_rows(found, sample), indent=1, allow_nan=False))
    elif as_csv:
        say(gap_data.as_csv(found, sample).rstrip("\n"))
    else:
        width = shutil.get_terminal_size().columns
        change = consequences.of(found)
        say(gap_page.page(found, change, width, sample=sample, overrides=overrides))
    raise typer.Exit(0 if found.works else 1)


@app.command("compare", epilog="Example: outrigger compare job.toml spacing=12in")
def compare_command(
    case_words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[A.toml] [name=value ...] [B.toml] [name=value ...]",
            help="Two case files, each with settings after it; or one, and what B changes in it.",
        ),
    ] = None,
) -> None:
    """Two cases side by side: inputs that differ, every ratio, loads on the house, pieces, clips.

    Without a case file the bundled sample is compared with itself at another gap. Exit status as
    check has it, of B: 0 pass, 1 fail, 3 open, 2 bad input.
    """
    from outrigger.report.screen import compare as compare_page
    from outrigger.studies import compare

    given = list(case_words or [])
    file, rest = split(given)
    second = next((i for i, word in enumerate(rest) if is_file(word)), None)
    if second is not None:
        mine, second_file, theirs = rest[:second], rest[second], rest[second + 1 :]
    else:
        mine, second_file, theirs = [], file, rest
    if not theirs and second is None:
        if file:
            raise InputError("compare: name a second case, or what B changes: spacing=12in.")
        theirs = ["gap=7in"]
    sides = [
        (Path(name) if name else SAMPLE_FILE, settings)
        for name, settings in ((file, mine), (second_file, theirs))
    ]
    cases = [read_case(path, settings) for path, settings in sides]
    said = [tables_of(path, settings) for path, settings in sides]
    before, after = (design(case) for case, _ in cases)
    found = compare.compare(before, after, *said)
    one, other = (str(path) if path != SAMPLE_FILE else "the sample" for path, _ in sides)
    width = shutil.get_terminal_size().columns
    overrides = cases[1][1]
    sample = SAMPLE_FILE in (sides[0][0], sides[1][0])
    say(compare_page.page(found, (one, other), width, sample=sample, overrides=overrides))
    raise typer.Exit(EXIT[after.verdict()])


def length_of(name: str, written: object) -> float:
    """A length of the command line, in inches; `name` is what the error calls it."""
    try:
        return quantity.read(written, "length")
    except InputError as error:
        raise InputError(f'{name} "{written}": {error}') from None


SAMPLE_RUN = "layout.run=24 ft"
PICTURES = (".svg", ".png")


@app.command("layout", epilog="Example: outrigger layout job.toml --pdf marks.pdf")
def layout_command(
    case_words: CaseArgument = None,
    as_csv: Annotated[bool, typer.Option("--csv", help="The marks as CSV.")] = False,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Write the page to build from.")] = None,
    plan: Annotated[
        Path | None, typer.Option("--plan", help="Write the plan to scale, .svg or .png.")
    ] = None,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Over a file too.")] = False,
) -> None:
    """Lay out the marks from one datum: clips on framing or not, cut list, material list.

    The case needs [layout] with its run. Without a case file the bundled sample runs, on 24 ft.
    Exit status as of check, at the worst mark.
    """
    from outrigger.layout.layout import layout
    from outrigger.report.draw import layout as layout_files
    from outrigger.report.screen import layout as layout_page

    given = list(case_words or [])
    no_file = not given or ("=" in given[0] and not given[0].endswith(".toml"))
    if no_file and not any(word.startswith("layout.run") for word in given):
        given.append(SAMPLE_RUN)
    if plan is not None and plan.suffix.lower() not in PICTURES:
        raise InputError(f"--plan {plan}: a plan is written as .svg or .png.")
    case, overrides, _, sample = case_of(given)
    laid = layout(case)
    if pdf is not None:
        write_new(pdf, layout_files.pdf(laid, sample), overwrite=overwrite)
    if plan is not None:
        kind = plan.suffix.lower().removeprefix(".")
        write_new(plan, layout_files.plan(laid, kind, sample), overwrite=overwrite)
    if as_csv:
        if sample:
            print(words.SAMPLE, file=sys.stderr)
        say(layout_page.marks_csv(laid).rstrip("\n"))
    else:
        width = shutil.get_terminal_size().columns
        say(layout_page.page(laid, width, sample=sample, overrides=overrides))
    raise typer.Exit(EXIT[laid.design.verdict()])


@app.command("new", epilog="Example: outrigger new job.toml")
def new_command(
    file: Annotated[Path | None, typer.Argument(help="The case file to write.")] = None,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of the case file.")
    ] = False,
) -> None:
    """Write a commented starter case that runs as it is, never over a file."""
    if schema:
        say(json.dumps(schema_of_case(), indent=1))
        return
    if file is None:
        raise InputError('new: name the file to write, "outrigger new job.toml".')
    write_new(file, STARTER_FILE.read_text(encoding="utf-8"))
    say(fold(f"Wrote {file}. Change its lines to your job, then: outrigger check {file}"))


@app.command("lumber", epilog='Example: outrigger lumber SPF "#2"')
def lumber_command(
    species: Annotated[
        str | None, typer.Argument(help="Full name or exact stamp (SPF, SPFs, DF-L, HF, SYP).")
    ] = None,
    grade: Annotated[
        str | None, typer.Argument(help="One grade as stamped (#2, SS, 1650f-1.5E).")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON.")] = False,
) -> None:
    """List species, or one species' grades: values, units, source and status.

    A vague name is never guessed: the candidates are listed.
    """
    width = shutil.get_terminal_size().columns
    if species is None:
        listed = lumber.species_list()
        if as_json:
            keys = ("species", "stamps", "tables")
            say(json.dumps([dict(zip(keys, row, strict=True)) for row in listed], indent=1))
        else:
            say(lumber_list.species_page(listed, width))
        return
    name = lumber.read_species(species)
    rows, notes = lumber.rows_of_grade(grade, name) if grade else (lumber.grades(name), ())
    if as_json:
        say(json.dumps(lumber_list.as_rows(rows), indent=1))
        return
    heading = name if name == species else f"{species} is read as {name}"
    if grade and rows[0].grade != grade:
        heading += f", {grade} as {rows[0].grade}"
    say(lumber_list.grades_page("; ".join((heading, *notes)), rows, width))


def case_typed(words_given: list[str] | None, sample: bool) -> tuple[str, list[str]]:
    """The case file and the settings as they were typed, for a command to be typed next."""
    given = list(words_given or [])
    return ("" if sample else given.pop(0)), given


def tell(text: str, works: bool, sample_as_data: bool = False) -> None:
    """Print a sweep and leave: 0 when something works, else 1."""
    if sample_as_data:
        print(words.SAMPLE, file=sys.stderr)
    say(text)
    raise typer.Exit(EXIT["pass" if works else "fail"])


@app.command("size", epilog="Example: outrigger size job.toml gap=9in")
def size_command(
    case_words: CaseArgument = None,
    species: Annotated[
        list[str] | None,
        typer.Option("--species", help="Another species to try; repeat it for several."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Every choice as JSON rows.")] = False,
) -> None:
    """Find the outriggers that work: size, grade, spacing, back span, least lumber first.

    Each ends in the command that adopts it. Exit status: 0 something works, 1 nothing, 2 bad input.
    """
    from outrigger.report.data import sweeps as sweep_data
    from outrigger.report.screen import size as size_page
    from outrigger.studies.sizes import sizes

    case, overrides, _, sample = case_of(case_words)
    file, typed = case_typed(case_words, sample)
    names = [lumber.read_species(name) for name in species or []]
    with Progress("designs") as progress:
        result = sizes(case, names, progress.told)
    if as_json:
        rows = sweep_data.size_rows(result, file, typed)
        tell(json.dumps(rows, indent=1, allow_nan=False), bool(rows), sample)
    width = shutil.get_terminal_size().columns
    text = size_page.page(result, width, file, typed, sample=sample, overrides=overrides)
    tell(text, bool(result.choices))


@app.command("reserve", epilog="Example: outrigger reserve job.toml --mishaps")
def reserve_command(
    case_words: CaseArgument = None,
    site: Annotated[
        bool, typer.Option("--mishaps", help="What goes wrong on site, and what it turns.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON.")] = False,
) -> None:
    """How far each number can go, alone, before the answer changes, and what then decides.

    Exit status: 0 it works or one change makes it work, 1 neither, 2 bad input.
    """
    from outrigger.report.data import sweeps as sweep_data
    from outrigger.report.screen import reserve as reserve_page
    from outrigger.studies.mishaps import mishaps
    from outrigger.studies.reserve import reserve

    case, overrides, _, sample = case_of(case_words)
    width = shutil.get_terminal_size().columns
    if site:
        asked, found = design(case), mishaps(case)
        rows, works = sweep_data.mishap_rows(found), asked.works()
        text = reserve_page.mishaps_page(asked, found, width, sample=sample, overrides=overrides)
    else:
        result = reserve(case)
        rows, works = sweep_data.reserve_rows(result), result.works or result.nearest is not None
        text = reserve_page.page(result, width, sample=sample, overrides=overrides)
    if as_json:
        tell(json.dumps(rows, indent=1, allow_nan=False), works, sample)
    tell(text, works)


@app.command("card", epilog="Example: outrigger card job.toml --pdf card.pdf")
def card_command(
    case_words: CaseArgument = None,
    back_span: Annotated[
        bool, typer.Option("--back-span", help="Least back span instead of largest gap.")
    ] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="The cells as CSV.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The cells as JSON rows.")] = False,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Write one page, PDF.")] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Write over a file that is there.")
    ] = False,
) -> None:
    """One lumber and clip: the largest gap over spacing, snow and roof span, every cell run whole.

    Exit status: 0 some cell works, 1 none, 2 bad input.
    """
    from outrigger.report.screen import card as card_page
    from outrigger.studies.card import card, own_axes

    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, _, sample = case_of(case_words)
    with Progress("designs") as progress:
        result = card(
            case, "back span" if back_span else "gap", told=progress.told, **own_axes(case)
        )
    if pdf is not None:
        from outrigger.report.write import card as card_pdf

        write_new(pdf, card_pdf.pdf(result, sample), overwrite=overwrite)
        print(fold(f"Wrote {pdf}."), file=sys.stderr)
    if as_json:
        rows = card_page.as_rows(result)
        tell(json.dumps(rows, indent=1, allow_nan=False), result.works, sample)
    if as_csv:
        tell(card_page.as_csv(result).rstrip("\n"), result.works, sample)
    width = shutil.get_terminal_size().columns
    text = card_page.page(result, width, sample=sample, overrides=overrides)
    tell(text, result.works)
