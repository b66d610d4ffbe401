"""The status of each row says where it was read, and who the witness is.

SEEN: a named publication or page shows it. SECOND-HAND: a program or a transcription alone, or
pages without an author. OTHER EDITION: another edition of the table alone. DERIVED: by the
standard's own identity. MEMORY: recalled.
"""

import re

import pytest
from table_rows import FILES, LUMBER_FILES, header, read

from outrigger.base import tables
from outrigger.base.errors import TableError

NO_AUTHOR = "no author on file"
NAMELESS = (  # what a witness without a name is called
    r"public data file|public notes|public program|public file|specification document|"
    r"web reference table|code-text page|magazine article|city building code|hardware schedules"
)


def witnesses(name):
    """Letter -> what the header says of it."""
    found = dict(header(name))
    return {k.removeprefix("witness "): v for k, v in found.items() if k.startswith("witness ")}


@pytest.mark.parametrize("name", FILES)
def test_a_witness_without_a_name_is_said_to_have_none(name):
    """In the header lines, and in the notes of load combinations, which name their witness."""
    said = [text for key, text in header(name) if key in ("checked", "source") or "witness" in key]
    if name == "load_combinations":
        said += [r["note"] for r in read(name)]
    for text in said:
        assert NO_AUTHOR in text or not re.search(NAMELESS, text), text


@pytest.mark.parametrize("name", sorted(LUMBER_FILES - {"disagreements", "stamps", "grade_stamps"}))
def test_the_status_of_lumber_follows_its_witnesses(name):
    """B is the 2024 edition; R is recall; X and Q are programs, which alone are second-hand."""
    lines = witnesses(name)
    for row in read(name):
        written = set(row["witness"].split("+")) - {"", "R"}
        named = {w for w in written if NO_AUTHOR not in lines[w]}
        if named - {"X", "Q"} or (named and len(written) > 1):
            status = "SEEN"
        elif written == {"B"}:
            status = "OTHER EDITION"
        else:
            status = "SECOND-HAND" if written else "MEMORY"
        if not (name == "load_duration" and row["duration"] == "rule"):
            assert row["status"] == status, row


def test_rows_of_the_2024_edition_alone_say_so():
    """NDS Supplement: 25 rows of Mixed Southern Pine in Table 4B, 43 of Table 4D and 41 more that
    were recalled alike before they were read."""
    found = [r for t in ("table_4b", "table_4d") for r in read(t) if r["status"] == "OTHER EDITION"]
    assert len(found) == 25 + 43 + 41
    assert all("2024 edition" in r["note"] or "B prints" in r["note"] for r in found)
    pine = {r["species"] for r in read("table_4b") if r["status"] == "OTHER EDITION"}
    assert pine == {"Mixed Southern Pine"}


def test_wind_coefficients_with_one_independent_reading_are_second_hand():
    """7-16: all of Fig. 30.3-2C, and 3e and 3r of an overhang in Fig. 30.3-2B; W read no 2C, and
    reads those two otherwise than V."""
    second = {
        (r["edition"], r["figure"], r["surface"], z)
        for r in read("wind_gcp")
        if r["status"] == "SECOND-HAND"
        for z in r["zones"].split()
    }
    of_2c = {s for s in second if s[1] == "30.3-2C"}
    assert {s[0] for s in second} == {"ASCE 7-16"}
    assert second - of_2c == {("ASCE 7-16", "30.3-2B", "overhang", z) for z in ("3e", "3r")}
    assert {s[2] for s in of_2c} == {"roof", "overhang"}
    assert {r["status"] for r in read("wind_gcp")} == {"SEEN", "SECOND-HAND"}


def test_lambda_has_a_status_of_its_own():
    """NDS 2018 Table N3 (Forensic Structural Engineering Handbook, Table 14.4; Design of Wood
    Structures, Example 4.12) has lambda beside the factors of 7-16. Beside 0.3S, 1.0S and 0.15S of
    7-22 no source was found."""
    rows = [r for r in read("load_combinations") if r["method"] == "LRFD"]
    assert {r["lam_status"] for r in rows if r["edition"] == "ASCE 7-16"} == {"SEEN"}
    recalled = [r for r in rows if r["lam_status"] == "MEMORY"]
    assert [r["id"] for r in recalled] == ["2a", "3a-L", "3a-W", "4a", "6"]
    assert all(float(r["S"]) for r in recalled)
    assert not any(float(r["S"]) for r in rows if r["id"] in ("1a", "5a", "7"))


def test_snow_beside_an_earthquake_is_confirmed():
    """7-22 2.4.5 combination 9, 0.1 S: in two public programs, one in Rust, one in JavaScript."""
    (row,) = (
        r
        for r in read("load_combinations")
        if (r["edition"], r["method"], r["id"]) == ("ASCE 7-22", "ASD", "9")
    )
    assert (row["S"], row["status"]) == ("0.1", "SECOND-HAND")
    assert "uncertain" not in row["note"]


def test_washers_of_the_standard():
    """ASME B18.21.1, Type A, wide series, on a bolt supplier's page; two sizes recalled."""
    found = {r["lag"]: (r["D_washer_in"], r["status"]) for r in read("washers")}
    assert found == {
        "1/4 in": ("0.734", "SEEN"),
        "5/16 in": ("0.875", "MEMORY"),
        "3/8 in": ("1.0", "SEEN"),
        "7/16 in": ("1.25", "MEMORY"),
        "1/2 in": ("1.375", "SEEN"),
        "5/8 in": ("1.75", "SEEN"),
        "3/4 in": ("2.0", "SEEN"),
    }


def test_the_worst_of_statuses():
    assert tables.worst("SEEN", "", "OTHER EDITION", "SECOND-HAND") == "OTHER EDITION"
    assert tables.worst("DERIVED", "SEEN") == "DERIVED"
    assert tables.worst("", "") == tables.worst() == ""
    assert {*tables.UNSURE} == {*tables.STATUSES} - {"SEEN", "DERIVED"}
    assert {*tables.NAMED} == {*tables.STATUSES} - {"SEEN"}  # the other four print where used
    assert set(tables.WORDS) == set(tables.STATUSES)


def test_a_second_status_is_read_too(tmp_path, monkeypatch):
    head = "# standard: a\n# edition: b\n# table: c\n# units: d\n# status: SEEN\n# checked: e\n"
    text = f"{head}item,lam_status,status\none,CERTAIN,SEEN\n"
    (tmp_path / "odd.csv").write_text(text, encoding="utf-8")
    monkeypatch.setattr(tables, "files", lambda: {"odd": tmp_path / "odd.csv"})
    with pytest.raises(TableError, match=r"odd\.csv, row 1: lam_status 'CERTAIN'\. Allowed: SEEN"):
        tables.load.__wrapped__("odd")
