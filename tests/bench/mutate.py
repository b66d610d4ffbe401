"""Changes one token of the core at a time and asks whether a test notices. A script, run by hand:

    python tests/bench/mutate.py trace WORK    # once: a copy of the tree; who runs which line
    python tests/bench/mutate.py run WORK --changes 600 --cells 100 --seed 1 [--only checks/]
    python tests/bench/mutate.py one WORK FILE LINE [--changes 99]     # the changes of one line
    python tests/bench/mutate.py show WORK     # what lived, and how many were caught by folder

The worktree is never touched: WORK holds a copy. `trace` runs the tests with coverage, each test a
context of its own. `run` forks from a process that has the program and its tests loaded; each child
puts the changed function in place, and runs the tests that ran that line, quickest first, until one
fails. What lives is tried again in a fork that imports the program as it was changed. Only the
tests of TESTS count: what is noticed by words alone, in README or on a page, is not counted on. A
cell of a table changes by 5 % to the side that is unsafe; its tests are those of the tables, and
those that ran a line which names the table.
"""

import argparse
import json
import os
import random
import re
import resource
import shutil
import signal
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from mutate_changes import cells_of, changes_of, place_of, reads

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
ROUNDS = ((4, 3.0), (16, 5.0), (999, 10.0))  # test files of each round, and seconds of their tests
IN_PLACE = (1.5, 30.0)  # seconds of tests with everything loaded: of every change; of what lived
WHOLE_DESIGNS = ("second_program", "by_hand")  # tests of whole designs, which see the most
ALIKE = 3  # parameters of one test that all but the last round take
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
        self.wide = Counter(
            file
            for of in self.lines.values()
            for contexts in of.values()
            for file in {file_of(self.names[one]) for one in contexts}
        )

    def rounds(self, tests):
        """Tests in rounds: first those of the files that run least else of the core, which load
        quickest and look closest; of each file the quickest first. The last round takes what the
        others left out."""
        order = sorted(tests, key=lambda one: (self.wide[file_of(one)], self.seconds[one]))
        waiting, taken = list(dict.fromkeys(map(file_of, order))), set()
        for count, seconds in ROUNDS:
            named, waiting = waiting[:count], waiting[count:]
            last = count == ROUNDS[-1][0]
            left = [one for one in order if one not in taken and (last or file_of(one) in named)]
            some = budgeted(left if last else few_alike(left), self.seconds, seconds)
            taken.update(some)
            yield some

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


def child(tree, tests):
    """In a fork: the tests run. Leaves the name of the one that failed."""
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    signal.alarm(600)  # what hangs is noticed too
    resource.setrlimit(resource.RLIMIT_AS, (8 << 30, 8 << 30))
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)
    sys.dont_write_bytecode = True
    in_copy(tree)
    import pytest

    plugin = Chosen(tests)
    files = list(dict.fromkeys(map(file_of, tests)))
    status = pytest.main(["-x", "-o", LOADED, *PYTEST, *files], plugins=[plugin])
    (tree.parent / "failed").write_text(plugin.failed or ("" if status == 0 else "?"))
    os._exit(0 if status == 0 else 1)


def noticed(tree, tests):
    """The test that noticed a change, empty where none did."""
    pid = os.fork()
    if pid == 0:
        try:
            child(tree, tests)
        finally:
            os._exit(3)
    _, status = os.waitpid(pid, 0)
    if os.WIFSIGNALED(status):
        return "did not end"
    if os.WEXITSTATUS(status) == 3:
        return "did not start"
    return (tree.parent / "failed").read_text()


def tried(tree, change, traced):
    """One change in the copy, by itself: the test that noticed, and how many were run."""
    path = tree / change.file
    before = path.read_bytes()
    cached = path.parent / "__pycache__" / f"{path.stem}.{sys.implementation.cache_tag}.pyc"
    cached.unlink(missing_ok=True)
    by, asked = "", 0
    try:
        path.write_text(change.text, encoding="utf-8")
        for some in traced.rounds(traced.near(change)):
            if some and not by:
                by, asked = noticed(tree, some), asked + len(some)
    finally:
        path.write_bytes(before)
    return by, asked


def warm():
    """Load what is large once; do not shrink what hypothesis finds: one failure is enough."""
    import importlib

    for name in HEAVY:
        importlib.import_module(name)
    from hypothesis.internal.conjecture.engine import ConjectureRunner

    ConjectureRunner.shrink_interesting_examples = lambda self: None


