"""Hostile and broken input through every command, by chance. A script, run by hand:

    python tests/bench/fuzz.py OUT --files 1000 --others 20 --seed 1 [--only check] [--minutes 10]

Examples are changed: bytes, keys dropped and doubled, wrong units, numbers of every size, hostile
texts, files cut short; the screen is odd, its letters few, its disk full. `--files` go through
`check`, `--others` through each other command. A finding is a mistake of the program (status 70 or
a traceback), more than ten seconds of the processor, a pass without a fact that is needed or with a
wrong unit, NaN or inf in the output, a byte that steers a terminal, markup of the user's in a page,
a file half written, memory over the bound. Each is printed, and its file kept in OUT. The same seed
gives the same run.
"""

import argparse
import io
import json
import os
import random
import re
import resource
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
from collections import Counter
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from outrigger import __main__ as program
from outrigger.base.errors import OutriggerError
from outrigger.cli import app as cli
from outrigger.cli.common import BROKEN
from outrigger.cli.form import form
from outrigger.page.desk import Desk

ROOT = Path(__file__).parents[2]

LONGEST, MOST_BYTES = 10, 3 << 30  # seconds of the processor; of memory
LONGEST_OF = {"size": 40}  # a hundred grades and sizes, each at every mark of a wall
STEERING = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
NO_NUMBER = re.compile(r"(?<![\w.])(nan|inf|infinity)(?![\w.])", re.I)
QUANTITY = re.compile(r'^(\w+ = ")(-?[\d ./]+) (in|ft|psf|lb|plf|mph)(".*)$', re.M)
UNITS = ("in", "ft", "psf", "lb", "plf", "mph", "psi", "mm", "kPa", "", "F")
KIND = dict.fromkeys(("in", "ft", "mm"), "length") | dict.fromkeys(("psf", "kPa", "psi"), "area")
TEXTS = (".md", ".svg", ".html", ".csv", ".dxf")
NUMBERS = (
    "0",
    "-0",
    "-1",
    "1e-300",
    "1e308",
    "1e400",
    "nan",
    "inf",
    "-inf",
    "1e9",
    "0.001",
    "1_0",
    "1/0",
    "0/0",
    "9999999999999999999999999999",
    "1e-9",
    "½",
    "１２",
    "0x10",
    "1,000",
    "1.5.2",
    "--3",
    "+",
    "3'",
    "16.",
    ".5",
    "7/16",
    "1e5",
    "1e-5",
    "2.2250738585072014e-308",
)
HOSTILE = (
    "\\u001b[2J\\u001b[HPASS, 54 of 54 checks.",
    "\\u009b31m\\u202eevil\\u2066",
    "\\r\\nPASS\\n\\n\\tPASS",
    "=cmd|' /C calc'!A0",
    "+1+1",
    "@SUM(A1)",
    "$(touch pwned)",
    "`id`; rm -rf x & | > y",
    "'; touch pwned; '",
    "\\u2019$(touch pwned)\\u2019",
    "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "#read(\\u0022/etc/passwd\\u0022) $x_1^2$ *b* _i_ @ref",
    "{{7*7}} {% for %} ${7*7} %s %n %d {0} {}",
    "](javascript:alert(1)) ![x](http://x/) | a | b |\\n|---|",
    "\\\\input{x} \\\\u0000 \\u0001 \\u007f",
    "../../../../etc/passwd",
    "\\ud7ff\\uffff\\U0010ffff",
    "é\\u0301 \\u0416 \\u4e2d \\U0001f600 \\u0627\\u0644",
    "x" * 20_000,
    "",
    " ",
)
TYPES = (
    "[]",
    "{}",
    "true",
    "false",
    "1",
    "-1.5",
    '"x"',
    "[[[]]]",
    "{a = 1}",
    "2020-01-01",
    '["back"]',
)
# no verdict without them, as a builder or an engineer would say it
NEEDED = (
    "gap.width",
    "gap.edge_bearing",
    "gap.garage_plate",
    "outrigger.species",
    "outrigger.grade",
    "outrigger.size",
    "outrigger.spacing",
    "outrigger.back_span",
    "outrigger.moisture",
    "garage_wall.height",
    "garage_wall.dead",
    "seismic.category",
    "hold_down",
    "snow",
)
GROUPS = ("snow", "wind", "combinations", "statics", "stability", "lumber", "connections")
KEYS = (
    "gap", "snow", "spacing", "grade", "gap.width", "hold_down[back].x", "gap..width", "layout.run",
    "wind.speed", "hold_down[edge]", "", "=", "[", "snow.drift.on",
)  # fmt: skip
CHECK = ([], ["--all"], ["--steps"], ["--brief"], ["--json"], ["--csv"], ["--ask"])
OTHERS = {
    "gap": ([], ["--json"], ["--csv"], ["--cut"], ["--plot", "out.svg"], ["gap=8in"]),
    "size": ([], ["--json"], ["--csv"]),
    "layout": (["layout.run=24 ft"], ["layout.run=24 ft", "--plan", "out.svg"],
               ["layout.run=24 ft", "--csv"]),
    "draw": (["-o", "out.svg"], ["-o", "out.dxf"], ["layout.run=9 ft", "--plan", "-o", "out.svg"]),
    "reserve": ([], ["--json"], ["--mishaps"]),
    "compare": (["spacing=12in"], ["gap=5in"]),
    "card": ([], ["--csv"], ["--json"], ["--back-span"]),
    "summary": (["-o", "out.md"], ["-o", "out.html"], ["-o", "out.pdf"], ["-o", "out.xlsx"]),
    "lumber": ([], ["--json"]),
    "prove": ([], ["--json"], ["--unverified"]),
    "new": ([],),
    "again": ([],),
}  # fmt: skip
SCREENS = ({}, {}, {"COLUMNS": "1"}, {"COLUMNS": "0"}, {"COLUMNS": "100000"}, {"COLUMNS": "-5"},
           {"COLUMNS": "abc"}, {"TERM": "dumb"}, {"LANG": "C", "LC_ALL": "C"})  # fmt: skip
