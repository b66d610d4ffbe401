"""The command line: a command reads its input, makes one call, prints. Here each has its name."""

import sys
from collections.abc import Callable
from typing import Annotated

import typer

from outrigger import __version__
from outrigger.base.errors import OutriggerError
from outrigger.cli import check, layout, lumber_and_new, summary, sweeps
from outrigger.cli.common import BAD_INPUT, fold, say

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)


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


COMMANDS: dict[str, tuple[Callable[..., None], str]] = {  # each with its example
    "check": (check.check_command, "check job.toml gap=9in --steps"),
    "gap": (sweeps.gap_command, "gap job.toml gap=7in --plot gaps.svg"),
    "compare": (sweeps.compare_command, "compare job.toml spacing=12in"),
    "layout": (layout.layout_command, "layout job.toml --pdf marks.pdf"),
    "new": (lumber_and_new.new_command, "new job.toml"),
    "lumber": (lumber_and_new.lumber_command, 'lumber SPF "#2"'),
    "size": (sweeps.size_command, "size job.toml gap=9in"),
    "reserve": (sweeps.reserve_command, "reserve job.toml --mishaps"),
    "card": (sweeps.card_command, "card job.toml --pdf card.pdf"),
    "summary": (summary.summary_command, "summary job.toml -o job.pdf"),
}
for _name, (_command, _example) in COMMANDS.items():
    app.command(_name, epilog=f"Example: outrigger {_example}")(_command)


def run() -> None:
    """Run a command: errors on stderr in words, exit status 2, never a traceback."""
    try:
        app()
    except OutriggerError as error:
        print(fold(f"outrigger: {error}"), file=sys.stderr)
        sys.exit(BAD_INPUT)
