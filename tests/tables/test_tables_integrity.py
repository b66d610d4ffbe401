"""Laws that the published-number tables obey, and proof that each check can fail.

NDS 2018 and NDS Supplement 2018. Each check is a function from rows to a list of faults; a test
asserts that the list is empty on our tables, and another puts a wrong cell in and asserts that it
is not. Numbers are compared exactly, as Decimal; there are no tolerances here.
"""

import csv
import re
from collections import Counter, defaultdict
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise

import pytest

from outrigger.base import tables
from outrigger.base.errors import TableError

FILES = sorted(tables.files())
LUMBER_FILES = {
    *("table_4a", "table_4b", "table_4c", "table_4c_species", "table_4d", "dressed_sizes"),
    *("size_factors", "wet_service", "temperature", "incising", "repetitive", "flat_use"),
    *("load_duration", "format_conversion", "effective_length", "specific_gravity"),
    *("disagreements", "stamps", "grade_stamps"),
}
HEADER = ["standard", "edition", "table", "units", "status", "checked"]
STATUSES = {"SEEN", "DERIVED", "MEMORY"}
STRENGTHS = ("Fb", "Ft", "Fc", "E")
FIRST_FIVE = ("Select Structural", "No. 1 & Btr", "No. 1", "No. 1/No. 2", "No. 2")
JOISTS = (*FIRST_FIVE, "No. 3")
FRAMING = ("Construction", "Standard", "Utility")


def lines(name):
    return tables.files()[name].read_text(encoding="utf-8").splitlines()


def header(name):
    """The provenance lines `# key: value`, in order."""
    return [tuple(x[2:].split(": ", 1)) for x in lines(name) if x.startswith("# ")]


def read(name):
    """The rows of a table as texts; each call gives fresh copies."""
    return list(csv.DictReader(x for x in lines(name) if not x.startswith("#")))


def number(row, column):
    return Decimal(row[column])


def rounded(value, digits):
    """Rounded half up to so many decimals, as tables are printed."""
    return value.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def name_of(row):
    keys = ("species", "grade", "size_class")
    return " ".join(row[k] for k in keys if row.get(k))


def by_species(rows):
    """Species -> grade -> row of Table 4A."""
    found = defaultdict(dict)
    for row in rows:
        found[row["species"]][row["grade"]] = row
    return found


def falls(rows, grades, where):
    """Faults where Fb, Ft, Fc or E rises from one grade of a sequence to the next below it."""
    have = [g for g in grades if g in rows]
    return [
        f"{where}: {c} of {a} {rows[a][c]} < {b} {rows[b][c]}"
        for a, b in pairwise(have)
        for c in STRENGTHS
        if number(rows[a], c) < number(rows[b], c)
    ]


# ------------------------------------------------------------------ checks: rows -> faults


def emin_from(E, cov):
    """NDS 2018, Equation D-4: Emin = E (1 - 1.645 COV) 1.03 / 1.66, rounded to 10,000 psi."""
    exact = E * (1 - Decimal("1.645") * cov) * Decimal("1.03") / Decimal("1.66")
    return rounded(exact / 10000, 0) * 10000


def emin_visual(rows):
    """NDS 2018, Equation D-4, visually graded lumber: COV 0.25."""
    cov = Decimal("0.25")
    return [name_of(r) for r in rows if number(r, "Emin") != emin_from(number(r, "E"), cov)]


def emin_msr(rows):
    """NDS 2018, Equation D-4, machine stress rated lumber: COV 0.11."""
    cov = Decimal("0.11")
    return [name_of(r) for r in rows if number(r, "Emin") != emin_from(number(r, "E"), cov)]


def e_steps(rows):
    """NDS Supplement 2018, Tables 4A, 4B, 4C, 4D: E is printed to 100,000 psi."""
    return [name_of(r) for r in rows if number(r, "E") % 100000]


def steps_of_25(rows):
    """NDS Supplement 2018, Tables 4A, 4B, 4D: Fb, Ft, Fc stand on 25 psi steps."""
    return [f"{name_of(r)} {c}" for r in rows for c in ("Fb", "Ft", "Fc") if number(r, c) % 25]


