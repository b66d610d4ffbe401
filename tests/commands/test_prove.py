"""`outrigger prove`: what it counts, what it says when a number is off, files, faults in words."""

import csv
import io
import json
import shutil
from collections import Counter

import pypdf
import pytest
from proof_pages import pages
from table_rows import FILES
from table_rows import read as table_rows

from outrigger.base.errors import InputError, TableError
from outrigger.proof import read
from outrigger.proof.compared import KINDS, STATUSES, half, number
from outrigger.proof.prove import GROUPS, group_of, prove
from outrigger.proof.recorded import recorded
from outrigger.proof.unverified import LISTED, unverified
from outrigger.report import proof_words, proved
from outrigger.report.screen.proof import page
from outrigger.report.write import proof as written


@pytest.fixture(scope="module")
def proof():
    return prove()


@pytest.fixture
def data(tmp_path, monkeypatch):
    """A copy of the data, to be changed: data("lateral.csv", "one", "other")."""
    folder = tmp_path / "data"
    shutil.copytree(read.DATA, folder)
    monkeypatch.setattr(read, "DATA", folder)

    def change(name, before, after, count=1):
        text = (folder / name).read_text(encoding="utf-8")
        assert before in text
        (folder / name).write_text(text.replace(before, after, count), encoding="utf-8")

    return change


# ------------------------------------------------------------------ what holds


def test_all_of_it_is_within_rounding(proof):
    assert proof.holds and not proof.off


def test_every_value_has_a_source_with_a_name(proof):
    """Author or body, title and edition; where the name of a document was not kept the value counts
    as recalled, and as nothing else."""
    for row in proof.rows:
        one = row.source
        assert row.at and one.author and one.title and one.edition and one.read, row
        assert "public" not in f"{one.name} {one.author} {one.title}".lower(), one
        if one.author == "not on file":
            assert row.status == "MEMORY", row
    with (read.DATA / "sources.csv").open(encoding="utf-8", newline="") as file:
        named = {line["name"] for line in csv.DictReader(file)}
    assert named == {row.source.name for row in proof.rows}


def test_kinds_are_counted_apart(proof):
    """By status, but for what is known to differ; the counts are of all rows, none twice."""
    by_status = Counter(row.status for row in proof.rows if not row.differs)
    published = sum(by_status[s] for s in ("SEEN", "SECOND-HAND", "OTHER EDITION"))
    assert proof.counts == {
        "published": published,
        "derived": by_status["DERIVED"],
        "fitted": by_status["FITTED"],
        "recalled": by_status["MEMORY"],
        "differs": sum(1 for row in proof.rows if row.differs),
    }
    assert sum(proof.counts.values()) == len(proof.rows)
    assert len(proof.reproduced) == published == sum(count for _, count in proof.sources)
    assert {row.status for row in proof.rows} == set(STATUSES)


def test_no_value_of_a_source_stands_twice(proof):
    """The same number of the same place for the same thing, printed or not."""
    keys = Counter((r.source.name, r.at, r.of, r.what, r.printed, r.group) for r in proof.rows)
    assert [key for key, count in keys.items() if count > 1] == []


def test_what_is_allowed_over_rounding_says_why(proof):
    for row in proof.rows:
        assert row.why or row.allowed <= half(row.printed) or row.source.name in ROUNDED, row


ROUNDED = ("NDS 2018", "Structural Wood Design Examples", "TR12")  # to 10 lb or to 50 psi


def test_what_the_pages_say_is_what_it_counts(proof):
    """The recorded count, README, DEVELOPERS.md: python tests/bench/proof_pages.py writes them."""
    for path, text in pages(proof).items():
        assert path.read_text(encoding="utf-8") == text, path.name
    count = recorded()
    assert (count.values, count.sources) == (len(proof.reproduced), len(proof.sources))
    assert f"reproduces {count.values:,} published values of {count.sources} sources" in (
        proved.line()
    )


@pytest.mark.parametrize(
    ("text", "value", "rounding"),
    [("1,776", 1776, 0.5), ("0.876", 0.876, 0.0005), ("12-6", 150, 0.5), ("-4.1", -4.1, 0.05)],
)
def test_a_printed_number_and_its_rounding(text, value, rounding):
    assert number(text) == value
    assert half(text) == pytest.approx(rounding, abs=2e-9)


# ------------------------------------------------------------------ what does not


