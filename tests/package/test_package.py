"""The package: imports point left only, start-up stays light, a wheel carries its tables."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

from outrigger.base import tables
from outrigger.proof.recorded import recorded

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "outrigger"

ORDER = [
    "base", "formula", "statics", "wood", "loads", "fasteners", "cases", "actions", "marks",
    "checks", "verdict", "layout", "studies", "proof", "report", "page", "library", "cli",
    "__main__",
]  # fmt: skip


def modules():
    return sorted(PACKAGE.rglob("*.py"))


def imported(path):
    """Folders of the package that a file imports from."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "outrigger":
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("outrigger."):
            yield node.module.split(".")[1]


def own_folder(path):
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_point_left(path):
    name = own_folder(path)
    if name == "__init__":  # the library's names, for readers of types; loaded on use
        assert set(imported(path)) == {"library"}
        return
    for other in imported(path):
        if other != "__version__":
            assert ORDER.index(other) <= ORDER.index(name), f"{name} imports {other}, to its right"


def test_every_folder_says_what_it_holds_and_may_import():
    for folder in {path.parent for path in modules()} - {PACKAGE}:
        words = (folder / "__init__.py").read_text(encoding="utf-8")
        assert "May import" in words and len(words.splitlines()) <= 5, folder


def test_statics_imports_nothing_of_ours():
    for path in (PACKAGE / "statics").glob("*.py"):
        assert not [other for other in imported(path) if other != "statics"]


def test_start_up_loads_neither_algebra_nor_drawing():
    code = (
        "import sys\nfrom outrigger.cli.app import app_of\napp_of([])\n"
        "print([m for m in ('sympy', 'matplotlib', 'starlette', 'uvicorn') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize(("set_to", "is_then"), [(None, "1"), ("2", "2")])
def test_a_command_keeps_to_one_thread_unless_told(set_to, is_then):
    env = {k: v for k, v in os.environ.items() if k != "OPENBLAS_NUM_THREADS"}
    env |= {} if set_to is None else {"OPENBLAS_NUM_THREADS": set_to}
    code = (
        "import os, sys; sys.argv = ['outrigger', '--version']\n"
        "from outrigger.__main__ import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        "print(os.environ['OPENBLAS_NUM_THREADS'])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env
    )
    assert done.stdout.split()[-1] == is_then


def run(*arguments, **options):
    return subprocess.run(
        [str(a) for a in arguments], capture_output=True, text=True, check=True, **options
    )


@pytest.mark.parametrize("kind", ["wheel", "wheel from sdist"])
def test_runs_from_a_wheel_in_an_empty_folder(kind, tmp_path):
    """Built without the network; the installed copy, not this tree, answers."""
    dist, site, empty = tmp_path / "dist", tmp_path / "site", tmp_path / "empty"
    empty.mkdir()
    build = [sys.executable, "-m", "hatchling", "build", "-d", dist]
    if kind == "wheel":
        run(*build, "-t", "wheel", cwd=ROOT)
    else:
        run(*build, "-t", "sdist", cwd=ROOT)
        (packed,) = dist.glob("*.tar.gz")
        run(sys.executable, "-m", "tarfile", "-e", packed, tmp_path)
        (tree,) = (p for p in tmp_path.glob("outrigger-*") if p.is_dir())
        run(*build, "-t", "wheel", cwd=tree)
    (wheel,) = dist.glob("*.whl")
    install = [sys.executable, "-m", "pip", "install", "--no-deps", "--no-index", "--quiet"]
    run(*install, "--target", site, wheel)
    here = dict(os.environ, PYTHONPATH=str(site))
    carried = (site / "outrigger" / "species_tables").rglob("*.csv")
    assert sorted(p.stem for p in carried) == sorted(tables.files())
    code = "import outrigger; print(outrigger.__file__)"
    assert str(site) in run(sys.executable, "-c", code, cwd=empty, env=here).stdout
    data = [p for p in (PACKAGE / "proof" / "data").rglob("*") if p.is_file()]
    assert all((site / p.relative_to(ROOT)).exists() for p in data) and len(data) > 30
    done = run(sys.executable, "-m", "outrigger", "prove", cwd=empty, env=here)
    assert f"eproduces {recorded().values:,} published values" in done.stdout
    done = run(sys.executable, "-m", "outrigger", "lumber", "SPF", "#2", cwd=empty, env=here)
    assert "No. 1/No. 2" in done.stdout
    assert (site / "outrigger" / "py.typed").exists()
    assert (site / "bin" / "outrigger").exists() or (site / "Scripts").exists()


def test_what_a_record_works_out_once_it_can_keep():
    """A record without a dict of its own would stop at the first use of such a property."""
    found = 0
    for path in modules():
        for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(one, ast.ClassDef):
                once = ast.unparse(one).count("@cached_property")
                found += once
                record = any(word.arg == "frozen" for word in one.keywords)
                kept = any(word.arg == "dict" for word in one.keywords)
                assert not (once and record) or kept, f"{path}: {one.name} lacks dict=True"
    assert found > 50