def run(work, chosen):
    """Try changes and keep what came of each in WORK/results.jsonl: all of them in place, in a
    process with everything loaded; then those that lived by themselves."""
    traced, tree = Traced(work), work / "tree"
    warm()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # what was changed is put back
    done = {key_of(one) for one in results(work)}
    lived = {key_of(one) for one in results(work) if not one["by"]}
    known = {(one.file, place_of(one), one.what): one for one in chosen if reads(one)}
    for asked, seconds in (({*known} - done, IN_PLACE), (lived & {*known}, IN_PLACE[1:])):
        waiting = [change for key, change in known.items() if key in asked]
        pid = os.fork() if waiting else 0
        if waiting and not pid:
            try:
                in_place(work, waiting, traced, seconds)
            finally:
                os._exit(0)
        elif waiting:
            os.waitpid(pid, 0)
    # of a function: all its tests were asked by then; of a module or a table: by itself
    lived = {key_of(one): one for one in results(work) if one["by"] == "" and one["whole"]}
    lived = {key: one for key, one in lived.items() if not one["alone"]}
    for change in chosen:
        one = lived.get((change.file, place_of(change), change.what))
        if one is not None:
            by, asked = tried(tree, change, traced)
            keep(work, one | {"by": by, "run": one["run"] + asked, "alone": True})
    show(work)


def in_place(work, changes, traced, seconds):
    """Try changes with the program and all its tests loaded once."""
    import pytest
    from mutate_in_place import InPlace

    def choose(change, seconds):
        """Its tests: those of a file of a like name first, then the quickest, of each a few; where
        there is time, of the others those of whole designs first."""
        named = set(re.split(r"[/_.]", change.file)) - {
            "outrigger",
            "py",
            "csv",
            "species",
            "tables",
        }

        cell = change.file.endswith(".csv")

        def order(one):
            near = cell and one.startswith("tests/tables/")  # the values as printed
            far = not near and not named & set(re.split(r"[/_.]", file_of(one)))
            whole = seconds > IN_PLACE[0] and any(word in one for word in WHOLE_DESIGNS)
            return far, far and not whole, traced.seconds[one]

        tests = sorted(traced.near(change), key=order)
        some = list(few_alike(tests))
        return budgeted(dict.fromkeys([*some, *tests]), traced.seconds, seconds)

    def tell(change, by, asked, seconds, whole):
        one = {"file": change.file, "place": place_of(change), "what": change.what}
        one |= {"code": change.code, "by": by, "run": asked, "tests": len(traced.near(change))}
        keep(work, one | {"seconds": round(seconds, 1), "whole": whole, "alone": False})

    tree = work / "tree"
    in_copy(tree)
    plugin = InPlace(tree, changes, seconds, choose, tell)
    named = [f"tests/{name}" for name in TESTS]
    pytest.main(["-s", "-o", LOADED, *PYTEST, *named], plugins=[plugin])


def key_of(result):
    """What tells a change from others."""
    return result["file"], result["place"], result["what"]


def keep(work, result):
    """Write what came of a change, and say what lived; a later line stands for an earlier one."""
    with (work / "results.jsonl").open("a", encoding="utf-8") as file:
        file.write(json.dumps(result) + "\n")
    if not result["by"]:
        print("alone:" if result["alone"] else "in place:", said(result), flush=True)


def results(work):
    """What was tried so far."""
    kept = work / "results.jsonl"
    lines = kept.read_text(encoding="utf-8").splitlines() if kept.exists() else []
    return list({key_of(one): one for one in map(json.loads, lines)}.values())


def said(result):
    """One change in a line."""
    return (
        f"{result['file']}:{result['place']}: {result['what']}  | {result['code']}  "
        f"({result['run']} of {result['tests']} tests)"
    )


def show(work):
    """What lived, and how many were caught in each folder."""
    folders = defaultdict(lambda: [0, 0])
    tables = results(work)
    for one in tables:
        folders["/".join(Path(one["file"]).parts[:2])][bool(one["by"])] += 1
        if not one["by"]:
            print(said(one))
    for name, (lived, caught) in sorted(folders.items()):
        print(f"{name:28} {caught:5} caught {lived:4} lived")
    caught = sum(bool(one["by"]) for one in tables)
    print(f"{caught} of {len(tables)} caught, {100 * caught / max(1, len(tables)):.1f} %")


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
