"""The lines of Python in README run as they stand, and print what stands under them."""

import contextlib
import io
import re
import shutil
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_lines_from_python_print_what_stands_under_them(tmp_path, monkeypatch):
    section = (ROOT / "README.md").read_text(encoding="utf-8").split("## From Python")[1]
    code, printed = (
        re.search(rf"```{kind}\n(.*?)```", section, re.S)[1] for kind in ("python", "text")
    )
    (tmp_path / "examples").mkdir()
    shutil.copy(ROOT / "examples" / "passes.toml", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(code, "README", "exec"), {})
    assert said.getvalue() == printed
    assert (tmp_path / "job.pdf").read_bytes().startswith(b"%PDF")
