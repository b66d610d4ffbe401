"""Files that commands read and write: what is read is never written over, what is written is whole,
and what the disk refuses is said in words."""

import errno
import os
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from outrigger.base import files
from outrigger.base.errors import InputError
from outrigger.base.files import read_up_to, write_new

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES = EXAMPLES / "passes.toml"
MARKS = EXAMPLES / "marks_on_the_plate.toml"


@pytest.fixture(autouse=True)
def _a_quick_sample(monkeypatch):
    """A case of few combinations in the sample's place: how things print is looked at here."""
    monkeypatch.setattr(
        "outrigger.cli.common.SAMPLE_FILE", Path(__file__).parents[2] / "examples" / "passes.toml"
    )


def plain(text):
    return " ".join(text.split())


def copied(folder, name, source=PASSES):
    path = folder / name
    shutil.copy(source, path)
    return path


# Never over what is read

OVER = [
    ("layout", "job.toml", "--pdf", ["--overwrite"]),
    ("card", "job.toml", "--pdf", ["--overwrite"]),
    ("layout", "job.pdf.toml", "--pdf", ["--overwrite"]),
    ("layout", "job.svg.toml", "--plan", ["--overwrite"]),
    ("gap", "job.toml", "--plot", ["--overwrite"]),
    ("summary", "job.toml", "-o", ["--overwrite"]),
    ("check", "job.toml", "--save", []),
]


@pytest.mark.parametrize(("command", "name", "option", "more"), OVER)
def test_no_output_over_the_case_file(run, tmp_path, command, name, option, more):
    path = copied(tmp_path, name, MARKS)
    before = path.read_bytes()
    done = run(command, name, option, name, *more, folder=tmp_path)
    assert done.returncode == 2
    assert f"{option} {name}: " in plain(done.stderr) and "Name" in done.stderr
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("name", ["job.md", "job.html", "job.pdf"])
@pytest.mark.parametrize("way", ["the name", "a link", "a hard link", "a longer name"])
def test_no_summary_over_its_own_case(run, tmp_path, name, way):
    """Whatever its ending, and by whatever name it is reached."""
    path = copied(tmp_path, name)
    target = tmp_path / name
    if way == "a link":
        target = tmp_path / f"link_{name}"
        target.symlink_to(path)
    elif way == "a hard link":
        target = tmp_path / f"link_{name}"
        os.link(path, target)
    elif way == "a longer name":
        target = tmp_path / "." / ".." / tmp_path.name / name
    before = path.read_bytes()
    done = run("summary", path, "-o", target, "--overwrite")
    assert done.returncode == 2
    assert "the command reads this file, and never writes over it" in plain(done.stderr)
    assert "-o " in done.stderr and "Name another file" in plain(done.stderr)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("command", "name", "option"),
    [("gap", "job.svg", "--plot"), ("layout", "job.png", "--plan"), ("layout", "job.pdf", "--pdf"),
     ("draw", "job.dxf", "-o"), ("card", "job.pdf", "--pdf")],
)  # fmt: skip
def test_no_drawing_over_its_own_case(run, tmp_path, command, name, option):
    path = copied(tmp_path, name, MARKS)
    before = path.read_bytes()
    done = run(command, path, option, path, "--overwrite")
    assert done.returncode == 2
    assert f"{option} {path}: the command reads this file" in plain(done.stderr).replace("- ", "-")
    assert path.read_bytes() == before


def test_no_summary_over_the_earlier_case(run, tmp_path):
    earlier = copied(tmp_path, "earlier.md")
    before = earlier.read_bytes()
    done = run("summary", PASSES, "--since", earlier, "-o", earlier, "--overwrite")
    assert done.returncode == 2 and "the command reads this file" in plain(done.stderr)
    assert earlier.read_bytes() == before


DRAWN = ".svg, .pdf, .png, .dxf"


@pytest.mark.parametrize(
    ("command", "option", "kinds"),
    [("layout", "--pdf", ".pdf"), ("card", "--pdf", ".pdf"), ("layout", "--plan", DRAWN),
     ("draw", "-o", DRAWN), ("gap", "--plot", ".svg, .png"),
     ("summary", "-o", ".pdf, .html, .md, .xlsx")],
)  # fmt: skip
@pytest.mark.parametrize("name", ["out.toml", "out", "out.pdf.txt", ".pdf"])
def test_another_ending_names_option_file_and_fix(run, tmp_path, command, option, kinds, name):
    done = run(command, MARKS, option, name, folder=tmp_path)
    assert done.returncode == 2
    first = kinds.split(",")[0]
    stem = Path(name).stem
    fix = f"{option} {name}: is written as {kinds}. Name it {stem}{first}."
    assert fix in plain(done.stderr)
    assert not list(tmp_path.iterdir())


def test_a_capital_ending_is_the_same(run, tmp_path):
    assert run("summary", PASSES, "-o", tmp_path / "OUT.MD").returncode == 0
    assert (tmp_path / "OUT.MD").exists()


