"""A command of the program, run as a user runs it: in this process, or in one of its own."""

import io
import os
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass

import pytest

from outrigger import __main__ as program
from outrigger.cli import app as cli
from outrigger.cli.common import BROKEN

cli.app_of([])  # every command is loaded before a test puts anything else in its place


@dataclass(frozen=True)
class Done:
    """What a command left behind."""

    returncode: int
    stdout: str
    stderr: str


def run(*words, width=80, folder=None, **variables):
    """A command in this process: its words, its screen's width, its folder, its environment."""
    out, err, status = io.StringIO(), io.StringIO(), 0
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(out), redirect_stderr(err):
        patch.setitem(sys.modules, "__main__", program)  # what the help says is asked of it
        patch.setattr(sys, "argv", [program.__file__, *map(str, words)])
        for name, value in {"COLUMNS": str(width), **variables}.items():
            patch.setenv(name, value)
        if folder is not None:
            patch.chdir(folder)
        try:
            cli.run()
        except SystemExit as left:
            status = left.code or 0
    assert status != BROKEN, err.getvalue()
    return Done(status, out.getvalue(), err.getvalue())


def process(*words, width=80, folder=None, **variables):
    """A command in a process of its own, as `python -m outrigger`; a traceback is never right."""
    done = subprocess.run(
        [sys.executable, "-m", "outrigger", *map(str, words)],
        capture_output=True,
        encoding="utf-8",
        env=os.environ | {"COLUMNS": str(width), "PYTHONIOENCODING": "utf-8"} | variables,
        timeout=60,
        cwd=folder,
        check=False,
    )
    assert "Traceback" not in done.stdout + done.stderr, done.stderr
    assert done.returncode != BROKEN, done.stderr
    return Done(done.returncode, done.stdout, done.stderr)
