"""Changes one token of the core at a time and asks whether a test notices. A script, run by hand:

    python tests/bench/mutate.py trace WORK    # once: a copy of the tree; who runs which line
    python tests/bench/mutate.py run WORK --changes 600 --cells 100 --seed 1 [--only checks/]
    python tests/bench/mutate.py one WORK FILE LINE [--changes 99]     # the changes of one line
    python tests/bench/mutate.py show WORK     # what lived, and how many were caught by folder

The worktree is never touched: WORK holds a copy. `trace` runs the tests with coverage, each test a
context of its own. `run` forks from a process that has the program and its tests loaded; each child
puts the changed function in place, and runs the tests that ran that line, quickest first, until one
fails. What lives a few of them is asked whether it moves any number of some hundred designs
(mutate_numbers.py), and then of every test that ran the line, what moves a number first; where
there is nothing to put in place, in a fork that imports the program as it was changed. Only the
tests of TESTS count: what is noticed by words alone, in README or on a page, is not counted on. A
cell of a table changes by 5 % to the side that is unsafe; its tests are those of the tables, and
those that ran a line which names the table.
"""

import argparse
import json
import os
import random
import re
import shutil
import signal
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from mutate_changes import cells_of, changes_of, place_of, reads
from mutate_in_place import InPlace, quiet
from mutate_numbers import digests, moved

ROOT = Path(__file__).parents[2]
FOLDERS = ("wood", "loads", "fasteners", "statics", "actions", "checks", "marks", "verdict")
# what holds numbers to something outside, quick ones of other folders, but no test of words alone
TESTS = (
    "standards",
    "tables",
    "statics",
    "by_hand",
    "laws",
    "cases/test_case_not_given.py",
    "cases/test_keys.py",
    "library/test_batch.py",
    "commands/test_one_snow.py",
    "commands/test_insulation.py",
    "commands/test_cannot_say.py",
    "commands/test_cautions.py",
    "commands/test_start.py",
    "commands/test_short_back_spans.py",
    "report/test_design_loads.py",
    "report/test_provenance.py",
)
QUICK, EVERY = 1.5, float("inf")  # seconds of tests: of every change; of what lived
WHOLE_DESIGNS = ("second_program", "by_hand")  # tests of whole designs, which see the most
LONGEST = 600  # seconds of a clock for one test: what hangs is noticed too
ALIKE = 3  # parameters of one test that come before all others
HEAVY = (
    "numpy",
    "sympy",
    "pydantic",
    "matplotlib",
    "matplotlib.figure",
    "matplotlib.backends.backend_svg",
    "typer",
    "tabulate",
    "tomlkit",
    "jinja2",
    "ezdxf",
    "fontTools.ttLib",
    "typst",
    "pypdf",
    "xlsxwriter",
    "openpyxl",
    "hypothesis",
    "hypothesis.extra.numpy",
    "pytest",
    "_pytest.assertion.rewrite",
    "jsonschema",
    "python_calamine",
)
SAID = {
    "numbers": "Move a number, and no test notices",
    "words": "Move words alone in all the designs",
    "nothing": "Move nothing in any of the designs",
    "": "Not asked yet what they move",
}
LOADED = "filterwarnings=error\nignore::pytest.PytestAssertRewriteWarning"  # hypothesis, before it
PYTEST = ("-q", "-p", "no:xdist", "-p", "no:cacheprovider", "-o", "addopts=", "--no-header")


class Trace:
    """A plugin of pytest: each test a context of the coverage, and the seconds it took."""

    def __init__(self, cover):
        self.cover, self.seconds, self.began = cover, {}, 0.0
        self.failed = set()

    def pytest_collectstart(self, collector):
        self.cover.switch_context(f"import {collector.nodeid}")

    def pytest_runtest_logstart(self, nodeid):
        self.cover.switch_context(nodeid)
        self.began = time.process_time()

    def pytest_runtest_logfinish(self, nodeid):
        self.seconds[nodeid] = time.process_time() - self.began

    def pytest_runtest_logreport(self, report):
        if report.failed:
            self.failed.add(report.nodeid)


