"""Writes every output of every command, and compares two trees of them byte for byte.

    python tests/bench/golden.py write OUT [--tree CHECKOUT] [--only WORD]
    python tests/bench/golden.py compare ONE OTHER

`write` runs the program of a checkout (this one, unless --tree names another) over all examples,
the sample and the every-key files, each command and format in a process of its own. A change that
is to leave the output alone must leave `compare` with nothing to say. A bench, not a test.
"""

import argparse
import difflib
import io
import itertools
import os
import shutil
import sys
import tempfile
import traceback
from contextlib import redirect_stderr, redirect_stdout, suppress
from pathlib import Path

RUN = "layout.run=24 ft"
CASE_COMMANDS = {
    "check": ["check"],
    "check_steps": ["check", "--steps"],
    "check_json": ["check", "--json"],
    "check_csv": ["check", "--csv"],
    "check_lrfd": ["check", "basis.method=LRFD", "--json"],
    "check_lrfd_steps": ["check", "basis.method=LRFD", "--steps"],
    "check_722": ["check", "basis.loads=ASCE 7-22", "snow=30 psf", "--json"],
    "gap": ["gap"],
    "gap_asked": ["gap", "gap=8in", "--cut"],
    "gap_json": ["gap", "--json"],
    "gap_csv": ["gap", "--csv"],
    "gap_svg": ["gap", "--plot", "{out}.svg"],
    "size": ["size"],
    "size_json": ["size", "--json"],
    "reserve": ["reserve"],
    "reserve_json": ["reserve", "--json"],
    "mishaps": ["reserve", "--mishaps"],
    "mishaps_json": ["reserve", "--mishaps", "--json"],
    "compare": ["compare", "spacing=12in"],
    "card_csv": ["card", "--csv"],
    "layout": ["layout", RUN, "--pdf", "{out}.pdf", "--plan", "{out}.svg"],
    "layout_csv": ["layout", RUN, "--csv"],
    "draw": ["draw", "-o", "{out}.svg"],
    "draw_plan": ["draw", RUN, "--plan", "-o", "{out}.svg"],
    "summary_md": ["summary", "-o", "{out}.md"],
    "summary_html": ["summary", "-o", "{out}.html"],
    "summary_pdf": ["summary", "-o", "{out}.pdf"],
    "save": ["check", "gap=5in", "--save", "{out}.toml"],
}
FEW_COMMANDS = {  # slow, and the same code for every case
    "card": ["card", "--pdf", "{out}.pdf"],
    "card_back": ["card", "--back-span"],
    "card_json": ["card", "--json"],
    "gap_png": ["gap", "--plot", "{out}.png"],
    "layout_png": ["layout", RUN, "--plan", "{out}.png"],
    "draw_dxf": ["draw", "-o", "{out}.dxf"],
    "draw_pdf": ["draw", "-o", "{out}.pdf"],
    "draw_plan_dxf": ["draw", RUN, "--plan", "-o", "{out}.dxf"],
    "gap_pocket": ["gap", "--pocket", "{out}.html"],
    "summary_a4": ["summary", "--paper", "a4", "-o", "{out}.pdf"],
    "summary_lrfd": ["summary", "basis.method=LRFD", "-o", "{out}.md"],
}
FEW = ("sample", "passes", "slope_across_the_rake", "row_of_clips")
COMMANDS = (
    "check", "gap", "size", "reserve", "compare", "card", "layout", "draw", "summary", "lumber",
    "new", "prove", "show",
)  # fmt: skip
MADE = ("svg", "png", "pdf", "dxf", "md", "html", "toml")
BARE = {
    "help": ["--help"],
    **{f"help_{name}": [name, "--help"] for name in COMMANDS},
    "version": ["--version"],
    "lumber": ["lumber"],
    "prove": ["prove", "--all"],
    "unverified": ["prove", "--unverified"],
    "lumber_json": ["lumber", "--json"],
    "lumber_spf": ["lumber", "SPF"],
    "lumber_dfl_json": ["lumber", "DF-L", "--json"],
    "lumber_syp": ["lumber", "SYP", "#2"],
    "lumber_msr": ["lumber", "SPF", "1800f-1.5E"],
    "lumber_vague": ["lumber", "pine"],
    "schema": ["new", "--schema"],
    "new": ["new", "{out}.toml"],
    "bad_unit": ["check", "gap=6"],
    "bad_key": ["check", "gapp=6in"],
    "bad_size": ["check", "size=2x7"],
    "bad_file": ["check", "nowhere.toml"],
}
WIDE_AND_NARROW = ("check", "check_steps", "gap", "size", "reserve", "mishaps", "compare", "layout")


