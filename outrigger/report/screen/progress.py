"""How far a long command is, on stderr, when someone waits at a terminal."""

import sys
import time
from types import TracebackType
from typing import Self, TextIO

PATIENCE_S = 1.0  # a shorter wait needs no words
PACE_S = 0.2  # between two words


class Progress:
    """Says how many are done, after a second, only at a terminal; wiped at the end."""

    def __init__(self, what: str, total: int = 0) -> None:
        self.what, self.total = what, total
        self.begun = self.said = time.monotonic()
        self.shown = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self.shown:
            print(f"\r{' ' * self.shown}\r", end="", file=_terminal(), flush=True)

    def told(self, done: int, total: int = 0) -> None:
        """Hear how many are done, of how many (0: as said at the start, or not known)."""
        now = time.monotonic()
        if now - self.begun < PATIENCE_S or not sys.stderr.isatty():
            return
        if self.shown and now - self.said < PACE_S:
            return
        total = total or self.total
        of = f" of {total:,}" if total else ""
        text = f"{done:,}{of} {self.what}; Ctrl-C stops"
        print(f"\r{text:<{self.shown}}", end="", file=_terminal(), flush=True)
        self.shown, self.said = max(self.shown, len(text)), now


def _terminal() -> TextIO:
    """stderr as it is: what is printed through the command line cannot steer a terminal."""
    bare: TextIO = getattr(sys.stderr, "bare", sys.stderr)
    return bare