class Chosen:
    """A plugin of pytest: only these tests, in this order; the first that failed."""

    def __init__(self, nodeids):
        self.order = {nodeid: i for i, nodeid in enumerate(nodeids)}
        self.failed = ""

    def pytest_collection_modifyitems(self, items):
        items[:] = sorted(
            (item for item in items if item.nodeid in self.order),
            key=lambda item: self.order[item.nodeid],
        )

    def pytest_runtest_logstart(self, nodeid):
        signal.alarm(LONGEST)

    def pytest_runtest_logreport(self, report):
        if report.failed and not self.failed:
            self.failed = report.nodeid

    def pytest_collectreport(self, report):
        if report.failed and not self.failed:
            self.failed = f"import {report.nodeid}"


def in_copy(tree):
    """This process works in the copy from now on."""
    os.chdir(tree)
    sys.path[:0] = [str(tree), str(tree / "tests" / "helpers")]
    os.environ["PYTHONPATH"] = str(tree)


def trace(work):
    """Copy the tree; run every test once with coverage, and keep who ran which line."""
    import coverage
    import pytest

    tree = work / "tree"
    work.mkdir(parents=True, exist_ok=True)
    shutil.rmtree(tree, ignore_errors=True)
    skipped = shutil.ignore_patterns(".git", "*_cache", "__pycache__", ".hypothesis")
    shutil.copytree(ROOT, tree, ignore=skipped)
    in_copy(tree)
    cover = coverage.Coverage(
        data_file=None, branch=False, config_file=False, include=[f"{tree}/outrigger/*"]
    )
    plugin = Trace(cover)
    cover.start()
    pytest.main([*PYTEST, "--durations=15", *(f"tests/{name}" for name in TESTS)], plugins=[plugin])
    cover.stop()
    data = cover.get_data()
    names, lines = {}, {}
    for file in data.measured_files():
        of_file = lines[str(Path(file).relative_to(tree))] = {}
        for line, contexts in data.contexts_by_lineno(file).items():
            of_file[line] = [names.setdefault(one, len(names)) for one in contexts if one]
    seconds = {one: took for one, took in plugin.seconds.items() if one not in plugin.failed}
    kept = {"names": list(names), "lines": lines, "seconds": seconds}
    (work / "trace.json").write_text(json.dumps(kept), encoding="utf-8")


class Traced:
    """Which tests ran which line."""

    def __init__(self, work):
        self.tree = work / "tree"
        read = json.loads((work / "trace.json").read_text(encoding="utf-8"))
        self.names, self.seconds = read["names"], read["seconds"]
        self.lines = {f: {int(n): c for n, c in of.items()} for f, of in read["lines"].items()}
        self.of_file = defaultdict(list)
        for nodeid in self.seconds:
            self.of_file[file_of(nodeid)].append(nodeid)

    def tests(self, file, lines):
        """The tests that ran one of these lines, while they ran or while they were imported."""
        found = set()
        of_file = self.lines.get(file, {})
        for name in {self.names[one] for line in lines for one in of_file.get(line, ())}:
            if name.startswith("import "):
                found.update(self.of_file.get(name[7:], ()))
            else:
                found.add(name)
        return sorted((one for one in found if one in self.seconds), key=self.seconds.__getitem__)

    def _readers(self, table):
        """The tests that ran a line which names a table, or, named apart, the module that does."""
        for file in self.lines:
            rows = (self.tree / file).read_text(encoding="utf-8").splitlines()
            at = [i for i, row in enumerate(rows, 1) if re.search(rf"\b{table}\b", row)]
            yield from self.tests(file, at) or (self.tests(file, self.lines[file]) if at else ())

    def near(self, change):
        """The tests of a change: of its lines, else of its function, else of its whole module."""
        if change.file.endswith(".csv"):
            read = set(self._readers(Path(change.file).stem))
            return [one for one in self.seconds if one.startswith("tests/tables/") or one in read]
        for lines in (change.lines, change.body, self.lines.get(change.file, {})):
            if found := self.tests(change.file, lines):
                return found
        return []


def file_of(nodeid):
    """The file of a test."""
    return nodeid.partition("::")[0]


def budgeted(tests, seconds, limit):
    """The tests that fit into so many seconds, in their order; one that is longer than that alone,
    where there is no other."""
    taken, total, tests = [], 0.0, list(tests)
    for one in tests:
        if total + seconds[one] <= limit:
            total += seconds[one]
            taken.append(one)
    return taken or sorted(tests, key=seconds.__getitem__)[:1]


