"""The changes that tests/bench/mutate.py tries: one token of a module, one cell of a table."""

import ast
import csv
import io
import re
import tokenize
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

SIGNS = {
    ast.Add: ("+", ["-"]),
    ast.Sub: ("-", ["+"]),
    ast.Mult: ("*", ["/"]),
    ast.Div: ("/", ["*"]),
    ast.FloorDiv: ("//", ["*"]),
    ast.Pow: ("**", ["*"]),
    ast.BitAnd: ("&", ["|"]),
    ast.BitOr: ("|", ["&"]),
    ast.Lt: ("<", ["<=", ">"]),
    ast.LtE: ("<=", ["<", ">="]),
    ast.Gt: (">", [">=", "<"]),
    ast.GtE: (">=", [">", "<="]),
    ast.Eq: ("==", ["!="]),
    ast.NotEq: ("!=", ["=="]),
    ast.And: ("and", ["or"]),
    ast.Or: ("or", ["and"]),
}
OTHER = {
    "min": "max",
    "max": "min",
    "least": "greatest",
    "greatest": "least",
    "minimum": "maximum",
    "maximum": "minimum",
    "any": "all",
    "all": "any",
    "floor": "ceil",
    "ceil": "floor",
    "argmin": "argmax",
    "argmax": "argmin",
    "sin": "cos",
    "cos": "sin",
    "tan": "sin",
}
NO_NUMBERS = (ast.JoinedStr, ast.Raise, ast.Assert, ast.Import, ast.ImportFrom)
SAID = ("note", "said", "clause", "status")  # names of words
NAMED = (ast.Name, ast.Attribute, ast.Subscript)
# a cell that is unsafe where it is less: loads, least distances, what divides a strength
LESS_IS_UNSAFE = re.compile(
    r"/loads/|fastener_spacing|clip_steel_safety|effective_length|creep|fastener_rules"
)
NUMBER = re.compile(r"-?\d[\d,]*(\.\d+)?")
NOT_VALUES = ("note", "witness", "status", "clause", "chain", "edition")


@dataclass(frozen=True)
class Change:
    """A file with one token changed: where, what it was and is, and the lines that run it."""

    file: str
    line: int
    column: int
    what: str
    code: str
    text: str
    lines: tuple[int, ...] = ()
    body: tuple[int, ...] = ()


def place_of(change: Change) -> str:
    """Line and column of a change."""
    return f"{change.line}:{change.column}"


class Source:
    """A module: its text, its tree, its tokens by position."""

    def __init__(self, tree: Path, file: str) -> None:
        self.file = file
        self.text = (tree / file).read_text(encoding="utf-8")
        self.rows = self.text.splitlines(keepends=True)
        self.starts = [0]
        for row in self.rows:
            self.starts.append(self.starts[-1] + len(row))
        self.tokens = [
            (self.at(*one.start), self.at(*one.end), one.string)
            for one in tokenize.generate_tokens(io.StringIO(self.text).readline)
        ]
        self.root = ast.parse(self.text)

    def at(self, line: int, column: int) -> int:
        """Place in the text of a token's line and column (characters)."""
        return self.starts[line - 1] + column

    def span(self, node: ast.expr) -> tuple[int, int]:
        """From and to of a node; the syntax tree counts bytes."""
        return (
            self._of_bytes(node.lineno, node.col_offset),
            self._of_bytes(node.end_lineno or node.lineno, node.end_col_offset or 0),
        )

    def _of_bytes(self, line: int, column: int) -> int:
        before = self.rows[line - 1].encode()[:column].decode()
        return self.at(line, len(before))

    def token(self, sign: str, begin: int, end: int) -> tuple[int, int] | None:
        """From and to of the first such token between two places."""
        return next((t[:2] for t in self.tokens if begin <= t[0] < end and t[2] == sign), None)


def changes_of(tree: Path, file: str) -> list[Change]:
    """Every change of a module."""
    source = Source(tree, file)
    found: list[Change] = []
    _visit(source, source.root, (), (), found)
    unique = {(one.line, one.column, one.what): one for one in found}
    return list(unique.values())


def reads(change: Change) -> bool:
    """Whether a changed module is Python still."""
    try:
        ast.parse(change.text if change.file.endswith(".py") else "")
    except SyntaxError:
        return False
    return True


def _visit(source, node, lines, body, found) -> None:
    """Changes of a node and of all in it, but for words, notes of types and errors."""
    if isinstance(node, NO_NUMBERS) or _says(node):
        return
    if isinstance(node, ast.FunctionDef):
        first = node.body[0].lineno
        inside = tuple(range(first, (node.end_lineno or first) + 1))
        for one in [*node.decorator_list, *node.args.defaults, *node.args.kw_defaults]:
            if one is not None:
                _visit(source, one, inside, inside, found)
        for one in node.body:
            _visit(source, one, (), inside, found)
        return
    if isinstance(node, ast.AnnAssign):
        if node.value is not None:
            _visit(source, node.value, _rows(node), body, found)
        return
    if isinstance(node, ast.stmt) and not hasattr(node, "body"):
        lines = _rows(node)
    for begin, end, new in _swaps(source, node):
        old = source.text[begin:end]
        line = source.text.count("\n", 0, begin) + 1
        found.append(
            Change(
                source.file,
                line,
                begin - source.starts[line - 1],
                f"{' '.join(old.split())} -> {' '.join(new.split())}",
                source.rows[line - 1].strip(),
                source.text[:begin] + new + source.text[end:],
                lines or (line,),
                body,
            )
        )
    for child in ast.iter_child_nodes(node):
        _visit(source, child, lines or _rows(child), body, found)


