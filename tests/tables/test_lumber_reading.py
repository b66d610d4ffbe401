"""Lumber as stamped: species, grades and sizes are read exactly or refused in words.

Values expected here are of NDS Supplement 2018, Tables 4A to 4D and 1A (transcribed); stamps and
the values of 4C named so are from memory, and the library has to say so.
"""

import re

import pytest

from outrigger.base.errors import InputError
from outrigger.wood import dressed, lumber, reference, stamps

# Species ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "species"),
    [
        ("Spruce-Pine-Fir", "Spruce-Pine-Fir"),
        ("spruce pine fir", "Spruce-Pine-Fir"),
        ("SPF", "Spruce-Pine-Fir"),
        ("spf", "Spruce-Pine-Fir"),
        ("S-P-F", "Spruce-Pine-Fir"),
        ("SPFs", "Spruce-Pine-Fir (South)"),
        ("S-P-F-s", "Spruce-Pine-Fir (South)"),
        ("Spruce-Pine-Fir (South)", "Spruce-Pine-Fir (South)"),
        ("DF-L", "Douglas Fir-Larch"),
        ("Douglas Fir-Larch", "Douglas Fir-Larch"),
        ("DF-L (N)", "Douglas Fir-Larch (North)"),
        ("DF-L(N)", "Douglas Fir-Larch (North)"),
        ("D FIR-L (N)", "Douglas Fir-Larch (North)"),
        ("DF-S", "Douglas Fir-South"),
        ("HF", "Hem-Fir"),
        ("Hem Fir", "Hem-Fir"),
        ("HEM-FIR (N)", "Hem-Fir (North)"),
        ("HF (N)", "Hem-Fir (North)"),
        ("SYP", "Southern Pine"),
        ("Southern Pine", "Southern Pine"),
    ],
)
def test_names_and_stamps(text, species):
    """Full names of Tables 4A to 4D and agency stamps (common practice, from memory)."""
    assert stamps.read_species(text) == species


def test_every_name_reads_as_itself():
    """Law: every species on file reads as itself; south is never taken for north."""
    for name in reference.species_names():
        assert stamps.read_species(name) == name
        assert stamps.read_species(name.upper()) == name


def candidates(text):
    """The names that the error lists, one a line, without their stamps."""
    with pytest.raises(InputError) as error:
        stamps.read_species(text)
    first, *lines = str(error.value).splitlines()
    assert first.startswith(f'species = "{text}": not an exact name or stamp, and none is guessed.')
    return [line.strip().partition(", stamped ")[0] for line in lines]


def test_pine_is_many():
    """A vague name lists what it may mean and names none."""
    assert candidates("pine") == [
        "Eastern White Pine",
        "Mixed Southern Pine",
        "Southern Pine",
        "Spruce-Pine-Fir",
        "Spruce-Pine-Fir (South)",
    ]


def test_fir_with_a_grade_is_many():
    """ "#2 fir" may be eight species of Table 4A; a grade in it changes nothing."""
    assert set(candidates("#2 fir")) == {
        "Douglas Fir-Larch",
        "Douglas Fir-Larch (North)",
        "Douglas Fir-South",
        "Eastern Hemlock-Balsam Fir",
        "Hem-Fir",
        "Hem-Fir (North)",
        "Spruce-Pine-Fir",
        "Spruce-Pine-Fir (South)",
    }
    assert candidates("#2 fir") == candidates("fir")


def test_spf_south_is_not_guessed():
    """Two readings of south: the likely one stands first, none is taken."""
    listed = candidates("SPF south")
    assert listed[0] == "Spruce-Pine-Fir (South)"
    assert "Spruce-Pine-Fir" in listed


@pytest.mark.parametrize("text", ["", "   ", "?", "qwzx"])
def test_nothing_lists_everything(text):
    """No hint at all: every species on file."""
    assert candidates(text) == list(reference.species_names())


def test_a_grade_alone_is_called_a_grade():
    """The grade first: the error says so."""
    with pytest.raises(InputError, match="That is a grade: name the species first"):
        stamps.read_species("#2")


def test_name_without_its_hyphen_lists_the_plain_species_too():
    """ "hemfir" may be either of two: both are listed."""
    assert set(candidates("hemfir")) >= {"Hem-Fir", "Hem-Fir (North)"}


