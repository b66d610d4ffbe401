"""What is wrong with a case: a fault, the error that names all of them."""

import json
import re
from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.plain import one_line

SETTING = 0  # the line of a key that a setting has put over the file


class Fault(Struct, frozen=True):
    """One thing wrong in a case file."""

    key: str
    text: str
    line: int | None = None
    file: str = ""  # that the line stands in, where it is another than the case's own

    @property
    def message(self) -> str:
        """For people, with the line when it is known."""
        line = f"{self.file} line" if self.file else "line"
        where = f"{line} {self.line}: " if self.line else "setting " if self.line == SETTING else ""
        return one_line(f"{where}{self.key}{' ' if self.key else ''}{self.text}")


def key_part(name: str) -> str:
    """One word of a key's path, as a file writes it: in quotes where it is no bare word."""
    return name if re.fullmatch(r"[\w\-]+", name) else json.dumps(name, ensure_ascii=False)


class CaseFaultsError(InputError):
    """Every fault of a case: `faults`, each with its key, its text, and its line where a file has
    one."""

    def __init__(self, name: str, faults: Sequence[Fault]) -> None:
        ordered = sorted(faults, key=lambda f: (f.file, f.line or 0))
        self.faults = tuple(dict.fromkeys(ordered))
        count = "1 fault" if len(self.faults) == 1 else f"{len(self.faults)} faults"
        lines = "\n".join(f"  {fault.message}" for fault in self.faults)
        super().__init__(f"{name}: {count}\n{lines}")


def shown(value: object) -> str:
    """A value as the file wrote it, near enough to be found there."""
    if isinstance(value, (bool, list)):
        return json.dumps(value, ensure_ascii=False, default=str)
    return f'"{value}"' if isinstance(value, str) else str(value)


def unread(key: str, text: str, read: Callable[[str], object]) -> Iterator[Fault]:
    """What is wrong with a text that is not read, if it is not."""
    try:
        read(text)
    except InputError as error:
        said = str(error).removeprefix(f'"{text}": ')
        yield Fault(key, f'= "{text}": {said}')
