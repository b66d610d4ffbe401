"""Several cases of one command: a line each, the worst first; a bad file hides no other."""

import csv
import io
import json
import re
from pathlib import Path

import pypdf
import pytest

ROOT = Path(__file__).parents[2]
JOB = ROOT / "examples" / "linden_row"
LEFT, RIGHT, RAKE = (JOB / f"{name}.toml" for name in ("left", "right", "rake"))
LAST = "Not permission to build: the engineer of record decides."


@pytest.fixture
def job(tmp_path):
    """The three runs and what they share, to be changed."""
    for path in JOB.glob("*.toml"):
        (tmp_path / path.name).write_text(path.read_text("utf-8"), encoding="utf-8")
    return tmp_path


def change(path, old, new):
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def rows(page):
    """The files of the lines of the runs, in their order, with the word of each."""
    return re.findall(r"^  (\S+\.toml) +(\w+) ", page, re.M)


def test_a_line_each_the_worst_first_and_the_status_of_the_worst(run):
    done = run("check", LEFT, RIGHT, RAKE)
    assert (done.returncode, done.stderr) == (1, "")
    assert rows(done.stdout) == [("rake.toml", "fail"), ("left.toml", "pass"),
                                 ("right.toml", "pass")]  # fmt: skip
    said = "SAMPLE: fail: of 3 runs 1 fails, 2 pass."
    assert done.stdout.splitlines()[1] == said
    assert done.stdout.splitlines()[-3:] == [said, LAST, "SAMPLE, not your job"]


def test_runs_of_one_house_wall_are_told_together(run):
    page = run("check", LEFT, RIGHT, RAKE, width=200).stdout
    assert "House wall east: left.toml, right.toml; 35'-5 3/8\" of wall in all." in page
    assert "House wall north: rake.toml; 16'-0\" of wall in all." in page


def test_settings_are_of_all(run):
    done = run("check", LEFT, RIGHT, RAKE, "gap=6in")
    assert done.returncode == 0
    assert "In every run: gap 6 in, file says" in done.stdout
    assert "SAMPLE: pass, all 3 runs." in done.stdout


def test_open_is_worse_than_pass_and_better_than_fail(run, job):
    change(job / "left.toml", "[layout]", '[garage_roof]\nshape = "gable"\n\n[layout]')
    change(job / "job.toml", 'storage = "none"\n', "")
    done = run("check", "left.toml", "right.toml", "gap=6in", folder=job)
    assert done.returncode == 3
    assert "OPEN" not in done.stdout and "SAMPLE: open: of 2 runs 2 are open." in done.stdout
    done = run("check", "left.toml", "right.toml", "rake.toml", folder=job)
    assert done.returncode == 1
    assert "of 3 runs 1 fails, 2 are open" in done.stdout


@pytest.mark.parametrize("bad", ["missing", "broken", "faulty", "base gone"])
def test_a_bad_file_is_told_and_hides_none(run, job, bad):
    """Exit 2, whatever the others; its name stands on the page, in no total."""
    right = job / "right.toml"
    said = {"missing": "no such file", "broken": "line", "faulty": "gap.width", "base gone": "base"}
    if bad == "missing":
        right.unlink()
    elif bad == "broken":
        change(right, "[layout]", "[layout")
    elif bad == "faulty":
        change(right, "[layout]", '[gap]\nwidth = "30 in"\n[layout]')
    else:
        change(right, '"job.toml"', '"jobs.toml"')
    done = run("check", "left.toml", "right.toml", "rake.toml", folder=job)
    assert done.returncode == 2
    assert "right.toml" in done.stderr and said[bad] in done.stderr
    assert [name for name, _ in rows(done.stdout)] == ["rake.toml", "left.toml"]
    assert "BAD INPUT  right.toml" in done.stdout
    assert "BAD INPUT: 1 file is no case that can be checked. Of 3 runs 1 fails, 1" in done.stdout
    assert "In no total: right.toml." in done.stdout
    assert "pass, all" not in done.stdout


def test_every_bad_file_is_told(run, job):
    for name in ("left", "right", "rake"):
        change(job / f"{name}.toml", "[layout]", f'[gap]\nwidth = "{name}"\n[layout]'
               if name != "rake" else "[snow]\nroof = 3\n[layout]")  # fmt: skip
    done = run("check", "left.toml", "right.toml", "rake.toml", folder=job)
    assert (done.returncode, done.stdout) == (2, "")
    for name in ("left.toml", "right.toml", "rake.toml"):
        assert f"{name}: 1 fault" in done.stderr


def test_a_wrong_setting_is_told_once(run):
    done = run("check", LEFT, RIGHT, "gpa=9in")
    assert done.returncode == 2
    assert done.stderr.count("no key gpa") == 1