# Grades -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stamp", "grade"),
    [
        ("SS", "Select Structural"),
        ("SEL STR", "Select Structural"),
        ("select structural", "Select Structural"),
        ("1&BTR", "No. 1 & Btr"),
        ("#1", "No. 1"),
        ("No.1", "No. 1"),
        ("No. 1", "No. 1"),
        ("1", "No. 1"),
        ("#2", "No. 2"),
        ("2", "No. 2"),
        ("2&BTR", "No. 2"),
        ("2 & Btr", "No. 2"),
        ("#3", "No. 3"),
        ("3", "No. 3"),
        ("STUD", "Stud"),
        ("CONST", "Construction"),
        ("STAND", "Standard"),
        ("STD", "Standard"),
        ("STD&BTR", "Standard"),
        ("UTIL", "Utility"),
        ("1650f-1.5E", "1650f-1.5E"),
        ("1650F 1.5E", "1650f-1.5E"),
    ],
)
def test_grade_stamps(stamp, grade):
    """Grade words as stamped (common practice, from memory), on DF-L 2x4, which has them all."""
    assert lumber.wood("DF-L", stamp, "2x4").row.grade == grade


def test_better_is_designed_as_its_lower_grade():
    """2&BTR takes the values of No. 2 and STD&BTR those of Standard, with a note; 1&BTR is a grade
    of Table 4A in its own right and needs none."""
    for stamp, plain in (("2&BTR", "#2"), ("STD&BTR", "STD")):
        wood = lumber.wood("DF-L", stamp, "2x4")
        assert wood.row == lumber.wood("DF-L", plain, "2x4").row
        assert any("is designed as" in note for note in wood.notes)
    assert lumber.wood("DF-L", "1&BTR", "2x4").notes == ()


def test_no_1_and_no_2_of_one_row():
    """NDS Supplement 2018, Table 4A prints SPF No. 1/No. 2 as one row: Fb 875, E 1,400,000 psi."""
    for stamp, word in (("#1", "No. 1"), ("#2", "No. 2")):
        wood = lumber.wood("SPF", stamp, "2x6")
        assert wood.row.grade == "No. 1/No. 2"
        assert (wood.row.values["Fb"].value, wood.row.values["E"].value) == (875, 1_400_000)
        assert f"Spruce-Pine-Fir prints {word} in its row No. 1/No. 2" in wood.notes
    assert lumber.wood("SPF", "No. 1/No. 2", "2x6").notes == ()
    assert lumber.wood("DF-L", "#1", "2x6").row.grade == "No. 1"  # two rows there


@pytest.mark.parametrize(
    ("species", "grade", "size", "words"),
    [
        ("SPF", "good", "2x6", r'grade = "good": not a grade on file of Spruce-Pine-Fir in 2x6'),
        ("SPF", "good", "2x6", r"Select Structural, No. 1/No. 2, No. 3, Stud, and machine-rated"),
        ("SPF", "", "2x6", r'grade = "": not a grade'),
        ("SPF", "1&BTR", "2x6", r'grade = "1&BTR": not a grade on file of Spruce-Pine-Fir'),
        ("DF-L", "CONST", "2x6", r'grade = "CONST": .* in 2x6'),  # light framing: 2-4 in wide
        ("DF-L", "STD&BTR", "2x6", r'grade = "STD&BTR": .* in 2x6'),
        ("DF-L", "Stud", "6x8", r'grade = "Stud": .* in 6x8\. It has: Dense Select Structural'),
        ("SPF", "1650f-1.5E", "3x6", r"in 3x6\. It has: Select Structural, .*Stud\.$"),
        ("Aspen", "#2", "6x6", r"of Aspen in 6x6\. It has: none"),
    ],
)
def test_grades_that_do_not_exist(species, grade, size, words):
    """Each error names the field, what was written, and the grades that there are."""
    with pytest.raises(InputError, match=words):
        lumber.wood(species, grade, size)


# Sizes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "b", "d"),
    [
        ("2x4", 1.5, 3.5),
        ("2x6", 1.5, 5.5),
        ("2 x 8", 1.5, 7.25),
        ("2X10", 1.5, 9.25),
        ("2×12", 1.5, 11.25),
        ("4x6", 3.5, 5.5),
        ("4x16", 3.5, 15.25),
    ],
)
def test_dressed_sizes(text, b, d):
    """NDS Supplement 2018, Table 1A: dry dressed sizes, as the spans of the IRC 2018 want them, and
    the American Wood Council's example E1.2a (4x16)."""
    size = dressed.read_size(text)
    assert (size.b, size.d, size.status, size.is_timber) == (b, d, "SEEN", False)


def test_dressed_sizes_of_a_program_alone():
    """NDS Supplement 2018, Table 1A, in XC (xcfem/xc): 3 in and 14 in are second-hand."""
    for text, b, d in (("3x4", 2.5, 3.5), ("2x14", 1.5, 13.25)):
        size = dressed.read_size(text)
        assert (size.b, size.d, size.status) == (b, d, "SECOND-HAND")