def steps_of_5(rows):
    """NDS Supplement 2018, Tables 4A, 4B, 4D: Fv, Fc_perp stand on 5 psi steps."""
    return [f"{name_of(r)} {c}" for r in rows for c in ("Fv", "Fc_perp") if number(r, c) % 5]


def tension_below_bending(rows):
    """NDS Supplement 2018, Tables 4A, 4B, 4D (and 4C): Ft < Fb."""
    return [name_of(r) for r in rows if number(r, "Ft") >= number(r, "Fb")]


def msr_name(rows):
    """NDS Supplement 2018, Table 4C: the grade 1650f-1.5E has Fb 1650 psi and E 1.5E6 psi."""
    faults = []
    for r in rows:
        f, e = re.fullmatch(r"(\d+)f-(\d\.\d)E", r["grade"]).groups()
        if Decimal(f) != number(r, "Fb") or Decimal(e) * 1000000 != number(r, "E"):
            faults.append(r["grade"])
    return faults


def repeated(rows, *columns):
    count = Counter(tuple(r[c] for c in columns) for r in rows)
    return [key for key, n in count.items() if n > 1]


def one_row_each_4a(rows):
    """NDS Supplement 2018, Table 4A: one row for each species and grade."""
    return repeated(rows, "species", "grade")


def one_row_each_4b(rows):
    """NDS Supplement 2018, Table 4B: one row for each species, grade and width class."""
    return repeated(rows, "species", "grade", "width_from")


def one_row_each_4d(rows):
    """NDS Supplement 2018, Table 4D: one row for each species, size class and grade."""
    return repeated(rows, "species", "size_class", "grade")


def constant_in_species(rows):
    """NDS Supplement 2018, Table 4A: Fv, Fc_perp, G and agency are the same for every grade."""
    return [
        f"{s} {c}"
        for s, grades in by_species(rows).items()
        for c in ("Fv", "Fc_perp", "G", "agency")
        if len({r[c] for r in grades.values()}) != 1
    ]


def grade_set(rows):
    """NDS Supplement 2018, Table 4A: seven to nine grades, six of them in every species.

    No. 1 and No. 2 stand either as two rows or as the one row No. 1/No. 2.
    """
    always = {"Select Structural", "No. 3", "Stud", *FRAMING}
    faults = []
    for s, grades in by_species(rows).items():
        extra = set(grades) - always - {"No. 1 & Btr"}
        if not always <= set(grades) or extra not in ({"No. 1", "No. 2"}, {"No. 1/No. 2"}):
            faults.append(s)
    return faults


def grade_order_4a(rows):
    """NDS Supplement 2018, Table 4A: Fb, Ft, Fc, E never rise as the grade falls."""
    return [
        fault
        for s, grades in by_species(rows).items()
        for sequence in (JOISTS, FRAMING)
        for fault in falls(grades, sequence, s)
    ]


def utility_band(rows):
    """NDS Supplement 2018, Table 4A: Utility Fc is 0.62 to 0.69 of Standard Fc.

    An observed band, not a published rule.
    """
    faults = []
    for s, g in by_species(rows).items():
        ratio = number(g["Utility"], "Fc") / number(g["Standard"], "Fc")
        if not Decimal("0.62") <= ratio <= Decimal("0.69"):
            faults.append(s)
    return faults


def stud_above_no_3(rows):
    """NDS Supplement 2018, Table 4A: Stud above No. 3 in Fb, Ft, Fc, the same in E."""
    faults = []
    for s, g in by_species(rows).items():
        stud, third = g["Stud"], g["No. 3"]
        faults += [f"{s} {c}" for c in ("Fb", "Ft", "Fc") if number(stud, c) <= number(third, c)]
        faults += [f"{s} E"] if stud["E"] != third["E"] else []
    return faults


def by_width(rows):
    """(species, grade) -> rows of Table 4B from narrow to wide."""
    found = defaultdict(list)
    for r in sorted(rows, key=lambda r: number(r, "width_from")):
        found[r["species"], r["grade"]].append(r)
    return found


