"""Lengths, loads and pressures as the trade writes them; printing to sixteenths.

Expected values are the arithmetic of the words themselves: a foot is 12 in, so 2 ft 6 1/2 in is
24 + 6.5 = 30.5 in, 144 psf is 1 psi, 120 plf is 10 lb/in.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outrigger.base import quantity
from outrigger.base.errors import InputError

SEVEN_AND_A_HALF = [
    "7 1/2 in", "7-1/2 in", '7 1/2"', '7-1/2"', "7.5 in", '7.5"', "7½ in", "7 ½ in", '7½"',
    "7 1/2″", "7 1/2”", "7½ inches", "7 1/2 inch", "7 1/2 in.", "7 1/2in", "  7  1/2   in ",
    "7 1/2 IN", "7 1/2''", "15/2 in", "7 1/2 in o.c.",
]  # fmt: skip
TWO_AND_A_HALF_FEET_AND_A_HALF = [
    "2'-6 1/2\"", "2' 6 1/2\"", "2'6 1/2\"", "2'-6-1/2\"", "2'-6½\"", "2′-6 1/2″", "2’-6 1/2”",
    "2‘-6½“", "2 ft 6 1/2 in", "2 ft-6 1/2 in", "2 ft. 6 1/2 in.", "2 feet 6.5 inches",
    "30.5 in", "30 1/2\"", "30½″", "2'-6 1/2''", "2 FT 6 1/2 IN",
]  # fmt: skip


@pytest.mark.parametrize("text", SEVEN_AND_A_HALF)
def test_inches_and_a_half(text):
    assert quantity.read(text, "length") == 7.5


@pytest.mark.parametrize("text", TWO_AND_A_HALF_FEET_AND_A_HALF)
def test_feet_and_inches(text):
    """2 x 12 + 6 1/2 = 30 1/2 in."""
    assert quantity.read(text, "length") == 30.5


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("7 in", 7),
        ('30"', 30),
        ("2 ft 6 in", 30),
        ("3 ft", 36),
        ("1 foot", 12),
        ("3'", 36),
        ("2.5 ft", 30),
        ("2 1/2 ft", 30),
        ("1/2'", 6),
        ("6'-0\"", 72),
        ("6'-½\"", 72.5),
        ("0'-7 1/2\"", 7.5),
        ("16 in o.c.", 16),
        ('16" o.c.', 16),
        ("16 in oc", 16),
        ("16 IN O.C.", 16),
        ("16 in on center", 16),
        ("16 in on centre", 16),
        ("2 ft o.c.", 24),
        ("19.2 in o.c.", 19.2),
        ("7/16 in", 0.4375),
        (".5 in", 0.5),
        ("0 in", 0),
        ("6\N{NO-BREAK SPACE}in", 6),
    ],
)
def test_a_length(text, inches):
    assert quantity.read(text, "length") == inches


@pytest.mark.parametrize(
    ("mark", "value"),
    [
        ("¼", 0.25), ("½", 0.5), ("¾", 0.75), ("⅛", 0.125), ("⅜", 0.375), ("⅝", 0.625),
        ("⅞", 0.875),
    ],
)  # fmt: skip
def test_a_fraction_in_one_character(mark, value):
    """Alone, right behind a whole number, and behind a blank."""
    assert quantity.read(f"{mark} in", "length") == value
    assert quantity.read(f"3{mark} in", "length") == 3 + value
    assert quantity.read(f"3 {mark}″", "length") == 3 + value
    assert quantity.read(f"1'-3{mark}\"", "length") == 15 + value


@pytest.mark.parametrize("text", ["1/3 in", "⅓ in"])
def test_a_third_is_not_rounded(text):
    """Any fraction is read exactly: the nearest double to 1/3."""
    assert quantity.read(text, "length") == float(Fraction(1, 3))


@given(st.integers(0, 200), st.integers(0, 63), st.sampled_from([2, 3, 4, 7, 8, 10, 16, 32, 64]))
def test_a_mixed_number_is_exact(whole, over, under):
    """Law: whole + over/under, as one fraction, and not the sum of two rounded numbers."""
    exact = float(whole + Fraction(over, under))
    assert quantity.read(f"{whole} {over}/{under} in", "length") == exact
    assert quantity.read(f"{whole}-{over}/{under} in", "length") == exact


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("144 psf", "pressure", 1),  # 144 sq in in a sq ft
        ("15 psf", "pressure", 15 / 144),
        ("15psf", "pressure", 15 / 144),
        ("15 PSF", "pressure", 15 / 144),
        ("33.6 psf", "pressure", 33.6 / 144),
        ("120 plf", "line load", 10),  # 12 in in a ft
        ("1,200 plf", "line load", 100),
        ("450 lb", "force", 450),
        ("450 lbs", "force", 450),
        ("450 lb.", "force", 450),
        ("1,200 lb", "force", 1200),
        ("1,234,567 lb", "force", 1234567),
        ("1,200.5 lb", "force", 1200.5),
        ("360 psi", "stress", 360),
        ("8000 lb/in", "stiffness", 8000),
        ("8,000 lb/in", "stiffness", 8000),
        ("115 mph", "speed", 115),
        ("0 plf", "line load", 0),
    ],
)
def test_a_load(text, kind, value):
    # psf and plf are divided by 144 and 12: one rounding of a double
    assert quantity.read(text, kind) == pytest.approx(value, rel=4e-16)


@pytest.mark.parametrize("kind", list(quantity.EXAMPLES))
def test_the_example_of_a_message_can_be_read(kind):
    assert quantity.read(quantity.EXAMPLES[kind], kind) > 0


@pytest.mark.parametrize(
    ("text", "kind", "fix"),
    [
        ("7", "length", '"7 in"'),
        ("7 1/2", "length", '"7 1/2 in"'),
        ("7½", "length", '"7 1/2 in"'),
        ("15", "pressure", '"15 psf"'),
        ("120", "line load", '"120 plf"'),
        ("450", "force", '"450 lb"'),
        ("360", "stress", '"360 psi"'),
    ],
)
def test_no_unit_shows_the_fix(text, kind, fix):
    with pytest.raises(InputError, match="has no unit") as told:
        quantity.read(text, kind)
    assert fix in str(told.value)


@pytest.mark.parametrize(
    ("number", "kind", "fix"),
    [(7, "length", '"7 in"'), (7.5, "length", '"7.5 in"'), (15, "pressure", '"15 psf"')],
)
def test_a_bare_number_shows_the_fix(number, kind, fix):
    with pytest.raises(InputError, match="needs text with a unit") as told:
        quantity.read(number, kind)
    assert fix in str(told.value)


@pytest.mark.parametrize("value", [True, False, float("nan"), float("inf"), None, [], {}, ["7 in"]])
@pytest.mark.parametrize("kind", list(quantity.EXAMPLES))
def test_not_text(value, kind):
    with pytest.raises(InputError, match="needs text with a unit") as told:
        quantity.read(value, kind)
    assert quantity.EXAMPLES[kind] in str(told.value)


@pytest.mark.parametrize(
    ("text", "kind", "said"),
    [
        ("15 plf", "pressure", "line load"),
        ("15 psi", "pressure", "stress"),
        ("15 lb", "pressure", "force"),
        ("15 psf", "line load", "pressure"),
        ("450 lb", "line load", "force"),
        ("15 psf", "force", "pressure"),
        ("360 psf", "stress", "pressure"),
        ("15 psf", "length", "pressure"),
        ("7 in", "pressure", "length"),
        ("2'-6\"", "force", "length"),
        ("16 in o.c.", "line load", "length"),
        ("8000 lb", "stiffness", "force"),
        ("8000 lb/in", "force", "stiffness"),
        ("115 mph", "pressure", "speed"),
    ],
)
def test_another_kind_of_unit(text, kind, said):
    """Names what was written, what is needed, and shows one."""
    with pytest.raises(InputError, match=f"a {said}.* but a {kind} is needed") as told:
        quantity.read(text, kind)
    assert quantity.EXAMPLES[kind] in str(told.value)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("-7 in", "length"), ("−7 in", "length"), ("- 7 in", "length"), ("–1/2 in", "length"),
     ("-2'-6\"", "length"), ("-15 psf", "pressure"), ("-120 plf", "line load")],
)  # fmt: skip
def test_negative(text, kind):
    with pytest.raises(InputError, match="negative: give the size"):
        quantity.read(text, kind)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1,2 psf", "pressure"),  # never 12, and 1.2 is not guessed
        ("1,25 psf", "pressure"),
        ("12,5 in", "length"),
        ("1,2 in", "length"),
        ("1,0000 lb", "force"),
        ("1,2,345 lb", "force"),
        ("1e3 lb", "force"),
        ("nan in", "length"),
        ("inf psf", "pressure"),
        ("infinity lb", "force"),
        ("", "length"),
        ("in", "length"),
        ("o.c.", "length"),
        ("16 o.c.", "length"),
        ("2'6", "length"),
        ("3 ft 6", "length"),
        ("6 in 2 ft", "length"),
        ("1 1/2 1/2 in", "length"),
        ("1½½ in", "length"),
        ("1.5 1/2 in", "length"),
        ("7..5 in", "length"),
        ("7.5.2 in", "length"),
        ("6 1/2.5 in", "length"),
        ("7 in to 8 in", "length"),
        ("about 7 in", "length"),
        ("7 mm", "length"),
        ("7 m", "length"),
        ("(7) in", "length"),
        ("15 psf psf", "pressure"),
        ("psf", "pressure"),
    ],
)
def test_not_a_quantity(text, kind):
    with pytest.raises(InputError, match=f"not a {kind}. Write it as") as told:
        quantity.read(text, kind)
    assert quantity.EXAMPLES[kind] in str(told.value)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("1/0 in", "length"), ("2 1/0 in", "length"), ("1/00 in", "length"), ("1/0 ft", "length"),
     ("2 ft 1/0 in", "length"), ("1/0 psf", "pressure"), ("1/0 lb", "force")],
)  # fmt: skip
def test_a_fraction_over_zero(text, kind):
    with pytest.raises(InputError, match="a fraction over zero"):
        quantity.read(text, kind)


@pytest.mark.parametrize("text", ["½6 in", "7½2 in", "2'-½6\""])
def test_a_digit_behind_a_fraction_character(text):
    """½6 in is no length: not 1/26 in, and 7½2 in is not 7 1/22 in."""
    with pytest.raises(InputError, match="not a length"):
        quantity.read(text, "length")


@pytest.mark.parametrize(("text", "kind"), [("0,500 psf", "pressure"), ("0,125 plf", "line load")])
def test_a_decimal_comma_with_three_digits(text, kind):
    """No thousands are written with a leading zero: 0,500 is a half, never 500."""
    with pytest.raises(InputError, match="not a"):
        quantity.read(text, kind)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("9" * 400 + " in", "length"), ("9" * 400 + " lb", "force"), ("9" * 5000 + " lb", "force")],
)
def test_a_number_too_large(text, kind):
    with pytest.raises(InputError, match=f"too long for a {kind}. Write it as"):
        quantity.read(text, kind)


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (11.99, "1'-0\""),  # rounds to 12 in before the feet are split off: never 0'-12"
        (47.25, "3'-11 1/4\""),
        (35.99, "3'-0\""),
        (35.9687, "2'-11 15/16\""),  # 15.499 sixteenths
        (35.9688, "3'-0\""),  # 15.501 sixteenths
        (12, "1'-0\""),
        (11.9375, "0'-11 15/16\""),
        (30.5, "2'-6 1/2\""),
        (0.5, "0'-1/2\""),
        (0, "0'-0\""),
        (144, "12'-0\""),
        (-47.25, "-3'-11 1/4\""),
        (-0.01, "0'-0\""),
    ],
)
def test_printed_in_feet_and_inches(inches, printed):
    assert quantity.feet_and_inches(inches) == printed


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (9.75, "9 3/4 in"),
        (7.5, "7 1/2 in"),
        (0.4375, "7/16 in"),
        (0.9999, "1 in"),
        (11.99, "12 in"),
        (7, "7 in"),
        (0, "0 in"),
        (0.1875, "3/16 in"),
        (-1.5, "-1 1/2 in"),
    ],
)
def test_printed_in_sixteenths(inches, printed):
    assert quantity.sixteenths(inches) == printed


@pytest.mark.parametrize(
    ("inches", "printed"),
    [(24, "24 in"), (36, "3 ft"), (48, "4 ft"), (37, "37 in"), (35.9375, "35 15/16 in")],
)
def test_printed_as_people_say_it(inches, printed):
    """Whole feet from 3 ft on, else inches."""
    assert quantity.length(inches) == printed


@given(st.integers(0, 16 * 12 * 40))
def test_what_is_printed_reads_back(sixteenths):
    """Law: any whole number of sixteenths comes back to the last bit, however it is printed."""
    inches = sixteenths / 16
    for printer in (quantity.sixteenths, quantity.feet_and_inches, quantity.length):
        assert quantity.read(printer(inches), "length") == inches


@given(st.floats(0, 480))
def test_printing_is_within_half_a_sixteenth(inches):
    """Law: no printed length is off by more than 1/32 in, and both printers agree."""
    back = quantity.read(quantity.feet_and_inches(inches), "length")
    assert abs(back - inches) <= 1 / 32
    assert quantity.read(quantity.sixteenths(inches), "length") == back


@given(st.text(max_size=20), st.sampled_from(list(quantity.EXAMPLES)))
def test_any_text_is_read_or_refused(text, kind):
    """Law: a number of zero or more, or an InputError; never another exception."""
    try:
        value = quantity.read(text, kind)
    except InputError:
        return
    assert 0 <= value < float("inf")
