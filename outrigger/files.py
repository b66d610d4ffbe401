"""Writing a file: whole or not at all, and never over one that is there."""

import os
from pathlib import Path

from outrigger.errors import InputError


def write_new(path: Path, text: str) -> None:
    """Write a text to a file that does not exist yet.

    Raises:
        InputError: the file is there, its folder is not, or it cannot be written.
    """
    import tempfile  # slow to load, and most commands write nothing

    if path.exists() or path.is_symlink():
        raise InputError(f"{path}: is there already, and is not written over. Name another file.")
    folder = path.parent
    if not folder.is_dir():
        raise InputError(f"{path}: no such folder, {folder}.")
    try:
        handle, name = tempfile.mkstemp(dir=folder, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                file.write(text)
            Path(name).chmod(0o644)
            os.link(name, path)  # fails if the file has come to be since
        finally:
            Path(name).unlink()
    except OSError as error:
        raise InputError(f"{path}: cannot be written: {error.strerror}.") from error
