"""Commands to be copied: typed into a shell they mean just what stands there."""

import shlex
from collections.abc import Sequence

from outrigger.base.plain import spelled


def command(name: str, file: str = "", settings: Sequence[str] = ()) -> str:
    """A command of the program, its file (empty: the sample) and settings quoted for the shell."""
    named = f"./{file}" if file.startswith("-") else file
    words = ["outrigger", name, *([named] if named else []), *settings]
    return " ".join(map(quoted, words))


def quoted(word: str) -> str:
    """One word of a command, quoted for the shell where it needs it.

    A letter that a screen without it shows as an apostrophe would end the quotes there: it stands
    in quotes of its own.
    """
    return "".join(f"'\"{one}\"'" if _apostrophe(one) else one for one in shlex.quote(word))


def _apostrophe(one: str) -> bool:
    return not one.isascii() and "'" in spelled(one, "ascii")