@pytest.mark.parametrize(
    ("text", "b", "d", "kind"),
    [
        ("5x5", 4.5, 4.5, "Posts & Timbers"),
        ("6x6", 5.5, 5.5, "Posts & Timbers"),
        ("6x8", 5.5, 7.25, "Posts & Timbers"),  # 2 in more is not more than 2 in
        ("6x10", 5.5, 9.25, "Beams & Stringers"),
        ("8x10", 7.25, 9.25, "Posts & Timbers"),
        ("8x12", 7.25, 11.25, "Beams & Stringers"),
    ],
)
def test_timber_sizes_and_classes(text, b, d, kind):
    """NDS Supplement 2018, Table 4D: Beams & Stringers are more than 2 in deeper than thick
    (nominal). Their dressed sizes are from memory, and the size says so."""
    size = dressed.read_size(text)
    assert (size.b, size.d, size.timber_class, size.status) == (b, d, kind, "MEMORY")
    assert lumber.wood("DF-L", "#1", text).row.size_class == kind
    assert "dressed size" in lumber.wood("DF-L", "#1", text).unverified


def test_timber_classes_have_their_own_values():
    """NDS Supplement 2018, Table 4D (transcribed): DF-L No. 1 Fb 1200 psi as a post, 1350 as a
    beam."""
    post, beam = (lumber.wood("DF-L", "#1", size) for size in ("6x8", "6x10"))
    assert (post.row.values["Fb"].value, beam.row.values["Fb"].value) == (1200, 1350)


def test_five_inches_is_where_timbers_begin():
    """NDS Supplement 2018, Table 4D: 5x5 and larger; 4 in thick is dimension lumber."""
    assert lumber.wood("DF-L", "#1", "4x12").row.kind == "dimension"
    assert lumber.wood("DF-L", "#1", "5x12").row.kind == "timber"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2x7", r'size = "2x7": no such size\. Dressed sizes on file: 2x2, .*2x6, 2x8'),
        ("1x6", r'size = "1x6": no such size'),
        ("6x14", r'size = "6x14": no such size\. Dressed sizes on file: 5x5, .*6x12'),
        ("6x2", r'size = "6x2": the smaller side comes first: "2x6"; laid = "flat" turns it'),
        ("10x4", r'size = "10x4": the smaller side comes first: "4x10"'),
        ("", r'size = "": not a size\. Write it as sold, "2x6"'),
        ("2", r'size = "2": not a size'),
        ("2x6x8", r'size = "2x6x8": not a size'),
        ("-2x6", r'size = "-2x6": not a size'),
        ("2x6 in", r'size = "2x6 in": not a size'),
        ("nan", r'size = "nan": not a size'),
    ],
)
def test_sizes_that_do_not_exist(text, words):
    """Each error names the field, what was written, and what is allowed."""
    with pytest.raises(InputError, match=words):
        lumber.wood("SPF", "#2", text)


# Machine rated lumber ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("species", "grade", "Fc_perp", "status"),
    [
        ("SPF", "1650f-1.5E", 425, "SEEN"),  # 1.0E and higher
        ("SPF", "2250f-1.7E", 425, "SEEN"),  # one step under 1.8E
        ("SPF", "2100f-1.8E", 525, "SECOND-HAND"),  # 1.8E and 1.9E
        ("SPF", "2250f-1.9E", 525, "SECOND-HAND"),
        ("SPF", "2400f-2.0E", 615, "SEEN"),  # 2.0E and higher
        ("DF-L", "2400f-1.8E", 625, "MEMORY"),  # 1.0E and higher
        ("DF-L", "2400f-2.0E", 670, "MEMORY"),  # 2.0E
        ("DF-L", "2550f-2.1E", 690, "MEMORY"),  # 2.1E
        ("SYP", "2250f-1.7E", 565, "MEMORY"),
        ("SYP", "2250f-1.8E", 805, "SEEN"),  # 1.8E and higher
        ("HF", "2400f-2.0E", 485, "MEMORY"),
        ("HF", "2700f-2.2E", 405, "MEMORY"),  # over the last row: 1.0E and higher, the lower value
    ],
)
def test_table_4c_footnote(species, grade, Fc_perp, status):
    """NDS Supplement 2018, Table 4C, footnote 2 (in part from memory): Fc_perp by species and E."""
    value = lumber.wood(species, grade, "2x6").row.values["Fc_perp"]
    assert (value.value, value.status) == (Fc_perp, status)


