"""Values of the NDS Supplement 2018 as printed, each from memory, and the stamps of species."""

import re
from collections import Counter

import pytest
from table_rows import by_species, covering, number, read, repeated, rounded

COLUMNS = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")


@pytest.mark.parametrize(
    ("species", "grade", "values"),
    [
        ("Douglas Fir-Larch", "Select Structural", "1500 1000 180 625 1700 1900000 690000"),
        ("Douglas Fir-Larch", "No. 1", "1000 675 180 625 1500 1700000 620000"),
        ("Douglas Fir-Larch", "No. 2", "900 575 180 625 1350 1600000 580000"),
        ("Douglas Fir-Larch", "Stud", "700 450 180 625 850 1400000 510000"),
        ("Hem-Fir", "Select Structural", "1400 925 150 405 1500 1600000 580000"),
        ("Hem-Fir", "No. 2", "850 525 150 405 1300 1300000 470000"),
        ("Spruce-Pine-Fir", "Select Structural", "1250 700 135 425 1400 1500000 550000"),
        ("Spruce-Pine-Fir", "No. 1/No. 2", "875 450 135 425 1150 1400000 510000"),
        ("Spruce-Pine-Fir", "Stud", "675 350 135 425 725 1200000 440000"),
        ("Spruce-Pine-Fir (South)", "No. 2", "775 350 135 335 1000 1100000 400000"),
        ("Western Cedars", "No. 2", "700 425 155 425 650 1000000 370000"),
    ],
)
def test_printed_values_of_table_4a(species, grade, values):
    """NDS Supplement 2018, Table 4A; each a value from memory, psi."""
    row = by_species(read("table_4a"))[species][grade]
    assert " ".join(row[c] for c in COLUMNS) == values


@pytest.mark.parametrize(
    ("grade", "width", "values"),
    [
        ("Select Structural", "2", "2350 1650 175 565 1900 1800000 660000"),
        ("No. 1", "2", "1500 1000 175 565 1650 1600000 580000"),
        ("No. 2", "2", "1100 675 175 565 1450 1400000 510000"),
        ("No. 2", "5", "1000 600 175 565 1400 1400000 510000"),
        ("No. 2", "8", "925 550 175 565 1350 1400000 510000"),
        ("No. 2", "10", "800 475 175 565 1300 1400000 510000"),
        ("No. 2", "12", "750 450 175 565 1250 1400000 510000"),
    ],
)
def test_printed_values_of_table_4b(grade, width, values):
    """NDS Supplement 2018, Table 4B, Southern Pine; each a value from memory, psi."""
    here = {"species": "Southern Pine", "grade": grade, "width_from": width}
    (row,) = (r for r in read("table_4b") if here.items() <= r.items())
    assert " ".join(row[c] for c in COLUMNS) == values


@pytest.mark.parametrize(
    ("size_class", "values"),
    [
        ("Beams & Stringers", "1350 675 170 625 925 1600000 580000"),
        ("Posts & Timbers", "1200 825 170 625 1000 1600000 580000"),
    ],
)
def test_printed_values_of_table_4d(size_class, values):
    """NDS Supplement 2018, Table 4D, Douglas Fir-Larch No. 1; each a value from memory, psi."""
    here = {"species": "Douglas Fir-Larch", "size_class": size_class, "grade": "No. 1"}
    (row,) = (r for r in read("table_4d") if here.items() <= r.items())
    assert " ".join(row[c] for c in COLUMNS) == values


def test_printed_factors():
    """NDS 2018 and NDS Supplement 2018, factor tables; each a value from memory."""
    bending = [r for r in read("size_factors") if "No. 2" in r["grades"].split("; ")]
    printed = {
        width: [covering(bending, width, 2)[0][c] for c in ("CF_Fb", "CF_Ft", "CF_Fc")]
        for width in (4, 5, 6, 8, 10, 12, 14)
    }
    assert printed == {
        4: ["1.5", "1.5", "1.15"],
        5: ["1.4", "1.4", "1.1"],
        6: ["1.3", "1.3", "1.1"],
        8: ["1.2", "1.2", "1.05"],
        10: ["1.1", "1.1", "1.0"],
        12: ["1.0", "1.0", "1.0"],
        14: ["0.9", "0.9", "0.9"],
    }
    flat = [r for r in read("flat_use") if r["table"] == "4A; 4B"]
    at_2 = [covering(flat, w, 2)[0]["Cfu_Fb"] for w in (2, 3, 4, 5, 6, 8, 10, 12)]
    assert at_2 == ["1.0", "1.0", "1.1", "1.1", "1.15", "1.15", "1.2", "1.2"]
    wet = {r["table"]: r for r in read("wet_service")}
    columns = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E_Emin", "limit_Fb_CF", "limit_Fc_CF")
    dimension = ["0.85", "1.0", "0.97", "0.67", "0.8", "0.9", "1150", "750"]
    for table in ("4A", "4B", "4C"):
        assert [wet[table][c] for c in columns] == dimension
    assert [wet["4D"][c] for c in columns] == ["1.0", "1.0", "1.0", "0.67", "0.91", "1.0", "", ""]
    CD = [r["CD"] for r in read("load_duration") if r["CD"]]
    assert CD == ["0.9", "1.0", "1.15", "1.25", "1.6", "2.0"]
    assert [r["Ci"] for r in read("incising")] == ["0.95", "0.8", "1.0"]
    assert [r["value"] for r in read("repetitive")] == ["1.15"]
    KF = {r["property"]: (r["KF"], r["phi"]) for r in read("format_conversion")}
    assert KF == {
        "Fb": ("2.54", "0.85"),
        "Ft": ("2.7", "0.8"),
        "Fv": ("2.88", "0.75"),
        "Fc": ("2.4", "0.9"),
        "Fc_perp": ("1.67", "0.9"),
        "Emin": ("1.76", "0.85"),
        "connections": ("3.32", "0.65"),
    }


# NDS Supplement 2018, Table 1B: A, Sxx, Ixx, Syy, Iyy as printed; each a value from memory.
TABLE_1B = {
    "2x4": "5.25 3.063 5.359 1.313 0.984",
    "2x6": "8.25 7.563 20.80 2.063 1.547",
    "2x8": "10.88 13.14 47.63 2.719 2.039",
    "2x10": "13.88 21.39 98.93 3.469 2.602",
    "2x12": "16.88 31.64 178.0 4.219 3.164",
    "3x4": "8.75 5.104 8.932 3.646 4.557",
    "4x4": "12.25 7.146 12.51 7.146 12.51",
    "4x6": "19.25 17.65 48.53 11.23 19.65",
    "4x8": "25.38 30.66 111.1 14.80 25.90",
    "4x10": "32.38 49.91 230.8 18.89 33.05",
    "4x12": "39.38 73.83 415.3 22.97 40.20",
}


@pytest.mark.parametrize("size", TABLE_1B)
def test_dressed_sizes_give_the_section_properties_of_table_1b(size):
    """NDS Supplement 2018, Table 1A sizes worked into Table 1B, each rounded as printed."""
    dry = {(r["kind"], r["nominal_in"]): number(r, "dry_in") for r in read("dressed_sizes")}
    thickness, width = size.split("x")
    b, d = dry["thickness", thickness], dry["width", width]
    worked = (b * d, b * d**2 / 6, b * d**3 / 12, d * b**2 / 6, d * b**3 / 12)
    for value, printed in zip(worked, TABLE_1B[size].split(), strict=True):
        assert str(rounded(value, len(printed.partition(".")[2]))) == printed


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
