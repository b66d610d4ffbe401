"""The files that a command writes: which kinds its option takes, and what they never replace."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.files import write_new

PICTURES = (".svg", ".png")  # of a chart
DRAWINGS = (".svg", ".pdf", ".png", ".dxf")  # to scale


class Output(Struct, frozen=True):
    """A file to write, by its option; `reads`: what the command reads, which it never replaces."""

    option: str
    path: Path
    reads: tuple[Path, ...]
    overwrite: bool

    def write(self, content: str | bytes) -> None:
        """Write it whole, or not at all.

        Raises:
            InputError: a file that the command reads; there already; cannot be written.
        """
        self.refuse()
        try:
            write_new(self.path, content, overwrite=self.overwrite)
        except InputError as error:
            raise InputError(f"{self.option} {error}") from error

    def refuse(self) -> None:
        """Say what stands against writing it, before the work is done and after.

        Raises:
            InputError: a file that the command reads; there already.
        """
        for read in self.reads:
            if _same(self.path, read):
                said = "the command reads this file, and never writes over it. Name another file."
                raise InputError(f"{self.option} {self.path}: {said}")


def output(
    option: str,
    path: Path | None,
    kinds: Sequence[str],
    reads: Iterable[Path],
    overwrite: bool | None = None,
) -> Output | None:
    """The file that an option asks for, none where it does not; `kinds`: its endings, any if empty;
    overwrite: None where the command never writes over a file.

    Raises:
        InputError: another ending; a file that the command reads; there already.
    """
    if path is None:
        return None
    if kinds and path.suffix.lower() not in kinds:
        name = f"{path.stem or 'out'}{kinds[0]}"
        raise InputError(f"{option} {path}: is written as {', '.join(kinds)}. Name it {name}.")
    if not overwrite and _there(path):
        said = (
            ", and is not written over. Name" if overwrite is None else ". Add --overwrite, or name"
        )
        raise InputError(f"{option} {path}: is there already{said} another file.")
    found = Output(option, path, tuple(reads), bool(overwrite))
    found.refuse()
    return found


def _there(path: Path) -> bool:
    try:
        return path.is_symlink() or path.exists()
    except OSError:
        return False  # writing says what is the matter


def _same(one: Path, other: Path) -> bool:
    """Whether two names are of one file: through links, and where case does not count, too."""
    try:
        return one.resolve() == other.resolve() or one.samefile(other)
    except (OSError, RuntimeError):  # one is not there; a link to itself
        return False