def falls_with_width(rows):
    """NDS Supplement 2018, Table 4B: Fb, Ft, Fc never rise with width."""
    return [
        f"{key} {c} {b['size_class']}"
        for key, widths in by_width(rows).items()
        for a, b in pairwise(widths)
        for c in ("Fb", "Ft", "Fc")
        if number(a, c) < number(b, c)
    ]


def constant_over_width(rows):
    """NDS Supplement 2018, Table 4B: E, Emin, Fv, Fc_perp, G are the same for every width."""
    return [
        f"{key} {c}"
        for key, widths in by_width(rows).items()
        for c in ("E", "Emin", "Fv", "Fc_perp", "G")
        if len({r[c] for r in widths}) != 1
    ]


def grade_order_4b(rows):
    """NDS Supplement 2018, Table 4B: values never rise as the grade or the density falls."""
    sequences = [
        *(("Select Structural", "No. 1", "No. 2", "No. 3"), FRAMING),
        ("Dense Structural 86", "Dense Structural 72", "Dense Structural 65"),
        ("Dense Select Structural", "No. 1 Dense", "No. 2 Dense"),
        ("NonDense Select Structural", "No. 1 NonDense", "No. 2 NonDense"),
        ("Dense Select Structural", "Select Structural", "NonDense Select Structural"),
        ("No. 1 Dense", "No. 1", "No. 1 NonDense"),
        ("No. 2 Dense", "No. 2", "No. 2 NonDense"),
    ]
    place = defaultdict(dict)
    for r in rows:
        place[r["species"], r["width_from"]][r["grade"]] = r
    return [f for key, g in place.items() for seq in sequences for f in falls(g, seq, key)]


def widths_complete(rows):
    """NDS Supplement 2018, Table 4B: width classes 2-4, 5-6, 8, 10, 12 in, and their numbers.

    Stud stops at 6 in, Construction, Standard and Utility are 4 in wide, Dense Structural has
    one class.
    """
    full = ["2-4 in wide", "5-6 in wide", "8 in wide", "10 in wide", "12 in wide"]
    faults = []
    for (s, grade), widths in by_width(rows).items():
        want = full
        want = full[:2] if grade == "Stud" else want
        want = ["4 in wide"] if grade in FRAMING else want
        want = ["2.5 in & wider"] if grade.startswith("Dense Structural") else want
        if [r["size_class"] for r in widths] != want:
            faults.append(f"{s} {grade}")
    for r in rows:
        ends = re.findall(r"[\d.]+", r["size_class"])
        last = "" if "wider" in r["size_class"] else ends[-1]
        if (r["width_from"], r["width_to"]) != (ends[0], last):
            faults.append(name_of(r))
    return faults


def grade_order_4d(rows):
    """NDS Supplement 2018, Table 4D: values never rise as the grade or the density falls."""
    sequences = [
        ("Select Structural", "No. 1", "No. 2"),
        ("Dense Select Structural", "Dense No. 1", "Dense No. 2"),
        ("Dense Structural 86", "Dense Structural 72", "Dense Structural 65"),
        *((f"Dense {g}", g) for g in ("Select Structural", "No. 1", "No. 2")),
    ]
    place = defaultdict(dict)
    for r in rows:
        place[r["species"], r["size_class"]][r["grade"]] = r
    return [f for key, g in place.items() for seq in sequences for f in falls(g, seq, key)]


def complete_4d(rows):
    """NDS Supplement 2018, Table 4D: each species has both size classes with the same grades."""
    place = defaultdict(lambda: defaultdict(set))
    for r in rows:
        place[r["species"]][r["size_class"]].add(r["grade"])
    main = {"Select Structural", "No. 1", "No. 2"}
    faults = []
    for s, classes in place.items():
        beams, posts = classes["Beams & Stringers"], classes["Posts & Timbers"]
        if len(classes) != 2 or beams != posts or not main <= beams:
            faults.append(s)
    return faults