@pytest.mark.parametrize(
    ("group", "file", "before", "after", "said"),
    [
        ("connections", "lateral.csv", ",2.0,170,10,", ",2.0,180,10,", "180 lb, here 173"),
        ("stability", "members.toml", 'CL = "0.876"', 'CL = "0.877"', "CL: 0.877, here 0.875"),
        ("combinations", "combinations.csv", ",0.75,0.75,0.75,0.45,", ",0.75,0.75,0.75,0.46,",
         "0.46, here 0.45"),
    ],
)  # fmt: skip
def test_one_number_changed_by_more_than_rounding(run, data, group, file, before, after, said):
    assert run("prove", group).returncode == 0
    data(file, before, after)
    done = run("prove", group, width=300)
    assert done.returncode == 1
    assert "Not reproduced:" in done.stdout and said in done.stdout
    assert done.stdout.splitlines()[-1].startswith("NOT REPRODUCED: 1 value.")
    assert done.stdout.splitlines()[1].startswith("NOT REPRODUCED: 1 value.")
    found = json.loads(run("prove", group, "--json").stdout)
    off = [one for one in found["values"] if not (one["within"] or one["differs"])]
    assert (found["holds"], len(off)) == (False, 1)


def test_one_number_changed_by_less_than_rounding(run, data):
    """Printed to 10 lb: 175 lb in place of 170 is within 5 of what is found, 173.2."""
    data("lateral.csv", ",2.0,170,10,", ",2.0,175,10,")
    assert run("prove", "connections").returncode == 0


def test_a_derived_number_that_is_off_fails_too(run, data):
    data("drift_heights.csv", "1.232", "1.234")
    assert run("prove", "snow").returncode == 1


def test_what_is_known_to_differ_fails_nothing_and_is_told(run):
    done = run("prove", "wind", width=300)
    assert done.returncode == 0
    assert "Known to differ:" in done.stdout
    assert "GCpi: 0.00, here 0.18: Eq. 30.9-1" in done.stdout


@pytest.mark.parametrize(
    ("file", "before", "after", "said"),
    [
        ("factors.csv", ",SEEN\n", ",CERTAIN\n", "status 'CERTAIN'. Allowed: SEEN, SECOND-HAND"),
        ("factors.csv", "NELMA grading rules,section", "NELMA,section",
         "no source 'NELMA' in sources.csv"),
        ("factors.csv", ",flat,", ",sideways,", ""),
        ("factors.csv", ",incised,", ",soaked,", "factors.csv: use 'soaked': not known."),
        ("sections.csv", "# edition: 2018\n", "", "the header lacks '# edition: ...'"),
    ],
)  # fmt: skip
def test_faults_of_the_data_in_words(run, data, file, before, after, said):
    data(file, before, after)
    done = run("prove", "lumber")
    assert done.returncode == (2 if said else 0)  # Cfu is asked for as flat use, whatever is said
    assert said in " ".join(done.stderr.split())


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ('RB = "21.6"', 'RC = "21.6"', "E1.2a: 'RC' is not worked"),
        ('status = "SECOND-HAND"', 'status = "SURE"', "example 1: status 'SURE'. Allowed"),
        ('at = "E1.2a"\n', "", "members.toml, example 1: no at."),
        ('at = "E1.2a"', 'at = "E1.2a"\npage = 1', "members.toml, example 1: page."),
    ],
)
def test_faults_of_an_example_in_words(data, before, after, said):
    data("members.toml", before, after)
    with pytest.raises(TableError, match=said.replace("(", r"\(")):
        prove((group_of("stability"),))


# ------------------------------------------------------------------ screen, data, pages


@pytest.mark.parametrize("width", [80, 40])
@pytest.mark.parametrize("every", [False, True])
def test_no_line_is_wider_than_the_screen(proof, width, every):
    assert max(map(len, page(proof, width, every=every).splitlines())) <= width


def test_the_screen_is_short_and_every_value_is_not(proof):
    short = page(proof, 80, every=False)
    assert len(short.splitlines()) < 50
    for group, _ in proof.groups:
        assert sum(line.startswith(f"  {group.title}  ") for line in short.splitlines()) == 1
    for one, count in proof.sources:
        assert f"{one.name} ({count:,})" in " ".join(short.split())
    whole = " ".join(page(proof, 10_000, every=True).split())
    assert all(f"{row.what}: {proof_words.here(row)}" in whole for row in proof.rows)
    assert all(one.title in whole and one.author in whole for one, _ in proof.sources)


