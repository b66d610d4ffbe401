"""Adjustment factors of sawn lumber: NDS 2018 4.3 and Table 4.3.1, Supplement 2018 Tables 4A to 4D.

The printed factors are held by `outrigger prove` (proof/data/factors.csv); here stand exceptions,
refusals and laws. Numbers are transcribed from transcriptions of those tables, not from print.
"""

import numpy as np
import pytest
from published import printed

from outrigger.base.errors import InputError
from outrigger.wood import adjusted as adjust
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions, adjusted

PROPERTIES = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")
WET, INCISED, REPEATED = Conditions(wet=True), Conditions(incised=True), Conditions(repetitive=True)


def factor(symbol, name, wood, use, time=1.0):
    """One factor as it stands in the adjusted value of a property."""
    return adjusted(name, wood, use, time).inputs[symbol].value


def ratio(name, wood, use, time=1.0):
    """The adjusted value over that of dry, plain use."""
    return adjusted(name, wood, use, time).value / adjusted(name, wood, Conditions(), time).value


# Wet service, 4.3.3 -----------------------------------------------------------------------------


def test_dry_lumber_has_no_wet_service_factor():
    for stamp in (("DF-L", "SS", "2x6"), ("SPF", "2100f-1.8E", "2x6"), ("DF-L", "#1", "6x10")):
        wood = lumber.wood(*stamp)
        assert {factor("CM", name, wood, Conditions()) for name in PROPERTIES} == {1.0}


@pytest.mark.parametrize(
    ("stamp", "tabulated", "CM"),
    [
        # Fb CF, 1,150 psi; Fb and CF of Table 4A (transcribed)
        (("Alaska Spruce", "#1", "2x8"), 1140, 1.0),  # 950 x 1.2
        (("Alaska Cedar", "SS", "2x12"), 1150, 1.0),  # 1150 x 1.0: not over the limit
        (("Alaska Hemlock", "#2", "2x5"), 1155, 0.85),  # 825 x 1.4
        (("SPF", "#2", "2x6"), 1137.5, 1.0),  # 875 x 1.3
        (("SPF", "#2", "2x4"), 1312.5, 0.85),  # 875 x 1.5
    ],
)
def test_exception_of_bending(stamp, tabulated, CM):
    """NDS Supplement 2018, Table 4A, wet service, footnote: CM 1.0 when Fb CF <= 1,150 psi."""
    wood = lumber.wood(*stamp)
    assert wood.row.values["Fb"].value * wood.CF["Fb"].value == pytest.approx(tabulated, rel=1e-12)
    assert factor("CM", "Fb", wood, WET) == CM


@pytest.mark.parametrize(
    ("stamp", "tabulated", "CM"),
    [
        # Fc CF, 750 psi; Fc and CF of Table 4A (transcribed)
        (("SPF", "#3", "2x4"), 747.5, 1.0),  # 650 x 1.15
        (("Alaska Cedar", "#2", "2x10"), 750, 1.0),  # 750 x 1.0: not over the limit
        (("Aspen", "SS", "2x8"), 761.25, 0.8),  # 725 x 1.05
    ],
)
def test_exception_of_compression(stamp, tabulated, CM):
    """NDS Supplement 2018, Table 4A, wet service, footnote: CM 1.0 when Fc CF <= 750 psi."""
    wood = lumber.wood(*stamp)
    assert wood.row.values["Fc"].value * wood.CF["Fc"].value == pytest.approx(tabulated, rel=1e-12)
    assert factor("CM", "Fc", wood, WET) == CM


def test_exception_comes_before_every_other_factor():
    """NDS Supplement 2018, Table 4A: Fb CF decides, not Fb CF CD Cr Ci: 1137.5 x 1.6 x 1.15 is over
    1,150 psi and CM stays 1.0; 1312.5 x 0.9 x 0.8 is under it and CM stays 0.85."""
    low, high = lumber.wood("SPF", "#2", "2x6"), lumber.wood("SPF", "#2", "2x4")
    assert factor("CM", "Fb", low, Conditions(wet=True, repetitive=True), 1.6) == 1.0
    assert factor("CM", "Fb", high, Conditions(wet=True, incised=True), 0.9) == 0.85