# Pipes give their text once


def shell(text, folder):
    """A line of bash; `outrigger` in it is this program."""
    line = text.replace("outrigger ", f'"{sys.executable}" -m outrigger ')
    return subprocess.run(
        ["bash", "-c", line], capture_output=True, text=True, check=False, cwd=folder, timeout=60
    )


def test_a_case_out_of_a_pipe(tmp_path, run):
    """It is saved, attached and compared whole, though it can be read only once."""
    done = shell(f"outrigger check <(cat '{PASSES}') gap=5in --save new.toml", tmp_path)
    assert done.returncode == 0
    mine, same = (
        run("check", *words, "--json").stdout
        for words in ((tmp_path / "new.toml",), (PASSES, "gap=5in", "project.revision=1"))
    )
    assert mine == same
    done = shell(f"outrigger summary <(cat '{PASSES}') -o out.pdf", tmp_path)
    assert done.returncode == 0
    assert run("summary", "--again", tmp_path / "out.pdf").returncode == 0
    done = shell(f"outrigger compare '{PASSES}' <(sed '/^width/s/6 in/5 in/' '{PASSES}')", tmp_path)
    assert done.returncode == 0, done.stderr
    done = shell(f"outrigger compare <(cat '{PASSES}') gap=5in", tmp_path)
    assert done.returncode == 0, done.stderr


# What cannot be read


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device")
@pytest.mark.parametrize("words", [("check",), ("compare", PASSES), ("summary", "--again"),
                                   ("summary", PASSES, "-o", "out.md", "--since")])  # fmt: skip
def test_a_device_without_end(run, tmp_path, words):
    done = run(*words, "/dev/zero", folder=tmp_path)
    assert done.returncode == 2
    assert "/dev/zero: over " in plain(done.stderr)
    assert not list(tmp_path.iterdir())


def test_a_limit_is_a_limit(tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(b"x" * 2000)
    assert len(read_up_to(path, 2000, "a case file")) == 2000
    with pytest.raises(InputError, match="over 1 kB: not a case file"):
        read_up_to(path, 1999, "a case file")


def test_a_pipe_among_the_files_of_the_folder_is_not_waited_for(process, tmp_path):
    """Looking for the only case file of the folder opens plain files alone."""
    os.mkfifo(tmp_path / "job.toml")
    assert process("check", folder=tmp_path).returncode == 0


# What cannot be written


class Refused:
    """A step of the system that is refused, as on another disk or for another user."""

    def __init__(self, number):
        self.number, self.asked = number, 0

    def __call__(self, *args, **kwargs):
        self.asked += 1
        raise OSError(self.number, os.strerror(self.number))


@pytest.mark.parametrize("words", [("new", "job.toml"), ("check", "--save", "job.toml"),
                                   ("summary", "-o", "job.md")])  # fmt: skip
def test_a_folder_that_may_not_be_entered(run, tmp_path, monkeypatch, words):
    folder = tmp_path / "locked"
    folder.mkdir()
    *first, name = words
    monkeypatch.setattr(files.os, "stat", files.os.stat)
    real = Path.exists

    def exists(self, **more):
        if self.parent == folder:
            raise PermissionError(13, "Permission denied", str(self))
        return real(self, **more)

    monkeypatch.setattr(Path, "exists", exists)
    done = run(*first, folder / name)
    assert done.returncode == 2
    assert "cannot be written: Permission denied" in plain(done.stderr)


@pytest.mark.skipif(not shutil.which("setpriv"), reason="no other user to be")
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="needs to be root")
@pytest.mark.parametrize("words", ["new", "check --save", "summary -o", "gap --plot"])
def test_a_folder_of_another_user(tmp_path, words):
    """As the user nobody, in a folder that only root may enter."""
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o700)
    if subprocess.run(["setpriv", "--reuid=65534", "test", "-r", __file__], check=False).returncode:
        pytest.skip("the user nobody cannot read this tree")
    name = "x.svg" if words.startswith("gap") else "x.md"
    command, *option = words.split()
    done = subprocess.run(
        ["setpriv", "--reuid=65534", sys.executable, "-m", "outrigger", command, *option,
         str(folder / name)],
        capture_output=True, text=True, check=False, env=os.environ | {"HOME": "/nonexistent"},
    )  # fmt: skip
    assert done.returncode == 2
    assert "cannot be written: Permission denied" in plain(done.stderr)
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("length", [240, 246, 250, 255])
def test_a_name_as_long_as_names_may_be(tmp_path, run, length):
    name = "x" * (length - 5) + ".toml"
    assert run("new", tmp_path / name).returncode == 0
    assert [path.name for path in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("words", [("new",), ("check", "--save"), ("summary", "-o")])
def test_a_name_that_is_longer(tmp_path, run, words):
    done = run(*words, tmp_path / ("x" * 256 + ".md"))
    assert done.returncode == 2 and "File name too long" in plain(done.stderr)
    assert not list(tmp_path.iterdir())


def test_through_a_file_as_if_it_were_a_folder(tmp_path, run):
    path = copied(tmp_path, "job.toml")
    for words in (("new",), ("check", "--save"), ("summary", "-o")):
        done = run(*words, path / "x.md")
        assert done.returncode == 2 and "no such folder" in plain(done.stderr)


@pytest.mark.parametrize("number", [errno.EPERM, errno.EOPNOTSUPP, errno.ENOSYS])
def test_a_disk_without_links(tmp_path, monkeypatch, number):
    """As FAT and many shares: written all the same, and never over a file."""
    refused = Refused(number)
    monkeypatch.setattr(files.os, "link", refused)
    write_new(tmp_path / "a.txt", "whole")
    assert refused.asked == 1
    assert (tmp_path / "a.txt").read_text() == "whole"
    with pytest.raises(InputError, match="is there already"):
        write_new(tmp_path / "a.txt", "other")
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_a_disk_without_links_that_then_fails_leaves_nothing(tmp_path, monkeypatch):
    monkeypatch.setattr(files.os, "link", Refused(errno.EPERM))
    monkeypatch.setattr(Path, "replace", Refused(errno.EIO))
    with pytest.raises(InputError, match="Input/output error"):
        write_new(tmp_path / "a.txt", "whole")
    assert not list(tmp_path.iterdir())


def test_a_file_that_comes_to_be_meanwhile_is_kept(tmp_path, monkeypatch):
    """Between the look and the writing, with links and without."""
    path = tmp_path / "a.txt"
    real = os.link

    def late(part, whole):
        path.write_text("theirs")
        return real(part, whole)

    def later(part, whole):
        path.write_text("theirs")
        raise OSError(errno.EPERM, "Operation not permitted")

    for link in (late, later):
        path.unlink(missing_ok=True)
        monkeypatch.setattr(files.os, "link", link)
        with pytest.raises(InputError, match="File exists"):
            write_new(path, "ours")
        assert path.read_text() == "theirs"
        assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]