def test_the_base_of_others_is_no_run(run):
    done = run("check", *sorted(JOB.glob("*.toml")))
    assert done.returncode == 1
    assert "job.toml: the base of right.toml, and no run of its own." in done.stderr
    assert len(rows(done.stdout)) == 3


def test_one_run_under_two_names_is_not_two(run, job):
    for twice in ("left.toml", "./left.toml"):
        done = run("check", "left.toml", twice, folder=job)
        assert (done.returncode, done.stdout) == (2, "")
        assert f"{twice}: named twice" in done.stderr
    (job / "copy.toml").write_text((job / "left.toml").read_text("utf-8"), encoding="utf-8")
    done = run("check", "left.toml", "copy.toml", folder=job)
    assert done.returncode == 2
    assert "copy.toml: the same case as left.toml" in done.stderr
    assert "In no total: copy.toml." in done.stdout


def test_json_is_a_list(run, job):
    """Each run as `check --json` has it, with its file, its wall and its totals."""
    found = json.loads(run("check", LEFT, RIGHT, RAKE, "--json").stdout)
    assert [one["file"] for one in found] == ["rake.toml", "left.toml", "right.toml"]
    alone = json.loads(run("check", RAKE, "--json").stdout)
    assert {key: found[0][key] for key in alone} == alone
    assert (found[1]["house_wall"], found[1]["run_in"]) == ("east", 281.375)
    assert {"ASD", "strength", "unfactored"} == {one["level"] for one in found[1]["totals"]}
    (job / "right.toml").write_text("[", encoding="utf-8")
    done = run("check", "left.toml", "right.toml", "--json", folder=job)
    bad, good = json.loads(done.stdout)
    assert (bad["file"], bad["verdict"], good["file"]) == ("right.toml", "bad input", "left.toml")
    assert done.returncode == 2


def test_brief_is_short_lines(run):
    done = run("check", LEFT, RIGHT, RAKE, "--brief")
    lines = done.stdout.splitlines()
    assert max(map(len, lines)) <= 40
    assert lines[0] == "SAMPLE no: 1 of 3 runs"
    assert lines[-1] == "Engineer must adopt it. No permit."
    assert len(lines) == 8


@pytest.mark.parametrize("width", [80, 40, 30])
def test_it_fits_its_width(run, width):
    for command in ("check", "layout"):
        lines = run(command, LEFT, RIGHT, RAKE, width=width).stdout.splitlines()
        assert max(map(len, lines)) <= width