def test_json_has_every_value(run, proof):
    found = json.loads(run("prove", "--json").stdout)
    assert set(found) == {
        "program", "holds", "reproduced", "counts", "groups", "sources", "values",
    }  # fmt: skip
    assert found["holds"] is True and found["reproduced"] == len(proof.reproduced)
    assert len(found["values"]) == len(proof.rows)
    assert set(found["values"][0]) == {
        "group", "source", "at", "of", "what", "printed", "value", "here", "unit", "status", "kind",
        "allowed", "off", "within", "why", "differs",
    }  # fmt: skip
    assert [one["group"] for one in found["groups"]] == [group.name for group in GROUPS]
    assert set(found["groups"][0]["counts"]) == set(KINDS)
    names = {one["name"]: one for one in found["sources"]}
    assert names["NDS 2018"]["author"] == "American Wood Council"
    assert all(one["author"] and one["title"] for one in found["sources"])


def test_two_pages_to_staple(run, tmp_path, proof):
    out = tmp_path / "proof.pdf"
    assert run("prove", "--pdf", out).returncode == 0
    pdf = pypdf.PdfReader(out)
    assert len(pdf.pages) == 2
    first, second = (" ".join(one.extract_text().split()) for one in pdf.pages)
    assert proof_words.verdict(proof) in first
    assert "Known to differ" in first and "licensed engineer" in first
    assert all(f"{count:,} {one.author}" in second for one, count in proof.sources)
    assert out.read_bytes() == written.pdf(proof)
    again = run("prove", "--pdf", out)
    assert again.returncode == 2 and "is there already. Add --overwrite" in " ".join(
        again.stderr.split()
    )
    assert run("prove", "--pdf", out, "--overwrite").returncode == 0


def test_two_pages_too_where_much_is_off(data):
    """Every lag value of Table 12K moved: the first four stand there, the rest by their count."""
    data("lateral.csv", ",10,SEEN", "0,10,SEEN", 100)
    off = prove()
    assert len(off.off) == 100
    assert "96 more: outrigger prove --all" in str(written.document(off))
    assert len(pypdf.PdfReader(io.BytesIO(written.pdf(off))).pages) == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("prove", "rain"), 'group "rain": there is none of that name. Groups: lumber, statics'),
        (
            ("prove", "--unverified", "--pdf", "x.pdf"),
            "--unverified: give it alone, or with",
        ),
        (("prove", "--unverified", "--all"), "--unverified: give it alone, or with"),
        (("prove", "wind", "--pdf", "x.pdf"), "--pdf: of all groups at once"),
        (("prove", "--pdf", "x.txt"), "--pdf x.txt: is written as .pdf. Name it x.pdf."),
    ],
)
def test_faults_of_the_command_in_words(run, tmp_path, words, said):
    done = run(*words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in " ".join(done.stderr.split())
    assert not list(tmp_path.iterdir())


def test_a_group_is_found_in_any_letters():
    assert group_of("Snow").title == "snow"
    with pytest.raises(InputError):
        group_of("")


# ------------------------------------------------------------------ what is unverified


def test_every_row_that_no_named_source_showed_is_listed(run):
    """Counted here from the files themselves, column by column."""
    expected = Counter()
    for name in FILES:
        for row in table_rows(name):
            for column, text in row.items():
                if column == "status" or column.endswith("_status"):
                    expected[name, text] += text in LISTED
    expected = {key: count for key, count in expected.items() if count}
    listings = unverified()
    found = {
        (one.name, status): len(one.of_status(status))
        for one in listings
        for status in LISTED
        if one.of_status(status)
    }
    assert found == expected
    told = json.loads(run("prove", "--unverified", "--json").stdout)
    totals = Counter()
    for (_, status), count in expected.items():
        totals[status] += count
    assert told["counts"] == {status: totals[status] for status in LISTED}
    assert {one["table"] for one in told["tables"]} == {name for name, _ in expected}


def test_the_list_on_screen(run):
    done = run("prove", "--unverified", width=80)
    assert done.returncode == 0
    assert max(map(len, done.stdout.splitlines())) <= 80
    text = " ".join(done.stdout.split())
    assert "table_4c: NDS Supplement 2018, Table 4C" in text
    assert "900f-1.0E" in text and "900f-1.0E (Emin)" in text


def test_a_value_that_the_program_no_longer_has_is_off_and_no_mistake(run, data):
    """A row of combinations that is on no file: its factors are no numbers."""
    data("combinations.csv", "ASCE 7-16,ASD,2,", "ASCE 7-16,ASD,2z,")
    done = run("prove", "combinations", "--json")
    assert done.returncode == 1
    lost = [one for one in json.loads(done.stdout)["values"] if not one["within"]]
    assert [(one["here"], one["off"]) for one in lost] == [(None, None)] * 2
