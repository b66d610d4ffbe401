"""Files read up to a limit, and written whole or not at all: over one that is there only where that
is asked."""

import errno
import os
import secrets
import stat
from pathlib import Path

from outrigger.base.errors import InputError

TEMPORARY = ".outrigger-"  # how a file begins that is not yet whole; short, whatever its own name
NO_LINKS = (errno.EPERM, errno.ENOSYS, errno.EOPNOTSUPP, errno.ENOTSUP, errno.EMLINK, errno.EACCES)


def read_up_to(path: Path, most: int, what: str) -> bytes:
    """The bytes of a file, of a pipe too; `what`: of what it is too large for.

    Raises:
        InputError: a folder, cannot be read, or holds more than `most` bytes, as devices do.
        FileNotFoundError: there is none of that name.
    """
    try:
        if path.is_dir():
            raise InputError(f"{path}: a folder. Name a file in it.")
        with path.open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError:
        raise
    except OSError as error:
        raise InputError(f"{path}: cannot be read: {error.strerror}.") from error
    if len(data) > most:
        raise InputError(f"{path}: over {most // 1000} kB: not {what}.")
    return data


def write_new(path: Path, content: str | bytes, *, overwrite: bool = False) -> None:
    """Write a text, in UTF-8, or bytes to a file that does not exist yet, or over it where asked.

    A new file has the rights that the system gives to new files; one written over keeps its own,
    and a link to it stays a link.

    Raises:
        InputError: the file is there, its folder is not, or it cannot be written.
    """
    try:
        _write(path, content.encode() if isinstance(content, str) else content, overwrite)
    except OSError as error:
        raise InputError(f"{path}: cannot be written: {error.strerror}.") from error
    except RuntimeError:  # so Python before 3.13 says it
        raise InputError(f"{path}: a link that leads to itself. Name another file.") from None


def _write(path: Path, content: bytes, overwrite: bool) -> None:
    there = path.is_symlink() or path.exists()
    if there and not overwrite:
        raise InputError(f"{path}: is there already, and is not written over. Name another file.")
    whole = path.resolve() if overwrite else path
    if there and whole.exists() and not whole.is_file():
        raise InputError(f"{path}: no plain file, and is not written over. Name another file.")
    if there and whole.exists() and not os.access(whole, os.W_OK):
        raise InputError(f"{path}: is write-protected. Name another file.")
    if not whole.parent.is_dir():
        raise InputError(f"{path}: no such folder, {whole.parent}.")
    part = whole.parent / f"{TEMPORARY}{secrets.token_hex(6)}"
    try:
        with part.open("xb") as file:
            file.write(content)
        if overwrite:
            if whole.exists():
                part.chmod(stat.S_IMODE(whole.stat().st_mode))
            part.replace(whole)
        else:
            _place(part, whole)
    finally:
        part.unlink(missing_ok=True)


def _place(part: Path, whole: Path) -> None:
    """Give a finished file its name, unless a file of that name has come to be since."""
    try:
        os.link(part, whole)
    except FileExistsError:
        raise
    except OSError as error:
        if error.errno not in NO_LINKS:
            raise
        # a disk that knows no links: the name is taken first, by an empty file of our own
        whole.open("xb").close()
        try:
            part.replace(whole)
        except OSError:
            whole.unlink()
            raise