def few_alike(tests):
    """Of each test the first few of its parameters."""
    seen = Counter()
    for one in tests:
        name = one.partition("[")[0]
        seen[name] += 1
        if seen[name] <= ALIKE:
            yield one


def ran_tests(tests):
    """Run tests; the one that failed, empty where none did."""
    import pytest

    plugin = Chosen(tests)
    files = list(dict.fromkeys(map(file_of, tests)))
    status = pytest.main(["-x", "-o", LOADED, *PYTEST, *files], plugins=[plugin])
    return plugin.failed or ("" if status == 0 else "?")


def forked(tree, change, function, *given):
    """What a function returns in a fork that imports the program as it was changed (None: as it
    is); words where it came to no end."""
    told = tree.parent / "told"
    told.unlink(missing_ok=True)
    path = tree / (change.file if change else "outrigger/__init__.py")
    before = path.read_bytes()
    cached = path.parent / "__pycache__" / f"{path.stem}.{sys.implementation.cache_tag}.pyc"
    cached.unlink(missing_ok=True)
    try:
        if change:
            path.write_text(change.text, encoding="utf-8")
        pid = os.fork()
        if pid == 0:
            try:
                quiet(LONGEST)
                sys.dont_write_bytecode = True
                in_copy(tree)
                told.write_text(json.dumps(function(*given)))
            finally:
                os._exit(0)
        os.waitpid(pid, 0)
    finally:
        path.write_bytes(before)
    return json.loads(told.read_text()) if told.exists() else "did not end"


def warm():
    """Load what is large once; do not shrink what hypothesis finds: one failure is enough."""
    import importlib

    for name in HEAVY:
        importlib.import_module(name)
    from hypothesis.internal.conjecture.engine import ConjectureRunner

    ConjectureRunner.shrink_interesting_examples = lambda self: None


def run(work, chosen):
    """Try changes and keep what came of each in WORK/results.jsonl."""
    traced, tree = Traced(work), work / "tree"
    warm()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # what was changed is put back
    known = {(one.file, place_of(one), one.what): one for one in chosen if reads(one)}

    def lived():
        return [one for one in results(work) if not one["by"] and key_of(one) in known]

    def alone(one, tests, every):
        by = forked(tree, known[key_of(one)], ran_tests, tests) if tests else ""
        keep(work, one | {"by": by, "run": len(tests), "every": every})

    done = {key_of(one) for one in results(work)}
    in_place(work, [change for key, change in known.items() if key not in done], traced, QUICK)
    for one in lived():
        if one["file"].endswith(".csv") and "moves" not in one:  # a test module may have read it
            near = traced.near(known[key_of(one)])
            alone(one, [test for test in near if test.startswith("tests/tables/")], False)
    before = None
    for one in lived():
        if "moves" not in one:
            before = before or forked(tree, None, digests)
            keep(work, one | {"moves": forked(tree, known[key_of(one)], moved, before)})
    for what in ("numbers", "words", "nothing"):
        some = [one for one in lived() if one["moves"] == what and not one["every"]]
        here = [known[key_of(one)] for one in some if not one["whole"]]
        in_place(work, here, traced, EVERY)
        for one in some:
            if one["whole"]:  # there is nothing to put in place
                alone(one, traced.near(known[key_of(one)]), True)
    show(work)


def in_place(work, changes, traced, seconds):
    """Try changes with so many seconds of tests, in a process that has everything loaded."""
    pid = os.fork() if changes else 0
    if changes and not pid:
        try:
            try_in_place(work, changes, traced, seconds)
        finally:
            os._exit(0)
    elif changes:
        os.waitpid(pid, 0)


def try_in_place(work, changes, traced, seconds):
    """Try changes with the program and all its tests loaded once."""
    import pytest

    tree = work / "tree"
    earlier = {key_of(one): one for one in results(work)}

    def tell(change, by, asked, took, whole):
        one = {"file": change.file, "place": place_of(change), "what": change.what}
        one = earlier.get(key_of(one), {}) | one
        one |= {"code": change.code, "by": by, "run": asked, "tests": len(traced.near(change))}
        every = seconds == EVERY and not whole
        keep(work, one | {"seconds": round(took, 1), "whole": whole, "every": every})

    def choose(change):
        return chosen_tests(change, traced, seconds)

    in_copy(tree)
    plugin = InPlace(tree, changes, choose, tell, LONGEST)
    named = [f"tests/{name}" for name in TESTS]
    pytest.main(["-s", "-o", LOADED, *PYTEST, *named], plugins=[plugin])