# NDS 2018, Table 12.3.3A: Coast Sitka Spruce 0.39; its G in Table 4A is 0.43.
G_DIFFERS = {"Coast Sitka Spruce": ("0.43", "0.39")}
G_WITHOUT_ROW = {"Baldcypress", "Yellow Cedar"}


def g_as_fasteners(rows):
    """NDS 2018, Table 12.3.3A: G equals that of 4A, 4B, 4D, with one noted exception."""
    fastener = {r["species"]: r["G"] for r in read("specific_gravity")}
    faults = []
    for r in rows:
        if r["species"] in G_WITHOUT_ROW:
            continue
        want = G_DIFFERS.get(r["species"], (fastener[r["species"]],) * 2)
        if (r["G"], fastener[r["species"]]) != want:
            faults.append(name_of(r))
    return faults


def kf_constant(rows):
    """NDS 2018, Tables N1 and N2: KF phi is 2.16, or 1.50 for Fc_perp and Emin."""
    faults = []
    for r in rows:
        constant = Decimal("1.5") if r["property"] in ("Fc_perp", "Emin") else Decimal("2.16")
        KF = rounded(constant / number(r, "phi"), 2)
        if number(r, "constant") != constant or number(r, "KF") != KF:
            faults.append(r["property"])
    return faults


def le_branches(rows):
    """NDS 2018, Table 3.3.3: the branches of le meet at lu/d = 7 and at lu/d = 14.3.

    The short coefficient is (long x 7 + 3) / 7 to its two decimals. This is what shows 1.87, not
    1.83, for the load at the tip of a cantilever.
    """
    faults = []
    for r in rows:
        if not r["lu_coefficient_short"]:
            continue
        long, d = number(r, "lu_coefficient_long"), number(r, "d_coefficient_long")
        if number(r, "lu_coefficient_short") != rounded(long + d / 7, 2):
            faults.append(f"{r['member']} {r['loading']} at 7")
        last = r["lu_coefficient_over_14_3"]
        if last and Decimal(last) != rounded(long + d / Decimal("14.3"), 2):
            faults.append(f"{r['member']} {r['loading']} at 14.3")
    return faults


def le_numbers_as_text(rows):
    """NDS 2018, Table 3.3.3: the numeric columns say what the printed text says."""
    faults = []
    for r in rows:
        if not r["lu_coefficient_short"]:
            continue
        text = f"{r['lu_coefficient_long']}*lu"
        text += f" + {r['d_coefficient_long']}*d" if r["d_coefficient_long"] != "0" else ""
        if r["lu_coefficient_over_14_3"]:
            text += " for 7 <= lu/d <= 14.3; "
            text += f"{r['lu_coefficient_over_14_3']}*lu for lu/d > 14.3"
        if (r["le_short"], r["le_long"]) != (f"{r['lu_coefficient_short']}*lu", text):
            faults.append(r["loading"])
    return faults


def temperature_falls(rows):
    """NDS 2018, Table 2.3.3: Ct is 1.0 to 100 F and never rises with temperature."""
    return [
        r["property"]
        for r in rows
        if not 1 == number(r, "to_100F") > number(r, "to_125F") >= number(r, "to_150F")
    ]


def duration_rises(rows):
    """NDS 2018, Table 2.3.2: CD rises as the load gets shorter."""
    CD = [number(r, "CD") for r in rows if r["CD"]]
    return [str(b) for a, b in pairwise(CD) if a >= b]


def factors_fall_with_width(rows):
    """NDS Supplement 2018, Table 4A: CF never rises with width."""
    place = defaultdict(list)
    for r in rows:
        if r["table"] == "4A" and r["CF_Fb"] != "No. 3" and r["grades"] != "Utility":
            place[r["grades"], r["thickness_from"]].append(r)
    return [
        f"{key} {c} {b['width_from']}"
        for key, widths in place.items()
        for a, b in pairwise(widths)
        for c in ("CF_Fb", "CF_Ft", "CF_Fc")
        if number(a, c) < number(b, c)
    ]


