"""Lines of a case file that are no TOML: what is wrong with each, and how it is written."""

import re
import tomllib
from collections.abc import Iterator

from outrigger.cases.faults import Fault
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import table_in
from outrigger.cases.names import KEYS, as_header, table_called
from outrigger.cases.section import Section
from outrigger.cases.sections import SECTIONS
from outrigger.cases.validate import value_error

CURLY = "“”„«»‘’"
_MARKS = "\"'`" + CURLY
_TEXT = r"""(?:"[^"]*"|'[^']*')"""
_HEADER = r"\s*(\[\[?\s*[\w.\-]+\s*\]?\])"
_KEY = r"\s*([\w.\-]+)\s*"


def broken(text: str, message: str, line: int | None) -> list[Fault]:
    """Every line that cannot be read; `message` and `line`: what the reader of TOML says."""
    faults = [*_values(text), *_repeated(text)]
    if not faults:
        faults = [Fault("", _line(message, text, line), line)]
    return faults


def _values(text: str) -> Iterator[Fault]:
    """Lines of the form key = value whose value alone is not TOML."""
    table = ""
    for number, line in enumerate(text.splitlines(), 1):
        if header := re.match(_HEADER, line):
            table = header[1].strip("[] ")
            continue
        found = re.match(rf"{_KEY}=\s*(.*)$", line.rstrip())
        if found is None:
            continue
        key, value = found[1], found[2].partition(" #")[0].strip()
        if not all(key.split(".")):
            one = ".".join(part for part in key.split(".") if part) or "gap.width"
            yield Fault(key, f'no key: one dot between two words. Write it "{one}".', number)
            continue
        try:
            tomllib.loads(line)
        except (ValueError, RecursionError):
            if said := _mended(table, key, value):
                yield Fault(key, f"= {value}: {said}", number)


def _mended(table: str, key: str, value: str) -> str:
    """What to do about a value that is not TOML; empty: it may go on over more lines."""
    if value.startswith(("[", "{", '"""', "'''")):
        return _mended_list(value)
    if not value:
        return "nothing stands behind the =. Write a value, or take the line out."
    if value.startswith("="):
        return f"one = is enough: {key} = {value.lstrip('= ')}"
    if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        return "no such date."
    if any(c in value for c in CURLY):
        return f'curly quotes; use straight ones: "{_bare(value)}".'
    if re.search(r"""\d["']?""$""", value):
        return f'inch mark and quotes run together; write "{_bare(value)}".'
    if said := _too_much(key, value):
        return said
    if "\\" in value and re.fullmatch(_TEXT, value):
        return f"has a backslash: write it in single quotes, '{value[1:-1]}'."
    bare = _bare(value)
    yes = bare.lower() in ("true", "yes")
    if (yes or bare.lower() in ("false", "no")) and not _error(table, key, yes):
        return f"needs true or false, in small letters, without quotes: {str(yes).lower()}."
    error = _error(table, key, bare)
    if error.startswith(("needs", "which")):
        return error
    return f'text needs straight quotes. "{bare}": {error}' if error else _quoted(bare)


def _quoted(bare: str) -> str:
    return f'text needs straight quotes: "{bare}".'


def _mended_list(value: str) -> str:
    """What to do about a list on one line, or about curly quotes in what may go on."""
    if not (value.startswith("[") and value.endswith("]")):
        curly = any(c in value for c in CURLY) and '"' not in value
        return 'curly quotes; use straight ones, ".' if curly else ""
    words = re.findall(rf"{_TEXT}|[^,\s\[\]]+", value)
    listed = ", ".join(f'"{word.strip(_MARKS)}"' for word in words)
    if any(c in value for c in CURLY):
        return f"curly quotes; use straight ones: [{listed}]."
    return f"a list has quotes around each text, and commas between them: [{listed}]."