def chosen_tests(change, traced, seconds):
    """The tests of a change: those of a file of a like name first, then the quickest, of each a
    few; where there is time, of the others those of whole designs first."""
    named = set(re.split(r"[/_.]", change.file))
    named -= {"outrigger", "py", "csv", "species", "tables"}
    cell = change.file.endswith(".csv")

    def order(one):
        near = cell and one.startswith("tests/tables/")  # the values as printed
        far = not near and not named & set(re.split(r"[/_.]", file_of(one)))
        whole = seconds > QUICK and any(word in one for word in WHOLE_DESIGNS)
        return far, far and not whole, traced.seconds[one]

    tests = sorted(traced.near(change), key=order)
    return budgeted(dict.fromkeys([*few_alike(tests), *tests]), traced.seconds, seconds)


def key_of(result):
    """What tells a change from others."""
    return result["file"], result["place"], result["what"]


def keep(work, result):
    """Write what came of a change; a later line stands for an earlier one."""
    with (work / "results.jsonl").open("a", encoding="utf-8") as file:
        file.write(json.dumps(result) + "\n")


def results(work):
    """What was tried so far."""
    kept = work / "results.jsonl"
    lines = kept.read_text(encoding="utf-8").splitlines() if kept.exists() else []
    return list({key_of(one): one for one in map(json.loads, lines)}.values())


def show(work):
    """What lived, by what it moves, and how many were caught in each folder."""
    folders = defaultdict(lambda: [0, 0])
    every, lived = results(work), defaultdict(list)
    for one in every:
        folders["/".join(Path(one["file"]).parts[:2])][bool(one["by"])] += 1
        if not one["by"]:
            lived[one.get("moves", "")].append(one)
    for name, (alive, caught) in sorted(folders.items()):
        print(f"{name:28} {caught:5} caught {alive:4} lived")
    for what, said in SAID.items():
        print(f"\n{said}: {len(lived[what])}")
        for one in lived[what]:
            asked = "" if one["every"] else f"  ({one['run']} of {one['tests']} tests)"
            print(f"{one['file']}:{one['place']}: {one['what']}  | {one['code']}{asked}")
    caught = sum(bool(one["by"]) for one in every)
    same = len(lived["words"]) + len(lived["nothing"])
    print(f"\n{caught} of {len(every)} caught, {100 * caught / max(1, len(every)):.1f} %; of those")
    print(f"that move a number {100 * caught / max(1, len(every) - same):.1f} %")


def drawn(tree, count, cells, seed, only):
    """Changes by chance, spread over the modules by their length; cells over the tables."""
    draw = random.Random(seed)
    modules = [
        str(path.relative_to(tree))
        for folder in FOLDERS
        for path in sorted((tree / "outrigger" / folder).rglob("*.py"))
    ]
    every = [one for name in modules if only in name for one in changes_of(tree, name)]
    tables = [
        one
        for path in sorted((tree / "species_tables").rglob("*.csv"))
        if only in str(path)
        for one in spread(draw, cells_of(tree, str(path.relative_to(tree))), max(3, cells // 30))
    ]
    some = spread(draw, every, count) + spread(draw, tables, cells)
    draw.shuffle(some)  # what is tried by then is a sample too
    return some


def spread(draw, some, count):
    """So many of some, by chance."""
    return draw.sample(some, min(count, len(some)))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("what", choices=("trace", "run", "one", "show"))
    parser.add_argument("work", type=lambda word: Path(word).resolve())
    parser.add_argument("place", nargs="*")
    parser.add_argument("--changes", type=int, default=600)
    parser.add_argument("--cells", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="")
    asked = parser.parse_args()
    tree = asked.work / "tree"
    if asked.what == "trace":
        trace(asked.work)
    elif asked.what == "show":
        show(asked.work)
    elif asked.what == "one":
        file, line = asked.place
        at = [one for one in changes_of(tree, file) if one.line == int(line)]
        run(asked.work, at[: asked.changes])
    else:
        run(asked.work, drawn(tree, asked.changes, asked.cells, asked.seed, asked.only))


if __name__ == "__main__":
    main()
