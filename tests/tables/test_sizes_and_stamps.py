"""Dressed sizes of the NDS Supplement 2018 and the stamps of species."""

import re
from collections import Counter

import pytest
from table_rows import number, read, repeated


def test_dressed_size_is_below_nominal_and_green_is_not_below_dry():
    """NDS Supplement 2018, Table 1A."""
    rows = read("dressed_sizes")
    assert repeated(rows, "kind", "nominal_in") == []
    for r in rows:
        assert number(r, "dry_in") <= number(r, "green_in") < number(r, "nominal_in")


# ------------------------------------------------------------------ stamps


def plain(text):
    """Case, spaces and dots do not count when a stamp is matched."""
    return re.sub(r"[ .]", "", text).lower()


@pytest.mark.parametrize("name", ["stamps", "grade_stamps"])
def test_each_stamp_reads_one_way(name):
    """Common practice, no standard: two stamps that look alike may not mean two things."""
    assert [s for s, n in Counter(plain(r["stamp"]) for r in read(name)).items() if n > 1] == []
    assert {r["status"] for r in read(name)} == {"MEMORY"}
    assert all("common practice, no source" in r["note"] for r in read(name))


def test_stamps_name_species_and_grades_that_are_tabulated():
    """NDS Supplement 2018, Tables 4A and 4B: the names the stamps lead to."""
    rows = read("table_4a") + read("table_4b")
    assert {r["species"] for r in read("stamps")} <= {r["species"] for r in rows}
    grades = {r["grade"]: r["stamp"] for r in read("grade_stamps")}
    assert set(grades) <= {r["grade"] for r in read("table_4a")}
    stamps = {r["stamp"]: r["grade"] for r in read("grade_stamps")}
    assert stamps["#2"] == stamps["NO.2"] == stamps["2"] == stamps["2&BTR"] == "No. 2"
    assert stamps["STD&BTR"] == "Standard"


def test_spruce_pine_fir_is_not_mistaken_for_its_southern_kind():
    """Common practice, no standard: SPF and SPFs are two species combinations."""
    stamps = {plain(r["stamp"]): r["species"] for r in read("stamps")}
    assert stamps["spf"] == stamps["s-p-f"] == "Spruce-Pine-Fir"
    assert stamps["spfs"] == stamps["s-p-f-s"] == "Spruce-Pine-Fir (South)"