def test_hem_fir_1650f_takes_the_shear_value_that_was_read():
    """MSR Lumber Producers Council, msrlumber.org, Lumber Grades and Design Values: Hem-Fir
    1650f-1.5E G 0.43, Fv 145, Fc_perp 405 psi; 150 was recalled: the lesser, for 1.0E too."""
    values = lumber.wood("HF", "1650f-1.5E", "2x6").row.values
    found = {n: (values[n].value, values[n].status) for n in ("G", "Fv", "Fc_perp")}
    assert found == {"G": (0.43, "SEEN"), "Fv": (145, "SEEN"), "Fc_perp": (405, "SEEN")}
    other = lumber.wood("HF", "1200f-1.2E", "2x6").row.values["Fv"]
    assert (other.value, other.status) == (145, "MEMORY")


def test_machine_rated_is_two_inches_thick():
    """NDS Supplement 2018, Table 4C: 2 in and less in thickness (from memory)."""
    assert lumber.wood("SPF", "2100f-1.8E", "2x12").row.kind == "machine rated"
    for size in ("3x6", "4x6", "6x6"):
        with pytest.raises(InputError, match=re.escape(f"in {size}")):
            lumber.wood("SPF", "2100f-1.8E", size)


# Status -----------------------------------------------------------------------------------------


ALL = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G")
FACTORS = ("CF of Fb", "CF of Ft", "CF of Fc")
MEMORY, SECOND, OTHER = "MEMORY", "SECOND-HAND", "OTHER EDITION"
DERIVED = {"Emin": "DERIVED"}  # by the identity of the table's footnote: not read there


@pytest.mark.parametrize(
    ("species", "grade", "size", "unverified"),
    [
        ("SYP", "#2", "2x12", dict.fromkeys(FACTORS, SECOND)),  # the Southern Pine Use Guide
        ("SPF", "#2", "2x6", dict.fromkeys(ALL, SECOND)),  # transcriptions without an author
        ("Mixed Southern Pine", "#2", "2x6",
         dict.fromkeys(ALL, OTHER) | dict.fromkeys(FACTORS, SECOND)),  # the 2024 edition alone
        ("SPF", "2400f-2.0E", "2x6", dict.fromkeys(FACTORS, MEMORY) | DERIVED),  # msrlumber.org
        ("DF-L", "2400f-2.0E", "2x6",
         dict.fromkeys(("Fv", "Fc_perp", "G", *FACTORS), MEMORY) | DERIVED),
        # Emin is derived, the rest recalled
        ("SPF", "1350f-1.3E", "2x6",
         dict.fromkeys(("Fb", "Ft", "Fc", "E", *FACTORS), MEMORY) | DERIVED),
        ("DF-L", "#1", "6x8", dict.fromkeys(ALL, SECOND) | {"dressed size": MEMORY}),
    ],
)  # fmt: skip
def test_unverified_values_are_named(species, grade, size, unverified):
    """What was not read in a named source is named, with its status, and only that."""
    assert lumber.wood(species, grade, size).unverified == unverified


def test_a_reference_value_names_its_table():
    """A reference value carries value, unit, table and status into the calculation."""
    step = lumber.wood("SPF", "#2", "2x6").reference("Fb")
    assert (step.symbol, step.value, step.unit, step.status) == ("Fb", 875, "psi", "SECOND-HAND")
    assert step.clause == "NDS Supplement 2018, Table 4A"
    assert step.note == "Spruce-Pine-Fir No. 1/No. 2, 2 in & wider"


def test_every_grade_on_file_resolves():
    """Law: every row of every species can be reached through a stamp and some size."""
    sizes = [f"{b}x{d}" for b in (2, 4) for d in (2, 3, 4, 5, 6, 8, 10, 12, 14) if d >= b]
    sizes += ["3x4", "5x5", "6x6", "6x10"]
    count = 0
    for species in reference.species_names():
        for row in reference.grades(species):
            count += 1
            assert any(reaches(row, species, size) for size in sizes), (species, row.grade)
    assert count > 600


def reaches(row, species, size):
    try:
        return lumber.wood(species, row.grade, size).row == row
    except InputError:
        return False


def test_dense_structural_southern_pine_is_two_and_a_half_inches_thick():
    """NDS Supplement 2018, Table 4B: Dense Structural 86, 2 1/2 to 4 in thick (from memory)."""
    assert lumber.wood("SYP", "Dense Structural 86", "4x6").row.values["Fb"].value == 2600
    with pytest.raises(InputError, match="Dense Structural 86"):
        lumber.wood("SYP", "Dense Structural 86", "2x6")