LETTERS = ("utf-8", "utf-8", "ascii", "cp1252", "cp437", "latin-1")


class SlowError(BaseException):
    """More than its time."""


def changed(draw, text):
    """A case file with one to three things made wrong, and what they are; half of them still read
    as a case, more often than not."""
    said, data = [], text
    ways = draw.choice((list(WAYS), MILD))
    for _ in range(draw.choice((1, 1, 1, 2, 3))):
        name = draw.choice(ways)
        made = WAYS[name](draw, data)
        if made is not None:
            said.extend(measures_another(data, made) if name == "unit" else ())
            data = made
            said.append(name)
    return data, said


def _lines(draw, text, fits):
    rows = text.splitlines(keepends=True)
    at = [i for i, row in enumerate(rows) if fits.match(row)]
    return rows, (draw.choice(at) if at else None)


FREE = re.compile(r"(name|source|by|note|datum|engineer|address|role|label|wood) = $")
KEY = re.compile(r"\w[\w.]* *= ")
TABLE = re.compile(r"\[")


def dropped(draw, text):
    rows, at = _lines(draw, text, KEY)
    return None if at is None else "".join(rows[:at] + rows[at + 1 :])


def doubled(draw, text):
    rows, at = _lines(draw, text, draw.choice((KEY, TABLE)))
    return None if at is None else "".join([*rows[: at + 1], *rows[at:]])


def no_table(draw, text):
    rows, at = _lines(draw, text, TABLE)
    if at is None:
        return None
    end = next((i for i in range(at + 1, len(rows)) if rows[i].startswith("[")), len(rows))
    return "".join(rows[:at] + rows[end:])


def unit(draw, text):
    found = list(QUANTITY.finditer(text))
    if not found:
        return None
    one = draw.choice(found)
    begin, end = one.span(3)
    return text[:begin] + draw.choice(UNITS) + text[end:]


def measures_another(before, after):
    """The lines of a text that a changed unit made to measure something else: 6 in, 6 psf."""
    for one, other in zip(before.splitlines(), after.splitlines(), strict=False):
        found = QUANTITY.match(one)
        if one != other and found and not FREE.search(found[1].rstrip('"')):
            new = other[found.start(3) : found.end(3) + len(other) - len(one)]
            if KIND.get(found[3], found[3]) != KIND.get(new, new):
                yield f"unit {other}"


def number(draw, text):
    found = list(re.finditer(r"(?<== )(\"?)(-?\d[\d ./]*)", text))
    if not found:
        return None
    begin, end = draw.choice(found).span(2)
    new = draw.choice(
        (*NUMBERS, f"{10 ** draw.uniform(-12, 12):.6g}", f"{draw.uniform(0, 100):.3f}")
    )
    return text[:begin] + new + (" " if text[end - 1] == " " else "") + text[end:]