def jobs(tree):
    """Name, words and width of each run; {out} stands for the file it writes."""
    cases = {"sample": None}
    for path in sorted((tree / "examples").glob("*.toml")):
        cases[path.stem] = path
    for folder in ("tests/data", "tests/data/cases"):
        for path in sorted((tree / folder).glob("*.toml")):
            cases[path.stem] = path
    found = []
    for (case, path), (name, words) in itertools.product(
        cases.items(), (CASE_COMMANDS | FEW_COMMANDS).items()
    ):
        if name in FEW_COMMANDS and case not in FEW:
            continue
        given = [words[0], *([f"{case}.toml"] if path else []), *words[1:]]
        found.append((f"{case}.{name}", given, 80))
        if name in WIDE_AND_NARROW:
            found.append((f"{case}.{name}.40", given, 40))
    found += [(f"bare.{name}", words, 80) for name, words in BARE.items()]
    return cases, found


def run_one(name, words, width, folder, out):
    """One command in a forked process, in `folder`; what it says and writes goes to `out`."""
    pid = os.fork()
    if pid:
        return os.waitpid(pid, 0)[1]
    try:
        os.chdir(folder)
        os.environ["COLUMNS"] = str(width)
        os.environ.pop("CI", None)
        target = str(out / name)
        sys.argv = ["outrigger", *(w.replace("{out}", "made_" + name) for w in words)]
        said, faults, status = io.StringIO(), io.StringIO(), 0
        with redirect_stdout(said), redirect_stderr(faults):
            try:
                from outrigger.__main__ import main

                main()
            except SystemExit as left:
                status = left.code
            except BaseException:
                traceback.print_exc()
                status = "traceback"
        parts = [f"exit {status}\n", said.getvalue(), "\n--- stderr\n", faults.getvalue()]
        Path(target + ".txt").write_text("".join(parts), encoding="utf-8")
        for made in Path().glob(f"made_{name}.*"):
            if made.name.removeprefix(f"made_{name}.") in MADE:
                shutil.move(made, out / made.name)
        os._exit(0)
    except BaseException:
        traceback.print_exc()
        os._exit(1)


def write(out, tree, only):
    """Run everything; two at a time, each worker process forking from warm imports."""
    out.mkdir(parents=True, exist_ok=True)
    sys.path.insert(0, str(tree))
    import matplotlib.figure  # noqa: F401  warm, so that forks need not import it again
    import sympy  # noqa: F401
    import typst  # noqa: F401

    import outrigger

    print(f"program: {Path(outrigger.__file__).parent}")
    cases, found = jobs(tree)
    found = [job for job in found if only in job[0]]
    with tempfile.TemporaryDirectory() as folder:
        for case, path in cases.items():
            if path:
                shutil.copy(path, Path(folder) / f"{case}.toml")
        shares = [found[i::2] for i in range(2)]
        workers = []
        for share in shares:
            pid = os.fork()
            if not pid:
                import importlib

                for module in ("outrigger.cli", "outrigger.cli.app"):  # warm
                    with suppress(ImportError):
                        importlib.import_module(module)
                bad = sum(bool(run_one(*job, folder, out)) for job in share)
                os._exit(min(bad, 100))
            workers.append(pid)
        failed = [os.waitpid(pid, 0)[1] for pid in workers]
    print(
        f"{len(found)} runs, {len(list(out.iterdir()))} files; {sum(map(bool, failed))} bad workers"
    )


def compare(one, other):
    """What differs between two folders; the number of files that do."""
    names = sorted({p.name for p in one.iterdir()} | {p.name for p in other.iterdir()})
    moved = 0
    for name in names:
        a, b = one / name, other / name
        if not a.exists() or not b.exists():
            print(f"only in {one if a.exists() else other}: {name}")
            moved += 1
        elif a.read_bytes() != b.read_bytes():
            moved += 1
            print(f"differs: {name}")
            if moved <= 12 and name.rpartition(".")[2] in ("txt", "md", "svg", "html", "toml"):
                lines = [p.read_text(encoding="utf-8").splitlines() for p in (a, b)]
                for line in itertools.islice(difflib.unified_diff(*lines, n=0, lineterm=""), 2, 14):
                    print("   ", line[:200])
    print(f"{len(names)} files, {moved} differ")
    return moved


def main():
    """Read the words of the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    doing = parser.add_subparsers(dest="what", required=True)
    writing = doing.add_parser("write")
    writing.add_argument("out", type=Path)
    writing.add_argument("--tree", type=Path, default=Path(__file__).parents[2])
    writing.add_argument("--only", default="")
    comparing = doing.add_parser("compare")
    comparing.add_argument("one", type=Path)
    comparing.add_argument("other", type=Path)
    asked = parser.parse_args()
    if asked.what == "write":
        write(asked.out.resolve(), asked.tree.resolve(), asked.only)
    else:
        sys.exit(1 if compare(asked.one, asked.other) else 0)


if __name__ == "__main__":
    main()
