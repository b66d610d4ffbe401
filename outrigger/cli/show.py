"""The command `show`: the page on this machine."""

import webbrowser
from pathlib import Path
from threading import Thread
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.cases.read import opened
from outrigger.cli.common import SAMPLE_FILE, CaseArgument, fold, say, split
from outrigger.cli.lumber_and_new import STARTER_FILE
from outrigger.report import words


def show_command(
    case_words: CaseArgument = None,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="Open it in a browser.")
    ] = True,
) -> None:
    """Show a case as a page on this machine: a form, the section, the verdict, what cures it.

    The file changes when you save there. A file that is not there yet begins with nothing stated.
    Nothing leaves this machine. Ctrl-C ends it. Exit status: 0, 2 bad input.
    """
    file, settings = split(case_words)
    if settings:
        raise InputError(f"show takes a case file alone; set {settings[0]} on the page.")
    path = Path(file) if file else SAMPLE_FILE
    begins = bool(file) and not path.exists() and path.suffix == ".toml" and path.parent.is_dir()
    base = None if begins else opened(path).base  # what is wrong with it is said here
    from outrigger.cli.form import form
    from outrigger.page.desk import Desk
    from outrigger.page.server import served  # slow to load; no other command needs it

    starter = STARTER_FILE.read_text(encoding="utf-8") if begins else ""
    desk = Desk(path, form, starter=starter, sample=not file)
    note = f"{path.name} is not there yet: Save makes it." if begins else ""
    note = note if file else f"{words.SAMPLE}: it is not written over."
    if base is not None:
        note = (
            f"{path.name} stands on {base.path.name}: what that states counts where a field here "
            "is empty, and is changed there."
        )

    page = served(desk, note)
    say(fold(note) if note else f"{path.name} is open. Save on the page writes it.")
    say(f"  {page.address}\nCtrl-C ends it. The address is for this machine alone.")
    if browser:
        Thread(target=webbrowser.open, args=[page.address], daemon=True).start()
    page.run()
    say("Ended.")