@pytest.mark.parametrize(
    "words",
    [("check", "--steps"), ("check", "--all"), ("check", "--csv"), ("check", "--ask"),
     ("check", "--save", "a.toml"), ("layout", "--plan", "a.svg"), ("layout", "-o", "a.xlsx"),
     ("draw", "-o", "a.svg"), ("draw", "-o", "a.dxf"), ("draw", "-o", "a.png"),
     ("summary", "-o", "a.xlsx"), ("summary", "-o", "a.pdf", "--since", "b.toml")],
)  # fmt: skip
def test_what_is_of_one_case_is_refused(run, tmp_path, words):
    command, *options = words
    done = run(command, LEFT, RIGHT, *options, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "one case" in done.stderr or "one drawing" in done.stderr
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("command", ["gap", "size", "reserve", "card"])
def test_other_commands_take_one(run, command):
    done = run(command, LEFT, RIGHT)
    assert done.returncode == 2
    assert "take several, other commands one" in " ".join(done.stderr.split())


# layout


def test_marks_of_each_and_one_list_of_what_to_buy(run):
    """left 16 outriggers, right 9, rake 11: 36, two clips at each of two places, but one on each of
    the four pieces of left's pairs: 68 and 68.

    Flashing, 10 ft with 4 in laps: 24 ft 3 lengths, 12 ft 2, over the gap of 6 in; 16 ft 2 over
    that of 16 in: 7."""
    page = run("layout", LEFT, RIGHT, RAKE, "gap=6in", width=200).stdout
    for said in ("16 outriggers on 23'-5 3/8\"", "9 outriggers on 12'-0\"", "11 outriggers on 16'"):
        assert said in page
    assert page.count("Material for all:") == 1 and "\nMaterial:\n" not in page
    assert "68 clips, back" in page and "36 penetrations to seal" in page
    page = run("layout", LEFT, RIGHT, RAKE, width=200).stdout
    assert "7 flashing over the gap, 10 ft (2: girth 24 in" in page
    assert "No boxes to tick: rake.toml fails, and is not to be built so." in page


def test_boards_are_those_of_each_run(run):
    """What is bought for all is what is bought for each, added."""
    boards = r"(\d+) 2x8 Douglas Fir-Larch No. 2, (\d+) ft"
    found = {}
    for one in (LEFT, RIGHT, RAKE):
        for count, feet in re.findall(boards, run("layout", one).stdout.split("\nMaterial:")[1]):
            found[feet] = found.get(feet, 0) + int(count)
    again = re.findall(boards, run("layout", LEFT, RIGHT, RAKE).stdout.split("for all:")[1])
    assert {feet: int(count) for count, feet in again} == found


def test_rows_of_all_marks(run):
    text = run("layout", LEFT, RIGHT, "--csv").stdout
    listed = list(csv.DictReader(io.StringIO(text)))
    assert [row["file"] for row in listed].count("left.toml") == 16
    assert len(listed) == len(json.loads(run("layout", LEFT, RIGHT, "--json").stdout)) == 25


def test_a_run_without_a_layout_is_bad_input_to_layout(run, job):
    text = (job / "right.toml").read_text("utf-8").partition("[layout]")[0]
    (job / "right.toml").write_text(text.replace("job.toml", "bare.toml"), encoding="utf-8")
    bare = (job / "job.toml").read_text("utf-8").partition("[layout]")[0]
    (job / "bare.toml").write_text(bare, encoding="utf-8")
    done = run("layout", "left.toml", "right.toml", "--pdf", "a.pdf", folder=job)
    assert done.returncode == 2
    assert "layout.run: is not given" in done.stderr
    assert "a.pdf is not written: it would be without right.toml" in " ".join(done.stderr.split())
    assert not (job / "a.pdf").exists()
    done = run("check", "left.toml", "right.toml", folder=job)
    assert "Not added: right.toml has no [layout]" in done.stdout
    assert re.search(r"gets at\s+most \d+ plf down", done.stdout)


def test_the_crews_pages_of_all_in_one_pdf(run, tmp_path):
    done = run("layout", LEFT, RIGHT, "--pdf", tmp_path / "a.pdf")
    assert done.returncode == 0
    pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "a.pdf").pages]
    assert "Linden Row, left run" in pages[0]
    assert any("Linden Row, right run" in page for page in pages[1:])
    assert "Material for all 2 runs" in pages[-1] and "25 penetrations to seal" in pages[-1]
    assert not any("penetrations" in page for page in pages[:-1])
    assert all("SAMPLE, not your job" in page for page in pages)


# draw and summary


@pytest.mark.parametrize("plan", [(), ("--plan",)])
def test_a_sheet_for_each(run, tmp_path, plan):
    done = run("draw", LEFT, RAKE, *plan, "-o", tmp_path / "a.pdf")
    assert done.returncode == 1
    first, second = (page.extract_text() for page in pypdf.PdfReader(tmp_path / "a.pdf").pages)
    assert "Linden Row, north run" in first and "Linden Row, left run" in second


def test_one_summary_with_one_cover(run, tmp_path):
    """The runs listed with the verdict of the worst; one box; each run under its name, its pages
    with its digest; each case inside gives its results again."""
    done = run("summary", RIGHT, RAKE, "-o", tmp_path / "a.pdf")
    assert done.returncode == 1
    assert "SAMPLE: fail: of 2 runs 1 fails, 1 passes." in done.stdout
    pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "a.pdf").pages]
    cover = " ".join(pages[0].split())
    for said in ("SAMPLE: fail: of 2 runs 1 fails, 1 passes.", "Linden Row, north run",
                 "Linden Row, right run", "the house wall east by 12'-0\""):  # fmt: skip
        assert said in cover
    assert sum("adopted by" in page for page in pages) == 1
    assert "Run 1: Linden Row, north run" in pages[1]
    second = next(i for i, page in enumerate(pages) if "Run 2: Linden Row, right run" in page)
    digests = [
        json.loads(run("check", one, "--json").stdout)["digest"] for one in (RAKE, RIGHT)
    ]  # fmt: skip
    for page, digest in ((pages[2], digests[0]), (pages[second], digests[1])):
        assert re.sub(r"(.{4})(?=.)", r"\1 ", digest) in page
    again = run("summary", "--again", tmp_path / "a.pdf")
    assert again.returncode == 0
    assert again.stdout.count("Same: the case inside gives the results inside") == 2


def test_the_page_of_each_reference_is_in_its_own_run(run, tmp_path):
    """Anchors are of one run: none stands twice, and none is missing."""
    run("summary", RIGHT, RAKE, "-o", tmp_path / "a.html")
    text = (tmp_path / "a.html").read_text("utf-8")
    ids = re.findall(r'<section id="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    links = set(re.findall(r'href="#([^"]+)"', text))
    assert links <= set(ids)
    assert text.count('class="adoption"') == 1