def species_rises_4c(rows):
    """NDS Supplement 2018, Table 4C footnote: G, Fv, Fc_perp never fall as E rises.

    Observed, not a published rule.
    """
    place = defaultdict(list)
    for r in rows:
        place[r["species"]].append(r)
    return [
        f"{s} {b['grades']} {c}"
        for s, seq in place.items()
        for a, b in pairwise(sorted(seq, key=lambda r: number(r, "E_from")))
        for c in ("G", "Fv", "Fc_perp")
        if number(a, c) > number(b, c)
    ]


def legal_status(rows):
    """Each row is SEEN, DERIVED or MEMORY."""
    return [r for r in rows if r.get("status") not in STATUSES]


VISUAL = ("table_4a", "table_4b", "table_4d")
LE_TIP = {"member": "cantilever", "loading": "concentrated load at the unsupported end"}
NO_2 = {"species": "Douglas Fir-Larch", "grade": "No. 2"}
PINE = {"species": "Southern Pine", "grade": "No. 2"}

# check, table, and a wrong cell that it must catch: which row, column, wrong value
CHECKS = [
    *[(emin_visual, t, {"grade": "No. 2"}, "Emin", "650000") for t in VISUAL],
    (emin_msr, "table_4c", {"grade": "1650f-1.5E"}, "Emin", "550000"),
    *[(e_steps, t, {}, "E", "1650000") for t in (*VISUAL, "table_4c")],
    *[(steps_of_25, t, {}, "Fc", "1101") for t in VISUAL],
    *[(steps_of_5, t, {}, "Fc_perp", "562") for t in VISUAL],
    *[(tension_below_bending, t, {}, "Ft", "5750") for t in (*VISUAL, "table_4c")],
    (msr_name, "table_4c", {"grade": "1650f-1.5E"}, "Fb", "1600"),
    (msr_name, "table_4c", {"grade": "1650f-1.5E"}, "E", "1600000"),
    (one_row_each_4a, "table_4a", NO_2, "grade", "No. 1"),
    (one_row_each_4b, "table_4b", PINE, "grade", "No. 1"),
    (one_row_each_4d, "table_4d", NO_2, "grade", "No. 1"),
    *[
        (constant_in_species, "table_4a", NO_2, column, wrong)
        for column, wrong in (("Fv", "185"), ("Fc_perp", "620"), ("G", "0.49"), ("agency", "WWPA"))
    ],
    (grade_set, "table_4a", NO_2, "grade", "No. 1/No. 2"),
    (grade_order_4a, "table_4a", NO_2, "Fb", "1025"),
    (grade_order_4a, "table_4a", NO_2, "Fc", "750"),
    (utility_band, "table_4a", NO_2 | {"grade": "Utility"}, "Fc", "1000"),
    (stud_above_no_3, "table_4a", NO_2 | {"grade": "Stud"}, "Fb", "525"),
    (stud_above_no_3, "table_4a", NO_2 | {"grade": "Stud"}, "E", "1500000"),
    (falls_with_width, "table_4b", PINE | {"width_from": "8"}, "Fb", "1025"),
    (constant_over_width, "table_4b", PINE | {"width_from": "8"}, "E", "1600000"),
    (grade_order_4b, "table_4b", PINE | {"width_from": "8"}, "Fc", "1525"),
    (grade_order_4b, "table_4b", PINE | {"grade": "No. 2 NonDense"}, "Fb", "1125"),
    (widths_complete, "table_4b", PINE | {"width_from": "8"}, "size_class", "10 in wide"),
    (widths_complete, "table_4b", PINE | {"width_from": "8"}, "width_to", ""),
    (grade_order_4d, "table_4d", NO_2, "Fb", "1375"),
    (complete_4d, "table_4d", NO_2, "grade", "No. 3"),
    *[(g_as_fasteners, t, {"grade": "No. 2"}, "G", "0.54") for t in VISUAL],
    (g_as_fasteners, "table_4a", {"species": "Coast Sitka Spruce"}, "G", "0.39"),
    (kf_constant, "format_conversion", {"property": "Fc_perp"}, "KF", "2.08"),
    (kf_constant, "format_conversion", {"property": "Fb"}, "phi", "0.9"),
    (le_branches, "effective_length", LE_TIP, "lu_coefficient_short", "1.83"),
    (le_branches, "effective_length", {"member": "either"}, "lu_coefficient_over_14_3", "1.85"),
    (le_numbers_as_text, "effective_length", LE_TIP, "lu_coefficient_long", "1.40"),
    (temperature_falls, "temperature", {"moisture": "wet"}, "to_150F", "0.8"),
    (duration_rises, "load_duration", {"typical_load": "snow"}, "CD", "1.25"),
    (factors_fall_with_width, "size_factors", {"width_from": "8"}, "CF_Fb", "1.4"),
    (species_rises_4c, "table_4c_species", {"grades": "2.0E"}, "Fc_perp", "600"),
    *[(legal_status, t, {}, "status", "CERTAIN") for t in FILES],
]