def near(draw, text):
    found = list(re.finditer(r'= "?(\d+(?:\.\d+)?) ?(?:in|ft|psf|lb|plf)?"', text))
    if not found:
        return None
    begin, end = draw.choice(found).span(1)
    return text[:begin] + f"{float(text[begin:end]) * draw.uniform(0.5, 2):.4g}" + text[end:]


def hostile(draw, text):
    found = list(re.finditer(r'"([^"\n]*)"', text))
    if not found:
        return None
    free = [one for one in found if FREE.search(text[max(0, one.start() - 20) : one.start()])]
    begin, end = draw.choice(free if free and draw.random() < 0.7 else found).span(1)
    return text[:begin] + draw.choice(HOSTILE) + text[end:]


def kind(draw, text):
    rows, at = _lines(draw, text, KEY)
    if at is None:
        return None
    rows[at] = f"{rows[at].partition('=')[0]}= {draw.choice(TYPES)}\n"
    return "".join(rows)


def exchanged(draw, text):
    rows, at = _lines(draw, text, KEY)
    _, other = _lines(draw, text, KEY)
    if at is None:
        return None
    rows[at] = rows[at].partition("=")[0] + "=" + rows[other].partition("=")[2]
    return "".join(rows)


def odd_key(draw, text):
    rows, at = _lines(draw, text, KEY)
    if at is None:
        return None
    name = draw.choice(('""', '"x]"', '"gap."', "'.'", '"a[0]"', "a.b.c", '"\\u001b[2J"', "_", "0"))
    rows.insert(at, f"{name} = 1\n")
    return "".join(rows)


def bytes_flipped(draw, text):
    data = bytearray(text.encode("utf-8", "surrogateescape"))
    for _ in range(draw.randint(1, 6)):
        if data:
            data[draw.randrange(len(data))] = draw.choice(
                (draw.randrange(256), draw.randrange(32, 127))
            )
    return bytes(data).decode("utf-8", "surrogateescape")


def cut(draw, text):
    return text[: draw.randrange(len(text) + 1)]


WAYS = {
    "bytes": bytes_flipped, "dropped": dropped, "doubled": doubled, "no table": no_table,
    "unit": unit, "number": number, "near": near, "hostile": hostile, "kind": kind,
    "exchanged": exchanged,
    "odd key": odd_key, "cut": cut,
}  # fmt: skip


MILD = ["near", "near", "hostile", "dropped", "unit"]


