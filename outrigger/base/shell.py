"""Commands to be copied: typed into a shell they mean just what stands there."""

import shlex
from collections.abc import Sequence


def command(name: str, file: str = "", settings: Sequence[str] = ()) -> str:
    """A command of the program, its file (empty: the sample) and settings quoted for the shell."""
    named = f"./{file}" if file.startswith("-") else file
    return shlex.join(["outrigger", name, *([named] if named else []), *settings])


def quoted(word: str) -> str:
    """One word of a command, quoted for the shell where it needs it."""
    return shlex.quote(word)
