"""The command line: a command reads its input, makes one call, prints. Here each has its name."""

import sys
import traceback
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from outrigger import __version__
from outrigger.base.errors import InputError, OutriggerError
from outrigger.cases.names import SHORT
from outrigger.cli.common import BAD_INPUT, BROKEN, COMPLETING, STOPPED, fold, say
from outrigger.cli.streams import printed

_PACKAGE = str(Path(__file__).parents[1])

# built only where a shell or --install-completion asks for it: `check` starts without
_completion = COMPLETING or any(
    one in ("--install-completion", "--show-completion") for one in sys.argv[1:2]
)


def _version(wanted: bool) -> None:
    if wanted:
        say(f"outrigger {__version__}")
        raise typer.Exit


def every_command(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Check the small wood outriggers that carry a garage wall across an insulation gap.

    Exit status of every command: 2 bad input, 70 a mistake of the program itself, 130 stopped by
    Ctrl-C; 0, 1 and 3 as the help of the command says.
    """


# by its name the module and the function of a command, and it in a line, with its example
COMMANDS: dict[str, tuple[str, str, str, str]] = {
    "new": ("lumber_and_new", "new_command", "Ask for a job, question by question.",
            "new job.toml"),
    "check": ("check", "check_command", "Does it work? With what cures it, or what is missing.",
              "check job.toml gap=9in --steps"),
    "show": ("show", "show_command",
             "A form, the section and the verdict, as a page on this machine.", "show job.toml"),
    "gap": ("sweeps", "gap_command", "Does another gap work, and what does it cost?",
            "gap job.toml gap=7in --plot gaps.svg"),
    "size": ("sweeps", "size_command", "What works, least lumber first.", "size job.toml gap=9in"),
    "layout": ("layout", "layout_command", "Marks on the plate, cut list, material list.",
               "layout job.toml --pdf marks.pdf"),
    "draw": ("draw", "draw_command", "The section or the plan, to scale.",
             "draw job.toml -o section.dxf"),
    "reserve": ("sweeps", "reserve_command", "How far each number can go, alone.",
                "reserve job.toml --mishaps"),
    "compare": ("sweeps", "compare_command", "Two cases side by side.",
                "compare job.toml spacing=12in"),
    "card": ("sweeps", "card_command", "Largest gap over spacing, snow and span.",
             "card job.toml --pdf card.pdf"),
    "summary": ("summary", "summary_command", "The calculation summary for the engineer.",
                "summary job.toml -o job.pdf"),
    "lumber": ("lumber_and_new", "lumber_command", "Design values with source and status.",
               'lumber SPF "#2"'),
    "prove": ("prove", "prove_command", "Published values worked again, here.",
              "prove --pdf proof.pdf"),
}  # fmt: skip


def app_of(typed: list[str]) -> typer.Typer:
    """The command line: of the command that is typed alone, which is all that it then loads (a
    twentieth of the start of `check`); else of all."""
    app = typer.Typer(
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        add_completion=_completion,
        no_args_is_help=True,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback(epilog="Example: outrigger new job.toml")(every_command)
    alone = typed[:1] if not _completion and typed[:1] and typed[0] in COMMANDS else COMMANDS
    for name in alone:
        module, function, line, example = COMMANDS[name]
        command = getattr(import_module(f"outrigger.cli.{module}"), function)
        app.command(name, short_help=line, epilog=f"Example: outrigger {example}")(command)
    return app


def run() -> None:
    """Run a command: errors on stderr in words, a status of its own for each kind, no traceback."""
    with printed():
        try:
            name = {"prog_name": "outrigger"} if _completion else {}
            typed = meant(sys.argv[1:])
            app_of(typed)(args=typed, **name)
        except OutriggerError as error:
            _leave(str(error), BAD_INPUT)
        except KeyboardInterrupt:  # before the command line looks for it
            sys.exit(STOPPED)
        except MemoryError:
            _leave("this machine has not the memory for it. Ask for less at once.", BROKEN)
        except ModuleNotFoundError as error:
            lacking = "is not installed. Install outrigger again, with all that it needs."
            _leave(f"the package {error.name} {lacking}", BROKEN)
        except Exception as error:
            if _stopped(error):
                sys.exit(STOPPED)
            _leave(_mistake(error), BROKEN)


def meant(typed: list[str]) -> list[str]:
    """The words of a command as they are meant: a case file alone is to be checked, `help` before
    a command is its help, the program's own name is there once.

    Raises:
        InputError: a setting with dashes before it.
    """
    if typed and typed[0] == "outrigger":
        return meant(typed[1:])
    if typed and typed[0] == "help":
        return [*typed[1:2], "--help"]
    if typed and typed[0] in ("version", "-v", "-V"):
        return ["--version"]
    for word in typed:
        name, _, value = word.lstrip("-").partition("=")
        if word.startswith("-") and name in SHORT and name != "species":  # which is an option too
            raise InputError(f"{word}: a setting has no dashes: {name}={value or SHORT[name]}")
    if typed and typed[0] not in COMMANDS and typed[0].endswith(".toml"):
        return ["check", *typed]
    return typed


def _leave(text: str, status: int) -> NoReturn:
    with suppress(OutriggerError):  # stderr cannot be written: the status says it alone
        print(fold(f"outrigger: {text}"), file=sys.stderr, flush=True)
    sys.exit(status)


def _stopped(error: BaseException | None) -> bool:
    """Whether Ctrl-C is at the bottom of an error: while a class is made, late in a command, Python
    3.11 puts one of its own over it."""
    while error is not None and not isinstance(error, KeyboardInterrupt):
        error = error.__cause__ or error.__context__
    return error is not None


def _mistake(error: Exception) -> str:
    """An error that no one foresaw, in one line to report."""
    frames = [
        f for f in traceback.extract_tb(error.__traceback__) if f.filename.startswith(_PACKAGE)
    ]
    at = f"{Path(frames[-1].filename).name}, line {frames[-1].lineno}" if frames else "not known"
    said = " ".join(f"{type(error).__name__}: {error}".split())
    return (
        "a mistake of the program, not of your case. It says nothing about the case: neither pass "
        f"nor fail. Please report this, with the command and the case file: {said[:300]} ({at}; "
        f"version {__version__})."
    )