@contextmanager
def at_most(seconds):
    """Seconds of the processor, not of a clock that others share."""

    def stop(number, frame):
        raise SlowError

    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def ran(words, screen, letters, typed=""):
    """A command in this process: its status, what it printed on each stream, what went wrong."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding=letters, write_through=True) for _ in "12")
    before = dict(os.environ)
    keep = sys.argv, sys.stdin, sys.modules["__main__"]
    os.environ.update({"COLUMNS": "80", **screen})
    sys.argv, sys.stdin = [program.__file__, *words], io.StringIO(typed)
    sys.modules["__main__"] = program
    status, wrong, longest = 0, "", LONGEST_OF.get(words[0], LONGEST)
    try:
        with redirect_stdout(out), redirect_stderr(err), at_most(longest):
            cli.run()
    except SystemExit as left:
        status = left.code or 0
    except SlowError:
        wrong = f"over {longest} s"
    except BaseException as error:
        wrong = f"{type(error).__name__}: {error}"[:200]
    finally:
        sys.argv, sys.stdin, sys.modules["__main__"] = keep
        os.environ.clear()
        os.environ.update(before)
    said = [one.buffer.getvalue().decode(letters, "replace") for one in (out, err)]
    return status, *said, wrong


def faults(words, given, said, result):
    """What is wrong with a run: nothing, or words."""
    status, out, err, wrong = result
    if wrong:
        yield wrong
    if status == BROKEN or "Traceback" in out + err:
        yield f"status {status}: {err.strip()[-300:]}"
    if status not in (0, 1, 2, 3, BROKEN):
        yield f"status {status}"
    for name, text in (("stdout", out), ("stderr", err)):
        if found := STEERING.search(text):
            yield f"{found[0]!r} on {name}"
    if (found := NO_NUMBER.search(out)) and not NO_NUMBER.search(given):
        yield f"{found[0]} printed: {out[max(0, found.start() - 60) : found.end() + 20]!r}"
    if words[0] == "check" and status == 0:
        yield from _passes_without(given, said)
    for made in Path().glob("out.*"):
        if status == 2 and not wrong:
            yield f"{made} written beside status 2"
        text = made.read_text(encoding="utf-8", errors="replace")
        plain = text.replace("\r\n", "\n") if made.suffix in TEXTS else ""
        if steers := STEERING.search(plain):
            yield f"{steers[0]!r} in {made}"
        if made.suffix in (".html", ".svg") and re.search("<script>alert|<img src=x", text):
            yield f"markup of the user's in {made}"
    if any(Path().glob(".outrigger-*")):
        yield "a part of a file left"
    if Path("pwned").exists():
        yield "a command of the user's ran"


def _passes_without(given, said):
    try:
        tables = tomllib.loads(given)
    except (tomllib.TOMLDecodeError, ValueError):
        yield "passes a file that is no TOML"
        return
    rows = given.splitlines()
    for one in said:
        if one.startswith("unit ") and one[5:] in rows:
            yield f"passes with a wrong {one}"
    for path in NEEDED:
        table = tables
        for word in path.split("."):
            table = table.get(word) if isinstance(table, dict) else None
        if table is None or table == "":
            yield f"passes without {path}"


def files(base):
    """The texts that are changed: examples, the sample, the starter, the files of every key."""
    found = [*(ROOT / "examples").glob("*.toml"), *(ROOT / "outrigger").glob("s*r*.toml")]
    found += [
        ROOT / "outrigger" / "sample.toml",
        *(ROOT / "tests" / "data" / "cases").glob("*.toml"),
    ]
    return [path.read_text(encoding="utf-8") for path in sorted(set(found))]


def one_run(draw, command, texts):
    """One command over one changed file, in an empty folder: its words and what is wrong."""
    text, said = changed(draw, draw.choice(texts))
    name = draw.choice(("job.toml", "job.toml", "a b.toml", "it's.toml", "’$(touch pwned)’.toml"))
    data = text.encode("utf-8", "surrogateescape")
    Path(name).write_bytes(data)
    typed = ""
    if command == "lumber":
        words = ["lumber", *draw.choice((["SPF"], ["SPF", "#2"], [draw.choice(HOSTILE)]))]
        words = [
            word.encode().decode("unicode_escape", "replace").replace("\0", "") for word in words
        ]
    elif command == "prove":
        words = ["prove", draw.choice((*GROUPS, *HOSTILE, *NUMBERS)), *draw.choice(OTHERS[command])]
        words = [
            word.encode().decode("unicode_escape", "replace").replace("\0", "") for word in words
        ]
    elif command == "new":
        words = ["new", draw.choice(("n.toml", "x/y.toml", "", "a" * 260 + ".toml"))]
        typed = "\n".join(draw.choice((*HOSTILE, *NUMBERS, "6 in", "2x6", "")) for _ in range(60))
    elif command == "again":
        pdf = bytearray(PDF[0])
        for _ in range(draw.randint(1, 40)):
            pdf[draw.randrange(len(pdf))] = draw.randrange(256)
        Path("s.pdf").write_bytes(bytes(pdf[: draw.choice((len(pdf), draw.randrange(len(pdf))))]))
        words = ["summary", "--again", "s.pdf"]
    else:
        words = [command, name, *draw.choice(CHECK if command == "check" else OTHERS[command])]
        if draw.random() < 0.15:
            words.append(setting(draw, texts))
    result = ran(words, draw.choice(SCREENS), draw.choice(LETTERS), typed)
    given = text + " ".join(words) + typed
    return (
        words,
        data,
        said,
        result,
        list(faults(words, given if command != "check" else text, said, result)),
    )


def setting(draw, texts):
    """A word of the line, wrong in some way."""
    key = draw.choice(KEYS)
    value = draw.choice((*NUMBERS, *HOSTILE[:8], *TYPES, "6 in", "16in", "400 psf"))
    return f"{key}={value}".encode().decode("unicode_escape", "replace").replace("\0", "")


def full_disk(draw, texts):
    """A process that may write a thousand bytes to a file: what it leaves behind."""
    words = ["summary", "job.toml", *draw.choice(OTHERS["summary"])]
    Path("job.toml").write_text(texts[draw.randrange(len(texts))], encoding="utf-8")
    done = subprocess.run(  # the typesetter's threads do not outlive a fork
        [sys.executable, "-m", "outrigger", *words],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000)),
    )
    status = done.returncode
    bad = [] if status == 2 else [f"status {status} with a full disk"]
    bad += (
        ["a part of a file left"] if [*Path().glob(".outrigger-*"), *Path().glob("out.*")] else []
    )
    return words, b"", ["full"], (status, "", "", ""), bad


def edited(draw, texts):
    """The page of `show` over a file, changed or not: fields filled with anything, a look at what
    takes longer, a save."""
    text, said = draw.choice(texts), []
    if draw.random() < 0.5:
        text, said = changed(draw, text)
    data = text.encode("utf-8", "surrogateescape")
    Path("job.toml").write_bytes(data)
    typed, wrong, page, asked = {}, [], "", 0
    try:
        with at_most(LONGEST):
            desk = Desk(Path("job.toml"), form)
            own, stamp = desk.read()
            for _ in range(3):
                found = desk.answer(own, stamp, typed)
                json.dumps(found, allow_nan=False)
                page, asked = page + found["html"], asked + 1
                if found["token"]:
                    page += desk.more(found["token"])
                own, fields = found["text"], [*found["values"]]
                if not fields:  # the file cannot be read
                    break
                typed = {draw.choice(fields): typed_text(draw) for _ in range(2)}
            desk.save(own, stamp)
    except OutriggerError as error:
        page += str(error)
    except SlowError:
        wrong.append(f"over {LONGEST} s")
    except Exception as error:
        wrong.append(f"{type(error).__name__}: {error}"[:200])
    if re.search("<script>alert|<img src=x", page):
        wrong.append("markup of the user's on the page")
    return (
        ["show", str(typed)[:200]],
        data,
        said,
        (0 if asked == 3 else 2, "", "", ""),
        wrong,
    )


def typed_text(draw):
    """What a person, or nobody, types into a field."""
    typed = draw.choice((*NUMBERS, *HOSTILE, *TYPES, "6 in", "30 psf", "yes", "none"))
    return typed.encode().decode("unicode_escape", "replace")


PDF = [b""]


OWN = {"full disk": full_disk, "show": edited}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out", type=lambda word: Path(word).resolve())
    parser.add_argument("--files", type=int, default=1000)
    parser.add_argument("--others", type=int, default=20)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--minutes", type=float, default=1e9)
    asked = parser.parse_args()
    asked.out.mkdir(parents=True, exist_ok=True)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    texts, end = files(ROOT), time.monotonic() + 60 * asked.minutes
    counts, statuses, found, slowest = Counter(), Counter(), 0, dict[str, tuple[float, int]]()
    os.chdir(asked.out)
    ran(["summary", "-o", "again.pdf", "--overwrite"], {}, "utf-8")
    PDF[0] = Path("again.pdf").read_bytes()
    rounds = {"check": asked.files, **dict.fromkeys([*OTHERS, *OWN], asked.others)}
    for command, count in rounds.items():
        if asked.only not in command:
            continue
        for i in range(count):
            if time.monotonic() > end:
                break
            draw = random.Random(f"{asked.seed} {command} {i}")
            with tempfile.TemporaryDirectory() as folder:
                os.chdir(folder)
                began = time.process_time()
                try:
                    run = OWN.get(command, partial(one_run, command=command))
                    words, data, said, result, wrong = run(draw, texts=texts)
                finally:
                    os.chdir(asked.out)
            counts[command] += 1
            statuses[command, result[0]] += 1
            took = time.process_time() - began
            slowest[command] = max(slowest.get(command, (0.0, 0)), (took, i))
            for one in wrong:
                found += 1
                kept = asked.out / f"{command.replace(' ', '_')}_{asked.seed}_{i}.toml"
                kept.write_bytes(data)
                with suppress(OSError):
                    print(
                        f"{kept.name} {said} {words}: {one}".encode(
                            "ascii", "backslashreplace"
                        ).decode(),
                        flush=True,
                    )
    for command, count in counts.items():
        left = ", ".join(
            f"{s}: {n}" for (c, s), n in sorted(statuses.items(), key=str) if c == command
        )
        print(
            f"{command:10} {count:7} runs; status {left}; slowest {slowest[command][0]:.1f} s, "
            f"number {slowest[command][1]}"
        )
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(f"{found} findings; largest memory {most:.0f} MB")


if __name__ == "__main__":
    main()