def _says(node) -> bool:
    """Whether a node makes nothing but words: a note, what is said of a value that is not given."""
    if isinstance(node, ast.Assign):
        return getattr(node.targets[0], "id", "") in SAID
    if isinstance(node, ast.keyword):
        return node.arg in SAID
    if isinstance(node, ast.BoolOp):
        last = node.values[-1]
        return isinstance(last, ast.JoinedStr) or (_words(last) and " " in last.value)
    return False


def _rows(node) -> tuple[int, ...]:
    if not hasattr(node, "lineno"):
        return ()
    return tuple(range(node.lineno, (node.end_lineno or node.lineno) + 1))


def _swaps(source, node):
    """What may stand in place of a token: from, to, the new text."""
    if isinstance(node, ast.BinOp) and not _words(node.left) and not _words(node.right):
        yield from _signs(source, node.op, node.left, node.right)
    elif isinstance(node, ast.Compare):
        sides = [node.left, *node.comparators]
        for i, sign in enumerate(node.ops):
            yield from _signs(source, sign, sides[i], sides[i + 1])
    elif isinstance(node, ast.BoolOp):
        for i in range(len(node.values) - 1):
            yield from _signs(source, node.op, node.values[i], node.values[i + 1])
        for i, one in enumerate(node.values):  # one of them dropped
            word = "True" if isinstance(node.op, ast.And) else "False"
            if i or len(node.values) == 2:
                yield (*source.span(one), word)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.Not, ast.USub, ast.Invert)):
        begin, _ = source.span(node)
        yield begin, source.span(node.operand)[0], ""
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        for new in _numbers(node.value):
            yield (*source.span(node), new)
    elif isinstance(node, ast.IfExp):
        begin, end = source.span(node.test)
        yield begin, end, f"(not ({source.text[begin:end]}))"
    elif isinstance(node, ast.Call):
        yield from _other_function(source, node)
        yield from _swapped_arguments(source, node)


def _words(node) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def _signs(source, sign, left, right):
    if type(sign) in SIGNS:
        old, others = SIGNS[type(sign)]
        if at := source.token(old, source.span(left)[1], source.span(right)[0]):
            for new in others:
                yield (*at, new)


def _numbers(value) -> list[str]:
    """5 % more and less of a length or a factor; the next whole number; nought becomes one."""
    if isinstance(value, int):
        return [str(value + 1 if abs(value) < 10 else round(value * 1.05) + (value < 20))]
    return [f"{value * by:.9g}" for by in (1.05, 0.95)] if value else ["1.0"]


def _other_function(source, node):
    """min for max, at the end of the function's name."""
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if name in OTHER:
        _, end = source.span(node.func)
        yield end - len(name), end, OTHER[name]


def _swapped_arguments(source, node):
    """Two neighbors of a call exchanged."""
    for some in (node.args, [one.value for one in node.keywords]):
        for one, next_one in pairwise(some):
            if isinstance(one, NAMED) and isinstance(next_one, NAMED):
                (b1, e1), (b2, e2) = source.span(one), source.span(next_one)
                first, second = source.text[b1:e1], source.text[b2:e2]
                if first != second and not (_no_number(one) or _no_number(next_one)):
                    yield b1, e2, second + source.text[e1:b2] + first


def _no_number(node) -> bool:
    """A type, a table's name or a word."""
    if isinstance(node, ast.Subscript):
        return getattr(node.slice, "value", "") in SAID
    name = node.id if isinstance(node, ast.Name) else node.attr
    return name in SAID or (name[:1].isupper() and len(name) > 4)


def cells_of(tree: Path, file: str) -> list[Change]:
    """Every number of a table, 5 % to the side that is unsafe."""
    text = (tree / file).read_text(encoding="utf-8")
    less = LESS_IS_UNSAFE.search(file)
    found, columns = [], None
    rows = text.splitlines(keepends=True)
    for number, row in enumerate(rows):
        if row.startswith("#"):
            continue
        cells = next(csv.reader([row]))
        if columns is None:
            columns = cells
            continue
        for i, cell in enumerate(cells):
            if columns[i] in NOT_VALUES or not NUMBER.fullmatch(cell.strip()) or float(cell) == 0:
                continue
            factor = 0.95 if less and columns[i] != "light_psf" else 1.05  # which holds down
            new = [*cells[:i], f"{float(cell) * factor:.6g}", *cells[i + 1 :]]
            out = io.StringIO()
            csv.writer(out, lineterminator="\n").writerow(new)
            what = f"{columns[i]} {cell} -> {new[i]}"
            changed = "".join([*rows[:number], out.getvalue(), *rows[number + 1 :]])
            found.append(Change(file, number + 1, i, what, row.strip()[:80], changed))
    return found