# Rights and links


@pytest.mark.parametrize(("mask", "mode"), [(0o022, 0o644), (0o077, 0o600), (0o002, 0o664)])
def test_a_new_file_has_the_rights_of_new_files(tmp_path, mask, mode):
    before = os.umask(mask)
    try:
        write_new(tmp_path / "a.txt", "new")
        write_new(tmp_path / "b.txt", "new", overwrite=True)
    finally:
        os.umask(before)
    for name in ("a.txt", "b.txt"):
        assert stat.S_IMODE((tmp_path / name).stat().st_mode) == mode


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_a_file_written_over_keeps_its_rights(tmp_path, mode):
    path = tmp_path / "a.txt"
    path.write_text("old")
    path.chmod(mode)
    write_new(path, "new", overwrite=True)
    assert (path.read_text(), stat.S_IMODE(path.stat().st_mode)) == ("new", mode)


def test_a_link_is_written_through_where_that_is_asked(tmp_path):
    real, link = tmp_path / "real.txt", tmp_path / "link.txt"
    real.write_text("old")
    link.symlink_to(real)
    with pytest.raises(InputError, match="is there already"):
        write_new(link, "new")
    write_new(link, "new", overwrite=True)
    assert link.is_symlink() and real.read_text() == "new"
    (tmp_path / "loop.txt").symlink_to(tmp_path / "loop.txt")
    with pytest.raises(InputError):
        write_new(tmp_path / "loop.txt", "new", overwrite=True)


def test_a_device_is_not_written_over(run, tmp_path):
    (tmp_path / "out.md").symlink_to("/dev/null")
    done = run("summary", PASSES, "-o", tmp_path / "out.md", "--overwrite")
    assert done.returncode == 2 and "no plain file" in plain(done.stderr)


# Words that are empty


@pytest.mark.parametrize(
    "words",
    [("check", ""), ("check", " "), ("gap", ""), ("size", ""), ("reserve", ""), ("card", ""),
     ("layout", ""), ("summary", "", "-o", "out.md"), ("compare", ""), ("compare", PASSES, ""),
     ("check", PASSES, ""), ("compare", PASSES, "gap=5in", "")],
    ids=str,
)  # fmt: skip
def test_an_empty_word_is_never_the_sample(run, tmp_path, words):
    """An unset variable of a script: an error, not a verdict on another job."""
    done = run(*words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert 'an empty word, ""' in plain(done.stderr)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("step", ["0.0000001 in", "0.00000000001 in", "1/99999999 in"])
def test_a_step_too_small_to_be_one(run, step):
    for first in ("1 in", "6 in"):
        done = run("gap", PASSES, "--from", first, "--to", "6 in", "--step", step)
        assert done.returncode == 2 and "Take a larger step" in plain(done.stderr)