def _too_much(key: str, value: str) -> str:
    """What to do about more than one text behind the =."""
    found = re.fullmatch(rf"({_TEXT})(\s*)(.+)", value)
    if found is None:
        return ""
    first, blank, rest = found.groups()
    if re.search(_TEXT, rest) and (blank or rest[0] in "\"',"):
        return "two values; keep one."
    if rest in (",", ";", ".", '"', "'"):
        return (
            f"nothing may stand behind the value but a remark, which begins with #: {key} = {first}"
        )
    if not blank and rest[-1] in _MARKS and value[0] == '"':
        return f'''quotes inside quotes: write "{value[1:-1].replace('"', "'")}".'''
    return f"a remark begins with #. Write {key} = {first}  # {rest.lstrip('/-;# ')}"


def _bare(value: str) -> str:
    """A value without the quotes around it, an inch mark in words."""
    text = value.strip().strip("`" + CURLY)
    opened = text[:1] in _MARKS
    text = text[1:] if opened else text
    if text[-1:] in _MARKS and (opened or not re.search(r"""\d["']$""", text)):
        text = text[:-1]
    text = re.sub(r"""(?<=\d)\s*("|'')""", " in", text)
    return text.replace('"', "'")


def _error(table: str, key: str, value: object) -> str:
    """What is wrong with a value of a key; empty: nothing, or no such key is known."""
    name, *inner = table.split(".")
    model: type[Section] | None = HoldDown if name == "hold_down" else SECTIONS.get(name)
    for step in inner:
        field = model.model_fields.get(step) if model else None
        model = table_in(field.annotation) if field else None
    return value_error(model, table, key, value) if model and key in model.model_fields else ""


def _repeated(text: str) -> Iterator[Fault]:
    """Keys that stand twice in one table."""
    table, seen = "", dict[str, int]()
    for number, line in enumerate(text.splitlines(), 1):
        if header := re.match(_HEADER, line):
            if re.sub(r"\s", "", header[1]) == "[hold_down]":  # its keys stand for one place
                said = "[hold_down]: write [[hold_down]], in two brackets, for each place."
                yield Fault("", said, number)
                table = f"@{number}"
                continue
            table = f"{header[1]}@{number}" if header[1].startswith("[[") else header[1]
        elif key := re.match(rf"{_KEY}=", line):
            name = f"{table}{key[1]}"
            if name in seen:
                yield Fault(
                    key[1], f"stands twice; line {seen[name]} has it too: keep one.", number
                )
            seen.setdefault(name, number)


def _line(message: str, text: str, line: int | None) -> str:
    """What to do about a line that is neither a table, nor a key with its value."""
    lines = text.splitlines()
    written = lines[line - 1].strip() if line else ""
    if written.startswith(("//", ";", "--", "/*", "'", "*")):
        return f"{written}: a remark begins with #."
    table = table_called(re.sub(r"\W+", "_", written.strip("[]:; ")).strip("_"))
    if table and written.replace(" ", "") != as_header(table):
        return f"{written}: write {as_header(table)}"
    if "overwrite" in message or "already" in message or "twice" in message:
        first = next((n for n, one in enumerate(lines, 1) if one.strip() == written), line)
        where = f" Line {first} has it too: put all its keys under one." if first != line else ""
        return f"{written}: this key or table stands twice; keep one.{where}"
    if found := re.match(r"([\w.\-]+)\s*:\s*(\S.*)", written):
        return f"{written}: write {found[1]} = {found[2]}"
    if found := re.match(rf"(\w+)\s+({_TEXT}|\d.*)$", written):
        value = found[2] if found[2][0] in "\"'" else f'"{found[2]}"'
        return f"{written}: an equals sign is missing; write {found[1]} = {value}"
    if (found := re.match(r"(\w+(?:\s+\w+)+)\s*=\s*(.+)", written)) is not None:
        words = found[1].lower().split()
        key = "_".join(words) if "_".join(words) in KEYS else words[-1]
        key = key if key in KEYS else "_".join(words)
        return f"{written}: a key is one word; write {key} = {found[2]}"
    said = message.partition(" (at")[0].lower()
    return (
        f"{written}: cannot be read ({said}). A line is a table, [gap], or a key with its value, "
        'width = "6 in"; a remark begins with #.'
    )
