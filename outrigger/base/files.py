"""Writing a file: whole or not at all, and over one that is there only where that is asked."""

import os
from pathlib import Path

from outrigger.base.errors import InputError


def write_new(path: Path, content: str | bytes, *, overwrite: bool = False) -> None:
    """Write a text, in UTF-8, or bytes to a file that does not exist yet, or over it where asked.

    Raises:
        InputError: the file is there, its folder is not, or it cannot be written.
    """
    import tempfile  # slow to load, and most commands write nothing

    if path.is_symlink() or (path.exists() and not (overwrite and path.is_file())):
        raise InputError(f"{path}: is there already, and is not written over. Name another file.")
    folder = path.parent
    if not folder.is_dir():
        raise InputError(f"{path}: no such folder, {folder}.")
    try:
        handle, name = tempfile.mkstemp(dir=folder, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content.encode() if isinstance(content, str) else content)
            Path(name).chmod(0o644)
            if overwrite:
                Path(name).replace(path)
            else:
                os.link(name, path)  # fails if the file has come to be since
        finally:
            Path(name).unlink(missing_ok=True)
    except OSError as error:
        raise InputError(f"{path}: cannot be written: {error.strerror}.") from error