@pytest.mark.parametrize(
    ("check", "table"),
    list(dict.fromkeys((c, t) for c, t, *_ in CHECKS)),
    ids=lambda x: getattr(x, "__name__", x),
)
def test_table_keeps_the_law(check, table):
    """NDS and NDS Supplement 2018: the law is in the check's own docstring."""
    rows = read(table)
    assert rows
    assert check(rows) == []


@pytest.mark.parametrize(
    ("check", "table", "where", "column", "wrong"),
    CHECKS,
    ids=lambda x: getattr(x, "__name__", x if isinstance(x, str) else ""),
)
def test_check_catches_a_wrong_cell(check, table, where, column, wrong):
    """One cell made wrong, everything else as it stands: the check must name a fault."""
    rows = read(table)
    row = next(r for r in rows if where.items() <= r.items())
    assert row[column] != wrong
    row[column] = wrong
    assert check(rows)


# ------------------------------------------------------------------ where the witnesses differ

CHECKS_4A = (
    *(emin_visual, e_steps, steps_of_25, steps_of_5, tension_below_bending, one_row_each_4a),
    *(constant_in_species, grade_set, grade_order_4a, utility_band, stud_above_no_3),
    g_as_fasteners,
)


def bad_cells():
    """The rows of disagreements.csv where witness A of Table 4A holds a wrong cell."""
    rows = read("disagreements")
    return [r for r in rows if r["table"] == "4A" and r["witness_A"] not in ("", r["used"])]


def put_back(cells):
    """Table 4A with the cells as witness A holds them."""
    rows = read("table_4a")
    for cell in cells:
        here = {"species": cell["species"], "grade": cell["grade_or_case"]}
        (row,) = (r for r in rows if here.items() <= r.items())
        assert row[cell["property"]] == cell["used"]
        row[cell["property"]] = cell["witness_A"]
    return rows


def test_there_are_eight_bad_values_and_eight_bad_g():
    """NDS Supplement 2018, Table 4A as transcribed by witness A."""
    count = Counter((r["species"], r["property"]) for r in bad_cells())
    assert count == {
        ("Alaska Cedar", "Ft"): 1,
        ("Alaska Hemlock", "G"): 8,
        ("Baldcypress", "Fb"): 1,
        ("Eastern Hemlock-Tamarack", "Fb"): 1,
        ("Redwood", "Emin"): 4,
        ("Spruce-Pine-Fir (South)", "Fc"): 1,
    }


@pytest.mark.parametrize("cell", bad_cells(), ids=lambda r: f"{name_of(r)} {r['grade_or_case']}")
def test_checks_catch_each_bad_cell_put_back(cell):
    """NDS Supplement 2018, Table 4A: each cell that witness A has wrong breaks a law."""
    assert any(check(put_back([cell])) for check in CHECKS_4A)


