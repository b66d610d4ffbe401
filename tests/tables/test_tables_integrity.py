"""Laws that the published-number tables obey, and proof that each check can fail.

NDS 2018 and NDS Supplement 2018. Each check is a function from rows to a list of faults; a test
asserts that the list is empty on our tables, and another puts a wrong cell in and asserts that it
is not. Numbers are compared exactly, as Decimal; there are no tolerances here.
"""

import re
from collections import Counter, defaultdict
from decimal import Decimal
from itertools import pairwise

import pytest
from table_rows import (
    FILES,
    FRAMING,
    G_WITHOUT_ROW,
    JOISTS,
    STATUSES,
    STRENGTHS,
    by_species,
    falls,
    name_of,
    number,
    read,
    repeated,
    rounded,
)

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


def test_what_is_recalled_of_a_cell_is_what_its_reason_says():
    """Equal to the value used, but in the four cells whose reason says that recall is another."""
    recalled = [r for r in read("disagreements") if r["recall"]]
    other = [(r["species"], r["property"], r["recall"]) for r in recalled
             if float(r["recall"]) != float(r["used"])]  # fmt: skip
    assert other == [
        ("Northern Species", "Fb", "1000"),
        ("Northern Species", "Ft", "450"),
        ("Hem-Fir", "Fc", "775"),
        ("Hem-Fir", "Fv", "150"),
    ]


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
    assert msr["Fv"] == "145"  # recalled as 150; the producers' council prints 145 at 1.5E
    (spruce,) = (r for r in read("specific_gravity") if r["species"] == "Coast Sitka Spruce")
    assert spruce["G"] == "0.39"


def test_pine_stud_wider_than_6_takes_the_no_3_values():
    """NDS Supplement 2018, Table 4B: Stud equals No. 3 in every width it is printed for."""
    pine = by_width(read("table_4b"))
    for s in ("Southern Pine", "Mixed Southern Pine"):
        for stud, third in zip(pine[s, "Stud"], pine[s, "No. 3"][:2], strict=True):
            same = ("width_from", "width_to", *STRENGTHS, "Fv", "Fc_perp", "Emin", "G")
            assert [stud[c] for c in same] == [third[c] for c in same]
