"""What is printed: without control of the terminal, in letters that it has, to a reader that may
go early."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, TextIO, cast

from outrigger.base.errors import InputError
from outrigger.base.plain import harmless, spelled


class Printed:
    """A stream of text through which all that the program prints goes, the words of users and of
    their files with it. `bare` is the stream beneath it, for what is meant to steer a terminal."""

    def __init__(self, bare: TextIO, name: str) -> None:
        self.bare, self.name = bare, name
        self.encoding = getattr(bare, "encoding", None) or "utf-8"
        self.errors = getattr(bare, "errors", None) or "strict"

    def write(self, text: str) -> int:
        """Print a text.

        Raises:
            InputError: the disk is full, say.
        """
        if text != "":  # a write of nothing asks whether it is a stream of text
            self._do(self.bare.write, spelled(harmless(text), self.encoding))
        return len(text)

    def flush(self) -> None:
        """Hand on what was printed.

        Raises:
            InputError: the disk is full, say.
        """
        self._do(self.bare.flush)

    def isatty(self) -> bool:
        """Whether it is a terminal."""
        return self.bare.isatty()

    def fileno(self) -> int:
        """Its number with the system."""
        return self.bare.fileno()

    def _do(self, call: Any, *words: str) -> None:
        try:
            call(*words)
        except BrokenPipeError:
            self._give_up()  # the reader has seen enough, which is no error
        except OSError as error:
            self._give_up()
            raise InputError(f"{self.name} cannot be written: {error.strerror}.") from error

    def _give_up(self) -> None:
        """Print the rest nowhere: what is still kept would fail again when the program ends."""
        with suppress(OSError, ValueError), Path(os.devnull).open("w") as nowhere:
            os.dup2(nowhere.fileno(), self.bare.fileno())


@contextmanager
def printed() -> Iterator[None]:
    """Both streams of the process, printed through `Printed` for a while."""
    before = sys.stdout, sys.stderr
    for name in ("stdout", "stderr"):
        # none where whoever started the program closed it; open as long as the program runs
        bare = getattr(sys, name) or Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115
        said = "the output" if name == "stdout" else "stderr"
        setattr(sys, name, cast(TextIO, Printed(bare, said)))
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before
