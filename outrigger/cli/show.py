"""The command `show`: the page on this machine."""

import webbrowser
from pathlib import Path
from threading import Thread
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.plain import series
from outrigger.base.shell import command
from outrigger.cases.read import opened
from outrigger.cli.common import SAMPLE_FILE, CaseArgument, fold, is_file, say, split
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
    if len(files := [one for one in (file, *settings) if one and is_file(one)]) > 1:
        one = command("show", files[0])
        raise InputError(f"show takes one case file, and {len(files)} are named. For one: {one}")
    if settings:
        raise InputError(f"show takes a case file alone; set {settings[0]} on the page.")
    path = Path(file) if file else SAMPLE_FILE
    begins = bool(file) and not path.exists() and path.suffix == ".toml" and path.parent.is_dir()
    base = None if begins else opened(path).base  # what is wrong with it is said here
    from outrigger.cli.form import form
    from outrigger.page.beside import over
    from outrigger.page.desk import Desk
    from outrigger.page.server import served  # slow to load; no other command needs it

    starter = STARTER_FILE.read_text(encoding="utf-8") if begins else ""
    shared_by = over(path) if file and not begins else ()
    desk = Desk(path, form, starter=starter, sample=not file, shared_by=shared_by)
    note = f"{path.name} is not there yet: Save makes it." if begins else ""
    if shared_by:
        note = f"{path.name} is the base of {series(shared_by)}: what you save here changes "
        note += "each of them." if shared_by[1:] else "it too."
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
