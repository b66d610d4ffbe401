"""The files of the tables: header, cells, names, no number off its table."""

import re
from decimal import Decimal

import pytest
from table_rows import (
    FILES,
    FRAMING,
    G_WITHOUT_ROW,
    HEADER,
    JOISTS,
    LUMBER_FILES,
    by_species,
    covering,
    header,
    lines,
    number,
    read,
    repeated,
)

from outrigger.base import tables
from outrigger.base.errors import TableError


def test_no_table_is_missing():
    assert set(FILES) >= LUMBER_FILES


def test_two_tables_of_one_name_are_refused(tmp_path, monkeypatch):
    for place in ("lumber", "loads"):
        (tmp_path / place).mkdir()
        (tmp_path / place / "stamps.csv").write_text("", encoding="utf-8")
    monkeypatch.setattr(tables, "folder", lambda: tmp_path)
    with pytest.raises(TableError, match=r"^stamps: two tables of this name: "):
        tables.files.__wrapped__()


def test_a_table_that_is_not_there_lists_those_that_are():
    with pytest.raises(TableError, match=r"^nils: no such table\. On file: .*nails, "):
        tables.load("nils")


@pytest.mark.parametrize("name", FILES)
def test_header_is_complete(name):
    """The six provenance lines come first, in order, and none is empty. Every file, all tables."""
    found = header(name)
    assert [k for k, _ in found[:6]] == HEADER
    assert all(v.strip() for _, v in found)
    body = lines(name)[len(found) :]
    assert not any(x.startswith("#") for x in body)  # no comment, and no stamp read as one


@pytest.mark.parametrize("name", sorted(LUMBER_FILES))
def test_header_status_agrees_with_the_rows(name):
    """`per row` where the rows differ, else the one status that they share."""
    found = {r["status"] for r in read(name)}
    want = found.pop() if len(found) == 1 else "per row"
    assert dict(header(name))["status"] == want


@pytest.mark.parametrize("name", sorted(LUMBER_FILES))
def test_rows_are_well_formed(name):
    """Each row has as many cells as there are columns, without stray blanks."""
    for row in read(name):
        assert None not in row
        assert None not in row.values()
        assert all(text == text.strip() for text in row.values())


@pytest.mark.parametrize("name", sorted(LUMBER_FILES))
def test_each_witness_letter_is_explained(name):
    letters = {w for r in read(name) for w in r.get("witness", "").split("+") if w}
    found = [k for k, _ in header(name)[6:]]
    assert letters <= {k.removeprefix("witness ") for k in found}
    assert all(k == "note" or re.fullmatch(r"witness [A-Z]1?", k) for k in found)


@pytest.mark.parametrize("name", sorted(LUMBER_FILES - {"disagreements"}))
def test_seen_needs_a_written_witness(name):
    """A row that is SEEN names a witness other than R, which is recall."""
    for r in read(name):
        if r["status"] == "SEEN":
            assert set(r["witness"].split("+")) - {"", "R"}, r


@pytest.mark.parametrize(
    ("name", "rows"),
    [("table_4a", 262), ("table_4b", 83), ("table_4c", 32), ("table_4d", 90)],
)
def test_row_counts(name, rows):
    """NDS Supplement 2018: so many rows were read from the witnesses."""
    assert len(read(name)) == rows


def test_table_4a_has_33_species_and_31_of_them_a_fastener_gravity():
    """NDS Supplement 2018, Table 4A, against NDS 2018, Table 12.3.3A."""
    species = set(by_species(read("table_4a")))
    assert len(species) == 33
    assert species - {r["species"] for r in read("specific_gravity")} == G_WITHOUT_ROW
    assert repeated(read("specific_gravity"), "species") == []


def test_sizes_class_of_table_4a_follows_the_grade():
    """NDS Supplement 2018, Table 4A: Construction, Standard, Utility are 2-4 in wide."""
    for r in read("table_4a"):
        narrow = r["grade"] in FRAMING
        assert r["size_class"] == ("2-4 in wide" if narrow else "2 in & wider")


def test_emin_of_msr_is_seen_only_where_the_row_is():
    """NDS Supplement 2018, Table 4C: a recalled row has a derived Emin."""
    for r in read("table_4c"):
        assert r["Emin_status"] in ("SEEN", "DERIVED")
        assert r["Emin_status"] == "DERIVED" or r["status"] == "SEEN"
        assert r["Emin_status"] in r["note"].upper()


