"""The Markdown writer: for pasting. Formulas stand as lines of text."""

import re

from outrigger.base.plain import harmless
from outrigger.report.write.document import (
    AdoptionBox,
    Bar,
    Blank,
    Block,
    Bold,
    Bullets,
    Calculation,
    Document,
    Figure,
    Inline,
    Maths,
    Page,
    PageBreak,
    Paragraph,
    Runs,
    Table,
    runs,
)

_MARKS = re.compile(r"([\\`*_\[\]#|$~!])")
BAR_MARKS = 10


def markdown(document: Document) -> str:
    """The document as Markdown text."""
    parts = [f"# {text(document.title)}", text(document.job)]
    if document.sample:
        parts.insert(0, f"**{document.sample}**")
    for section in document.sections:
        if section.title:
            parts.append(f"{'#' * (section.level + 1)} {text(section.title)}")
        parts += [made for block in section.blocks if (made := _block(block))]
    parts += [text(document.foot), *([f"**{document.sample}**"] if document.sample else [])]
    return harmless("\n\n".join(parts)) + "\n"


def text(given: str) -> str:
    """A text whose characters mark nothing up, at the start of a line too."""
    return _at_start(_within(given))


def _within(given: str) -> str:
    """A text whose characters mark nothing up behind others."""
    plain = given.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return _MARKS.sub(r"\\\1", plain)


def _at_start(marked: str) -> str:
    return re.sub(r"^(\s*)(\d+)([.)])(?=\s|$)|^(\s*)([-+=])", _opening, marked)


def _opening(found: re.Match[str]) -> str:
    """What would open a list or a rule at the start of a line."""
    if found[2]:
        return f"{found[1]}{found[2]}\\{found[3]}"
    return f"{found[4]}\\{found[5]}"


def _runs(given: Runs) -> str:
    first, *rest = runs(given) or ("",)
    start = _run(first)
    start = start if isinstance(first, Bold | Blank | Bar | Page) else _at_start(start)
    return start + "".join(map(_run, rest))


def _run(one: Inline) -> str:
    match one:
        case str():
            return _within(one)
        case Bold(text=bold):
            return _bold(bold)
        case Page():
            return "below"
        case Blank(label=label):
            return f"{label} \\_\\_\\_\\_\\_\\_\\_\\_".lstrip()
        case Bar(ratio=ratio):
            return "" if ratio is None else "=" * round(min(ratio, 1.2) * BAR_MARKS)
        case Maths(text=said):
            return _within(said)


def _bold(given: str) -> str:
    """Bold text, its blanks outside the marks: inside, they would be printed as asterisks."""
    kept = given.strip()
    before, after = given[: len(given) - len(given.lstrip())], given[len(given.rstrip()) :]
    return f"{before}**{text(kept)}**{after}" if kept else ""


def _block(block: Block) -> str:
    match block:
        case Paragraph():
            return _runs(block.runs)
        case Bullets():
            return "\n".join(f"- {_runs(item)}" for item in block.items)
        case Table():
            return _table(block)
        case Calculation(label=label, line=line, said=said):
            return f"({label}) `{line.text}`" + (f" {text(said)}" if said else "")
        case Figure(alt=alt, caption=caption):
            return "\n\n".join(text(said) for said in (alt, caption) if said)
        case AdoptionBox(heading=heading, line=line):
            return f"> **{text(heading)}**\n>\n> {_runs(line)}"
        case PageBreak():
            return ""


def _table(table: Table) -> str:
    """A table of pipes; an empty header where it has none, since the form asks for one."""
    sides = ["---:" if side == "r" else ":---" for side in table.align]
    head = list(table.head) or [""] * len(sides)
    rows = [[_runs(one) for one in head], sides]
    rows += [[_runs(cell) for cell in row] for row in table.rows]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)