# Incising 4.3.8, repetitive 4.3.9 ---------------------------------------------------------------


def test_repetitive_raises_bending_only():
    """NDS 2018 4.3.9: Cr 1.15 on Fb, and on nothing else."""
    for stamp in (("HF", "#2", "2x8"), ("SYP", "#2", "4x12"), ("SPF", "2100f-1.8E", "2x6")):
        wood = lumber.wood(*stamp)
        assert factor("Cr", "Fb", wood, REPEATED) == 1.15
        assert [ratio(n, wood, REPEATED) for n in PROPERTIES] == pytest.approx(
            [1.15, 1, 1, 1, 1, 1, 1], rel=1e-12
        )


def test_incised_timber_is_refused():
    """NDS 2018 Table 4.3.8 is for dimension lumber: no factor is guessed for a timber."""
    wood = lumber.wood("DF-L", "#1", "6x8")
    for name in PROPERTIES:
        with pytest.raises(InputError, match=r"incised = true: .*no factor for timbers.* 6x8"):
            adjusted(name, wood, INCISED, 1.0)


def test_repetitive_timber_is_refused():
    """NDS 2018 4.3.9 is for lumber 2 to 4 in thick."""
    with pytest.raises(InputError, match=r"repetitive = true: .*2 to 4 in thick, not 6x8"):
        adjusted("Fb", lumber.wood("DF-L", "#1", "6x8"), REPEATED, 1.0)


# Flat use, 4.3.7 --------------------------------------------------------------------------------


@pytest.mark.parametrize(("grade", "on_E"), [("SS", 1.0), ("#1", 0.9), ("#2", 1.0)])
def test_flat_use_of_timbers(grade, on_E):
    """NDS Supplement 2018, Table 4D: No. 1 loses a tenth of E and Emin. Posts & Timbers: no
    reduction."""
    beam, post = (lumber.wood("DF-L", grade, size) for size in ("6x10", "6x8"))
    flat = Conditions(flat=True)
    for name in ("E", "Emin"):
        assert ratio(name, beam, flat) == pytest.approx(on_E, rel=1e-12)
        assert ratio(name, post, flat) == 1.0
    assert adjust.flat_use(post, True).value == 1.0
    # the table names no dense grades: each is read with its plain one, an interpretation
    dense = lumber.wood("DF-L", f"Dense {beam.row.grade}", "6x10")
    assert adjust.flat_use(dense, True).value == adjust.flat_use(beam, True).value


def test_flat_use_is_for_bending_of_lumber_laid_flat():
    for species in ("Hem-Fir", "Southern Pine"):
        for size in ("2x4", "2x10", "4x8"):
            wood = lumber.wood(species, "#2", size)
            assert adjust.flat_use(wood, True, "Cfu_E").value == 1.0
            assert adjust.flat_use(wood, False).value == 1.0


def test_flat_use_leaves_strength_alone():
    """Fb* is without Cfu (NDS 2018 3.3.3.8), and Cfu is for bending only (4.3.7)."""
    wood = lumber.wood("HF", "#2", "2x8")
    assert [ratio(n, wood, Conditions(flat=True)) for n in PROPERTIES] == [1.0] * 7


def test_flat_use_that_is_not_on_file():
    """No factor on file is an error in words: Dense Structural 86 timbers."""
    wood = lumber.wood("SYP", "Dense Structural 86", "6x10")
    with pytest.raises(InputError, match=r'laid = "flat": no flat-use factor .* 86 6x10'):
        adjust.flat_use(wood, True)


# Size, 4.3.6 ------------------------------------------------------------------------------------