def test_msr_row_of_a_species_is_unique_for_each_e():
    """NDS Supplement 2018, Table 4C: the row with the largest E_from that covers E governs."""
    rows = read("table_4c_species")
    assert repeated(rows, "species", "E_from") == []
    assert {r["E_from"] for r in rows if r["grades"].endswith("and higher")} >= {"1.0", "1.8"}
    for r in rows:
        ends = re.findall(r"[\d.]+", r["grades"])
        last = "" if "higher" in r["grades"] else ends[-1]
        assert (r["E_from"], r["E_to"]) == (ends[0], last)

    def governing(species, E):
        covers = [
            r
            for r in rows
            if r["species"] == species
            and number(r, "E_from") <= Decimal(E)
            and (not r["E_to"] or Decimal(E) <= number(r, "E_to"))
        ]
        return max(covers, key=lambda r: number(r, "E_from"))["grades"]

    assert governing("Spruce-Pine-Fir", "1.7") == "1.0E and higher"
    assert governing("Spruce-Pine-Fir", "1.8") == "1.8E and 1.9E"
    assert governing("Spruce-Pine-Fir", "2.1") == "2.0E and higher"
    assert governing("Douglas Fir-Larch", "2.0") == "2.0E"
    assert governing("Southern Pine", "2.0") == "1.8E and higher"
    assert governing("Hem-Fir", "2.1") == "1.0E and higher"


WIDTHS = (2, 3, 4, 5, 6, 8, 10, 12, 14, 16)


@pytest.mark.parametrize("grade", [*JOISTS, "Stud", *FRAMING])
def test_one_size_factor_for_each_size_in_table_4a(grade):
    """NDS Supplement 2018, Table 4A, CF: exactly one row, and none where the table has none."""
    rows = [
        r for r in read("size_factors") if r["table"] == "4A" and grade in r["grades"].split("; ")
    ]
    for width in WIDTHS:
        for thickness in (2, 3, 4):
            none = grade in FRAMING and width > 4
            none |= grade == "Utility" and width < 4 and thickness == 4
            found = covering(rows, width, thickness)
            assert len(found) == (0 if none else 1), (width, thickness)


def test_size_factors_of_table_4b():
    """NDS Supplement 2018, Table 4B, CF: 1.0 to 12 in; 1.1 on Fb at 4 in thick, 8 in and wider;
    0.9 over 12 in, both together where both hold."""
    rows = [
        r
        for r in read("size_factors")
        if r["table"] == "4B" and r["grades"].startswith("all Southern Pine")
    ]
    for thickness in (2, 3):
        for width in WIDTHS:
            (row,) = covering(rows, width, thickness)
            want = "1.0" if width <= 12 else "0.9"
            assert {row[c] for c in ("CF_Fb", "CF_Ft", "CF_Fc")} == {want}
    at_4 = {w: [r["CF_Fb"] for r in covering(rows, w, 4)] for w in WIDTHS}
    assert all(at_4[w] == [] for w in (2, 3, 4, 5, 6))  # no row: the values carry the size
    assert all(at_4[w] == ["1.1"] for w in (8, 10, 12))
    assert all(at_4[w] == ["1.1", "0.9"] for w in (14, 16))


def test_size_factor_words_and_formulas():
    """NDS Supplement 2018, CF of Tables 4A (Stud), 4B (Dense Structural), 4C and 4D."""
    rows = read("size_factors")
    words = [r for r in rows if not re.fullmatch(r"\d\.\d+", r["CF_Fb"])]
    text = "(12/d)^(1/9) for d over 12 in"
    found = [(r["table"], r["CF_Fb"], r["CF_Ft"], r["CF_Fc"]) for r in words]
    assert found == [
        ("4A", "No. 3", "No. 3", "No. 3"),
        ("4B", text, "1.0", "1.0"),
        ("4D", text, "1.0", "1.0"),
    ]
    assert (words[0]["grades"], words[0]["width_from"], words[0]["width_to"]) == ("Stud", "8", "")


def test_one_flat_use_factor_for_each_size():
    """NDS Supplement 2018, Tables 4A and 4B, Cfu: one row; none at 4 in thick, 2 and 3 in wide."""
    rows = [r for r in read("flat_use") if r["table"] == "4A; 4B"]
    for width in WIDTHS:
        for thickness in (2, 3, 4):
            none = thickness == 4 and width < 4
            assert len(covering(rows, width, thickness)) == (0 if none else 1)
