"""Workbooks read, changed and recalculated by programs that did not write them."""

import re
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest
from python_calamine import CalamineWorkbook

# every number anew on opening: else what the file says would be read back
ALWAYS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def read(path):
    """Every sheet of a workbook, rows of values, by name."""
    book = CalamineWorkbook.from_path(str(path))
    return {
        name: book.get_sheet_by_name(name).to_python(skip_empty_area=False)
        for name in book.sheet_names
    }


def recalculated(paths, folder):
    """The workbooks as LibreOffice computes them anew, by name; skips where there is none."""
    office = shutil.which("soffice") or shutil.which("libreoffice")
    if office is None:
        pytest.skip("no LibreOffice on this machine: install libreoffice-calc to run this")
    profile, out = folder / "profile", folder / "again"
    (profile / "user").mkdir(parents=True)
    (profile / "user" / "registrymodifications.xcu").write_text(ALWAYS, encoding="utf-8")
    subprocess.run(
        [office, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "xlsx",
         "--outdir", str(out), *map(str, paths)],
        check=True, capture_output=True, timeout=600,
    )  # fmt: skip
    return {Path(path).stem: read(out / Path(path).name) for path in paths}


def changed(path, to, cells):
    """A copy of a workbook with other numbers in column C of its sheet of inputs, by row from 0."""
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name).decode() if name.endswith(".xml") else old.read(name)
            if name == "xl/worksheets/sheet2.xml":
                for row, value in cells.items():
                    cell = rf'(<c r="C{row + 1}"[^>]*>)(?:<f>[^<]*</f>)?<v>[^<]*(</v>)'
                    data, count = re.subn(cell, rf"\g<1><v>{value!r}\g<2>", data)
                    assert count == 1
            new.writestr(name, data)
    return to


def table(rows, head):
    """The rows under a heading whose first cell is so, each as a dictionary, up to an empty one."""
    at = next(i for i, row in enumerate(rows) if row[0] == head)
    found = []
    for row in rows[at + 1 :]:
        if not row[0]:
            break
        found.append(dict(zip(rows[at], row, strict=False)))
    return found


def inputs(rows):
    """The inputs: row from 0, symbol, value, unit, key."""
    return [
        (i, row[0], row[2], row[3], row[10])
        for i, row in enumerate(rows)
        if i > 5 and row[0] and isinstance(row[2], float)
    ]