@pytest.mark.parametrize("species", ["DF-L", "SYP"])
@pytest.mark.parametrize("size", ["2x8", "2x10", "4x12"])
def test_wide_stud_is_no_3(species, size):
    """NDS Supplement 2018, Table 4A, size factor: Stud 8 in and wider takes the values and the size
    factors of No. 3; 6 in is still Stud. In 4B there is no wider Stud row either."""
    stud, third = lumber.wood(species, "Stud", size), lumber.wood(species, "#3", size)
    assert (stud.row.grade, stud.row.values) == ("No. 3", third.row.values)
    assert [s.value for s in stud.CF.values()] == [s.value for s in third.CF.values()]
    assert "Stud 8 in and wider takes the values of No. 3" in stud.notes
    assert lumber.wood(species, "Stud", "2x6").row.grade == "Stud"


def test_southern_pine_over_12_in_takes_the_12_in_row():
    """NDS Supplement 2018, Table 4B: over 12 in wide, 0.9 of the 12 in values."""
    deep, twelve = lumber.wood("SYP", "#2", "2x14"), lumber.wood("SYP", "#2", "2x12")
    assert deep.row is twelve.row


def test_machine_rated_has_no_size_factor():
    """NDS Supplement 2018, Table 4C, from memory: CF does not apply."""
    wood = lumber.wood("SPF", "2100f-1.8E", "2x4")
    assert {n: s.value for n, s in wood.CF.items()} == {"Fb": 1.0, "Ft": 1.0, "Fc": 1.0}
    assert "CF of Fb" in wood.unverified


def test_timbers():
    """NDS Supplement 2018, Table 4D: CF is 1 up to 12 in deep; deeper ones are not on file, so
    (12/d)^(1/9) cannot be reached. By hand: it is 1 at 12 in and 1/2 at 12 x 2^9 in."""
    for size in ("6x6", "6x12", "12x12"):
        assert {s.value for s in lumber.wood("DF-L", "#1", size).CF.values()} == {1.0}
    with pytest.raises(InputError, match='size = "6x14": no such size'):
        lumber.wood("DF-L", "#1", "6x14")
    deep = lumber.size_factor_deep(np.array([12.0, 12.0 * 2**9]))
    assert deep == pytest.approx([1.0, 0.5], rel=1e-12)


def test_thickness_between_the_rows_is_not_taken_for_one():
    """NDS Supplement 2018, Table 4A, size factor: 14 in and wider is 0.9 on Ft at 2 to 3 in and at
    4 in thick, and nothing between: 3-1/2 in may not pass as 1.0 without a word."""
    for size in ("2.5x6", "3.5x14"):
        with pytest.raises(InputError, match=f'size = "{size}": no such size'):
            lumber.wood("DF-L", "#2", size)


@pytest.mark.parametrize(
    "one", [one for chosen in adjust.FORMULAS.values() for one in dict.fromkeys(chosen.values())],
    ids=lambda one: f"{one.symbol} {len(one.arguments)}",
)  # fmt: skip
def test_every_factor_multiplies(one):
    """NDS 2018 Table 4.3.1: a value times its factors, each of them another prime here."""
    primes = (2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0, 23.0)[: len(one.arguments)]
    assert one(*primes) == pytest.approx(np.prod(primes), rel=1e-12)


# LRFD, Appendix N -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [name for name in PROPERTIES if name != "E"])
def test_format_conversion(name):
    """NDS 2018 Tables N1 and N2: the value that KF and phi give from the ASD one at CD 1."""
    wood, lam = lumber.wood("DF-L", "#1", "4x8"), 0.8
    use = Conditions(method="LRFD")
    KF, phi = (factor(symbol, name, wood, use, lam) for symbol in ("KF", "phi"))
    timed = 1.0 if name in ("Fc_perp", "Emin") else lam
    asd = adjusted(name, wood, Conditions(), 1.0).value
    assert adjusted(name, wood, use, lam).value == pytest.approx(asd * KF * phi * timed, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Fb", "1616.66"),  # 900 x 1.3 x 0.8 x 2.54 x 0.85 x 0.8
        ("Ft", "1033.34"),  # 575 x 1.3 x 0.8 x 2.70 x 0.80 x 0.8
        ("Fv", "248.83"),  # 180 x 0.8 x 2.88 x 0.75 x 0.8
        ("Fc", "2052.86"),  # 1350 x 1.1 x 0.8 x 2.40 x 0.90 x 0.8
        ("Fc_perp", "939.38"),  # 625 x 1.0 x 1.67 x 0.90
        ("Emin", "824296"),  # 580,000 x 0.95 x 1.76 x 0.85
    ],
)
def test_incised_lumber_in_lrfd(name, value):
    """Tables 4.3.1 and 4.3.8: Ci multiplies in both methods; 2x6 DF-L No. 2, lambda 0.8."""
    wood, use = lumber.wood("DF-L", "#2", "2x6"), Conditions(method="LRFD", incised=True)
    assert adjusted(name, wood, use, 0.8).value == printed(value)