def test_checks_catch_all_bad_cells_put_back_at_once():
    """NDS Supplement 2018, Table 4A: each law names its own faults among all sixteen cells."""
    rows = put_back(bad_cells())
    assert steps_of_25(rows) == ["Alaska Cedar Select Structural 2 in & wider Ft"]
    redwood = [f"Redwood {g}" for g in ("No. 3", "Stud", "Construction", "Standard")]
    assert [x.rsplit(" 2", 1)[0] for x in emin_visual(rows)] == redwood
    assert grade_order_4a(rows) == [
        "Baldcypress: Fb of No. 2 25 < No. 3 475",
        "Eastern Hemlock-Tamarack: Fb of Standard 375 < Utility 1750",
    ]
    assert utility_band(rows) == ["Spruce-Pine-Fir (South)"]
    assert len(g_as_fasteners(rows)) == 8
    assert all(x.startswith("Alaska Hemlock") for x in g_as_fasteners(rows))


def test_bad_cells_do_not_stand_in_table_4a():
    """NDS Supplement 2018, Table 4A: the value used, not the one rejected, is in our table."""
    table = by_species(read("table_4a"))
    cells = [r for r in read("disagreements") if r["table"] == "4A" and r["witness_A"]]
    assert len(cells) == 18
    for cell in cells:
        ours = table[cell["species"]][cell["grade_or_case"]][cell["property"]]
        assert ours == cell["used"]
        assert ours == cell["witness_B"]
    for cell in bad_cells():
        ours = table[cell["species"]][cell["grade_or_case"]][cell["property"]]
        assert ours != cell["witness_A"]


def test_other_disagreements_stand_as_decided():
    """NDS Supplement 2018, Tables 4A, 4B, 4C, 4D, and NDS 2018, Table 12.3.3A."""
    dimension = by_species(read("table_4a"))
    assert dimension["Spruce-Pine-Fir"]["Select Structural"]["Fb"] == "1250"  # not 1150
    assert dimension["Douglas Fir-Larch"]["No. 2"]["Fb"] == "900"  # not 875
    assert dimension["Douglas Fir-Larch"]["No. 2"]["Fc"] == "1350"  # not 1300
    assert {r["Fv"] for r in dimension["Douglas Fir-Larch"].values()} == {"180"}  # not 95
    pine = by_width(read("table_4b"))
    second, first = pine["Southern Pine", "No. 2"], pine["Southern Pine", "No. 1"]
    assert [r["Fb"] for r in second] == ["1100", "1000", "925", "800", "750"]  # not 1500, 1250..
    assert {r["E"] for r in second} == {"1400000"}  # not 1600000
    assert [r["Fc"] for r in first] == ["1650", "1550", "1500", "1450", "1400"]  # not 1850..
    (timber,) = (r for r in read("table_4d") if name_of(r) == "Hem-Fir No. 1 Beams & Stringers")
    assert timber["Fc"] == "750"  # recalled as 775; the lower value was kept
    (msr,) = (r for r in read("table_4c_species") if r["species"] == "Hem-Fir" and not r["E_to"])
    assert msr["Fv"] == "150"
    (spruce,) = (r for r in read("specific_gravity") if r["species"] == "Coast Sitka Spruce")
    assert spruce["G"] == "0.39"


def test_pine_stud_wider_than_6_takes_the_no_3_values():
    """NDS Supplement 2018, Table 4B: Stud equals No. 3 in every width it is printed for."""
    pine = by_width(read("table_4b"))
    for s in ("Southern Pine", "Mixed Southern Pine"):
        for stud, third in zip(pine[s, "Stud"], pine[s, "No. 3"][:2], strict=True):
            same = ("width_from", "width_to", *STRENGTHS, "Fv", "Fc_perp", "Emin", "G")
            assert [stud[c] for c in same] == [third[c] for c in same]


# ------------------------------------------------------------------ the files themselves


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


def covering(rows, width, thickness):
    """The rows whose ranges hold a nominal width and thickness; a blank end is open."""

    def holds(row, column, value):
        low, high = row[f"{column}_from"], row[f"{column}_to"]
        return (not low or Decimal(low) <= value) and (not high or value <= Decimal(high))

    return [r for r in rows if holds(r, "width", width) and holds(r, "thickness", thickness)]


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


# ------------------------------------------------------------------ printed values from memory

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