def test_the_same_bytes_again(run, tmp_path):
    for name in ("a.md", "b.md"):
        run("summary", RIGHT, RAKE, "-o", tmp_path / name)
    assert (tmp_path / "a.md").read_bytes() == (tmp_path / "b.md").read_bytes()


def test_a_summary_is_of_every_run_that_was_named(run, job):
    (job / "right.toml").write_text("[", encoding="utf-8")
    done = run("summary", "left.toml", "right.toml", "-o", "a.md", folder=job)
    assert done.returncode == 2
    assert "a.md is not written: it would be without right.toml" in " ".join(done.stderr.split())
    assert not (job / "a.md").exists()


@pytest.mark.parametrize("name", ["East wall", "east-wall", "the EAST side", " east ", "Ｅast"])
def test_one_house_wall_however_it_is_written(run, job, name):
    """Taken for two walls, each would be handed but its own runs: too little."""
    change(job / "right.toml", 'house_wall = "east"', f'house_wall = "{name}"')
    page = run("check", "left.toml", "right.toml", folder=job, width=200).stdout
    assert "left.toml, right.toml; 35'-5 3/8\" of wall in all." in page


def test_other_walls_stay_apart(run, job):
    change(job / "right.toml", 'house_wall = "east"', 'house_wall = "east, upper"')
    page = run("check", "left.toml", "right.toml", folder=job, width=200).stdout
    assert page.count("of wall in all.") == 2


def test_the_totals_by_hand(run):
    """Left and right, 281.375 + 144 = 425.375 in = 35.448 ft, arm 9.75 in, back span 48 in, outer
    end 1.75 in beyond: 57.5 in from the back. Over each foot of wall:

    D at the wall line 15 x 10 + 10 x 3 = 180 plf, at the house wall x 57.75/48 = 216.6; roof over
    the gap 15 x 11.5/12 = 14.4 at 5.75 in, x 53.75/48 = 16.1; back span 10 x 4 / 2 = 20: 252.7.
    S 200 x 57.75/48 + 20 x 11.5/12 x 53.75/48 + 20 x 4 / 2 = 302.1. Own weight: 25 pieces of 62.5
    in, 10.875 sq in of 34.2 pcf, 13.45 lb each, its middle 19.75 in inside: x 28.25/48 = 7.92 lb.
    ASD down, D + S: 35.448 x 554.8 + 25 x 7.92 = 19,863 lb.
    Up: 26 psf: 260 x 57.75/48 + 26 x 11.5/12 x 53.75/48 + 20 x 4 / 2 = 380.7; wind square to the
    wall, 20 x 1.5 = 30 plf x 7.25 in / 48 = 4.5. 0.6 W - 0.6 D = 231.1 - 151.6 = 79.5 plf, less
    0.6 x 198: 2,701 lb.
    """
    page = run("check", LEFT, RIGHT, RAKE, width=200).stdout
    assert "House wall: down 19,863 lb ASD (30,057 strength); up 2,701 lb ASD" in page


def test_a_total_without_a_load_says_that_it_is_too_small(run, job, tmp_path):
    change(job / "job.toml", 'roof = "20 psf"\n', "")
    change(
        job / "job.toml",
        'drift = "none"\nsliding = "none"\nunbalanced = "none"\non_house = "none"\n',
        "",
    )
    done = run("check", "left.toml", "right.toml", folder=job, width=200)
    assert done.returncode == 3
    for name in ("left", "right"):
        assert f"Too small: {name}.toml does not give snow; " in done.stdout
    paper = run("summary", "right.toml", "rake.toml", "-o", tmp_path / "j.md", folder=job)
    assert paper.returncode == 3
    assert "Too small: right.toml does not give snow" in (tmp_path / "j.md").read_text("utf-8")


def test_a_total_of_two_editions_says_so(run, job):
    other = (
        '[basis]\nloads = "ASCE 7-22"\n\n[house_roof]\nsnow = "32 psf"\n\n[snow]\nroof = "32 psf"\n'
    )
    change(job / "right.toml", "[layout]", f"{other}\n[layout]")
    page = run("check", "left.toml", "right.toml", folder=job, width=200).stdout
    assert "Not one total: loads of ASCE 7-16 and ASCE 7-22 are added." in page


def test_what_is_none_by_word_alone_is_told_of_all(run, job):
    page = run("check", LEFT, RIGHT, RAKE, width=200).stdout
    none = "storage, force along the wall, drift, sliding, snow onto the house roof, unbalanced"
    assert f"You said none of: {none}." in page
    change(job / "left.toml", "[layout]", '[garage_wall]\ndead = "none"\n\n[layout]')
    page = run("check", "left.toml", "right.toml", folder=job, width=200).stdout
    assert "wall weight (left.toml)" in page