def test_lrfd_takes_the_factors_of_asd_less_CD():
    """NDS 2018 Table 4.3.1: the LRFD column is the ASD column less CD, plus KF, phi and lambda;
    lambda is not for Fc_perp and Emin, nor is CD; E takes none of them."""
    for name, methods in adjust.FORMULAS.items():
        asd, lrfd = set(methods["ASD"].arguments), set(methods["LRFD"].arguments)
        timed = name in ("Fb", "Ft", "Fv", "Fc")
        assert ("CD" in asd) == timed
        assert lrfd - asd == (
            set() if name == "E" else {"KF", "phi", "lam"} if timed else {"KF", "phi"}
        )
        assert asd - lrfd == ({"CD"} if timed else set())


def test_factors_of_every_property():
    """NDS 2018 Table 4.3.1, ASD column (transcribed), without CL, CP, Cfu and CT."""
    table = {
        "Fb": "CD CM Ct CF Ci Cr",
        "Ft": "CD CM Ct CF Ci",
        "Fv": "CD CM Ct Ci",
        "Fc_perp": "CM Ct Ci Cb",
        "Fc": "CD CM Ct CF Ci",
        "E": "CM Ct Ci",
        "Emin": "CM Ct Ci",
    }
    assert set(table) == set(adjust.FORMULAS)
    for name, factors in table.items():
        assert adjust.FORMULAS[name]["ASD"].arguments == (name, *factors.split())


def test_modulus_knows_no_method_and_no_duration():
    """NDS 2018 Table 4.3.1: E' is the same in ASD and LRFD, whatever CD and lambda."""
    wood = lumber.wood("SPF", "#2", "2x8")
    for time in (0.6, 0.9, 1.6):
        for method in ("ASD", "LRFD"):
            assert adjusted("E", wood, Conditions(method=method), time).value == 1_400_000


def test_duration_multiplies_what_it_is_for():
    """NDS 2018 2.3.2: over an array of CD, Fb Ft Fv Fc go with CD; Fc_perp, E, Emin do not."""
    wood = lumber.wood("SPF", "#2", "2x8")
    CD = np.array([0.9, 1.0, 1.15, 1.25, 1.6, 2.0])  # Table 2.3.2 (transcribed)
    for name in PROPERTIES:
        value, plain = (adjusted(name, wood, Conditions(), time).value for time in (CD, 1.0))
        timed = name in ("Fb", "Ft", "Fv", "Fc")
        assert value == pytest.approx(plain * (CD if timed else 1.0), rel=1e-12)


def test_factors_multiply():
    """By hand, HF No. 2 2x8, wet, incised, repetitive, 100 to 125 F, CD 1.15: Fb CF = 850 x 1.2 =
    1020 is not over 1,150 psi, so CM 1; 1020 x 1.15 x 0.7 x 0.8 x 1.15 = 755.412 psi. Fv 150 x
    1.15 x 0.97 x 0.7 x 0.8 = 93.702 psi. E 1,300,000 x 0.9 x 0.9 x 0.95 = 1,000,350 psi."""
    wood = lumber.wood("HF", "#2", "2x8")
    use = Conditions(wet=True, temperature="100 to 125 F", incised=True, repetitive=True)
    values = [adjusted(name, wood, use, 1.15).value for name in ("Fb", "Fv", "E")]
    assert values == pytest.approx([755.412, 93.702, 1_000_350], rel=1e-12)
