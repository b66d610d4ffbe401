"""Every formula of the package: printed equals computed, units balance, symbols in the notation."""

import ast
import importlib
import math
import pkgutil
import re
from fractions import Fraction

import numpy as np
import pytest

import outrigger
from outrigger.formula import algebra
from outrigger.formula.check import Check
from outrigger.formula.formula import Formula, Step, formula, given
from outrigger.formula.notation import NOTATION, symbol
from outrigger.formula.numbers import Element, pick
from outrigger.formula.text import in_numbers, in_symbols, line, show
from outrigger.wood.shear import IN_SHEAR


def all_formulas():
    found = {}
    for module in pkgutil.walk_packages(outrigger.__path__, "outrigger."):
        if module.name.endswith("__main__"):
            continue
        for name, value in vars(importlib.import_module(module.name)).items():
            if isinstance(value, Formula):
                found[id(value)] = pytest.param(value, id=name)
    return list(found.values())


FORMULAS = all_formulas()
every_formula = pytest.mark.parametrize("one", FORMULAS)

# exactly printable, all different, so that a swapped or lost symbol shows
NUMBERS = [1.25, 3.5, 2.75, 7.5, 0.875, 5.125, 4.25, 9.625, 6.5, 8.375, 0.75]


# the column constant lies below 1; the last term of a yield load is negative
WITHIN_RANGE = {"c": 0.875, "C_dowel": -2.75}


def numbers_for(one):
    return dict(zip(one.arguments, NUMBERS, strict=False)) | {
        name: value for name, value in WITHIN_RANGE.items() if name in one.arguments
    }


def evaluate(printed):
    """Python's own arithmetic on a printed line."""
    text = re.sub(r"(?<=\d),(?=\d{3})", "", printed)
    for written, python in (("×", "*"), ("^", "**"), ("−", "-"), ("√", "sqrt")):
        text = text.replace(written, python)
    text = text.replace("least of ", "min").replace("greatest of ", "max")
    trade = {"sin": lambda a: math.sin(math.radians(a)), "cos": lambda a: math.cos(math.radians(a))}
    return eval(text, {"sqrt": math.sqrt, "min": min, "max": max, **trade})


def test_there_are_formulas():
    assert len(FORMULAS) > 30


@every_formula
def test_printed_numbers_equal_computed(one):
    numbers = numbers_for(one)
    assert evaluate(in_numbers(one, numbers)) == pytest.approx(one(**numbers), rel=1e-12)


@every_formula
def test_printed_symbols_equal_computed(one):
    """The symbolic line, each symbol replaced by its number, gives the same value."""
    numbers = numbers_for(one)
    by_text = {symbol(name).text: value for name, value in numbers.items()}
    assert len(by_text) == len(numbers), "two arguments print alike"
    tokens = re.split(r"( [+×−/] |\^|[()√]|least of |, |−)", in_symbols(one))
    line = "".join(repr(by_text[t]) if t in by_text else t for t in tokens)
    assert evaluate(line) == pytest.approx(one(**numbers), rel=1e-12)


@every_formula
def test_algebra_equals_computed(one):
    """sympy's expression, at exact rationals."""
    numbers = numbers_for(one)
    exact = algebra.expression(one)
    exact = exact.subs({s: Fraction(numbers[s.name]) for s in exact.free_symbols})
    assert float(exact) == pytest.approx(one(**numbers), rel=1e-12)
    assert {s.name for s in algebra.expression(one).free_symbols} <= set(one.arguments)


def has_fractional_power(one):
    powers = (n.right for n in ast.walk(one.tree) if getattr(n, "op", None).__class__ is ast.Pow)
    return any(eval(ast.unparse(p)) % 1 for p in powers)


@every_formula
def test_arrays_equal_floats(one):
    numbers = numbers_for(one)
    arrays = {name: np.array([[value], [value * 1.125]]) for name, value in numbers.items()}
    other = {name: value * 1.125 for name, value in numbers.items()}
    result = np.asarray(one(**arrays))
    if has_fractional_power(one):  # numpy's loops and the C library differ in the last bit
        numbers, other = ({k: np.array([v]) for k, v in x.items()} for x in (numbers, other))
    assert result[0, 0] == np.asarray(one(**numbers)).item()
    assert result[1, 0] == np.asarray(one(**other)).item()


@every_formula
def test_symbols_units_and_words(one):
    assert all(name in NOTATION for name in (one.symbol, *one.arguments))
    assert symbol(one.symbol).unit == one.unit
    assert one.meaning.endswith(".")
    assert one.clause


DIMENSIONS = {  # powers of (lb, in, ft, mph): inches and feet do not mix
    "": (0, 0, 0, 0),
    "in": (0, 1, 0, 0),
    "in2": (0, 2, 0, 0),
    "in3": (0, 3, 0, 0),
    "in4": (0, 4, 0, 0),
    "lb": (1, 0, 0, 0),
    "psi": (1, -2, 0, 0),
    "lb-in": (1, 1, 0, 0),
    "lb/in": (1, -1, 0, 0),
    "lb-in2": (1, 2, 0, 0),
    "ft": (0, 0, 1, 0),
    "sf": (0, 0, 2, 0),
    "psf": (1, 0, -2, 0),
    "plf": (1, 0, -1, 0),
    "pcf": (1, 0, -3, 0),
    "mph": (0, 0, 0, 1),
    # units that an empirical constant carries so that the line balances
    "ft^(2/3)/psf^(1/4)": (Fraction(-1, 4), 0, Fraction(7, 6), 0),
    "lb/in^2.5": (1, Fraction(-5, 2), 0, 0),
    "ft/(psf^0.74 ft^0.70/pcf)^(1/2)": (Fraction(13, 100), 0, Fraction(-11, 100), 0),
    "psf/mph2": (1, 0, -2, -2),
    "1/ft": (0, 0, -1, 0),
    "1/sf": (0, 0, -2, 0),
    "deg": (0, 0, 0, 0),
    "in/lb": (-1, 1, 0, 0),
    "1/in": (0, -1, 0, 0),
    "lb/in^(7/4)": (1, Fraction(-7, 4), 0, 0),
    "psi in^(1/2)": (1, Fraction(-3, 2), 0, 0),
}


def dimension(one, node):
    """Powers of lb and in of a node; sums of unlike units raise."""
    match node:
        case ast.Name(id=name):
            return tuple(map(Fraction, DIMENSIONS[symbol(name).unit]))
        case ast.Constant():
            return tuple(map(Fraction, DIMENSIONS[one.constants.get(one.constant(node), "")]))
        case ast.UnaryOp(operand=operand):
            return dimension(one, operand)
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            power = Fraction(eval(ast.unparse(right))).limit_denominator(1000)
            return tuple(p * power for p in dimension(one, left))
        case ast.BinOp(left=left, op=op, right=right):
            a, b = dimension(one, left), dimension(one, right)
            if isinstance(op, ast.Mult):
                return tuple(x + y for x, y in zip(a, b, strict=True))
            if isinstance(op, ast.Div):
                return tuple(x - y for x, y in zip(a, b, strict=True))
            if a != b:
                raise ValueError(f"{one.symbol}: adds {a} to {b}")
            return a
        case ast.Call(func=ast.Name(id="sqrt"), args=[inner]):
            return tuple(p / 2 for p in dimension(one, inner))
        case ast.Call(func=ast.Name(id="sin_deg" | "cos_deg"), args=[ast.Name(id=angle)]):
            if symbol(angle).unit != "deg":
                raise ValueError(f"{one.symbol}: an angle in {symbol(angle).unit}")
            return DIMENSIONS[""]
        case ast.Call(func=ast.Name(id="least" | "greatest"), args=arguments):
            (single,) = {dimension(one, a) for a in arguments}
            return single
    raise TypeError(ast.dump(node))


@every_formula
def test_units_balance(one):
    assert dimension(one, one.tree) == DIMENSIONS[one.unit]


def test_every_marked_constant_is_used():
    for parameter in FORMULAS:
        (one,) = parameter.values
        used = {one.constant(n) for n in ast.walk(one.tree) if isinstance(n, ast.Constant)}
        assert set(one.constants) <= used


def test_unlike_units_are_caught():
    """The balance test can fail: stress plus length."""

    @formula("fb", "psi", clause="none")
    def wrong(Fb, d):
        """Wrong on purpose."""
        return Fb + d

    with pytest.raises(ValueError, match="fb: adds"):
        dimension(wrong, wrong.tree)


def test_more_than_one_return_is_refused():
    @formula("fb", "psi", clause="none")
    def wrong(M, S):
        """Wrong on purpose."""
        half = M / 2
        return half / S

    with pytest.raises(TypeError, match="wrong: a formula is one return of arithmetic"):
        _ = wrong.tree


def test_parentheses_where_arithmetic_needs_them():
    """By hand: each printed form keeps the order of Python's own arithmetic."""

    @formula("RB", "", clause="none")
    def nested(b, d, le, lu):
        """Nested on purpose."""
        return (b / d) ** 2 - (le - (lu - b)) / (d * b) * (le / lu) - -(b ** (1 / 9))

    assert in_symbols(nested) == "(b / d)^2 − (ℓe − (ℓu − b)) / (d × b) × (ℓe / ℓu) − (−b^(1 / 9))"


def test_negative_numbers_are_put_in_with_parentheses_under_a_power():
    @formula("A", "in2", clause="none")
    def squared(b):
        """A square."""
        return b**2

    assert in_numbers(squared, {"b": -3.0}) == "(−3)^2"


def test_a_negative_number_behind_a_sign_stands_in_parentheses():
    @formula("M", "lb-in", clause="none")
    def sums(P, a, V, b):
        """A sum of products."""
        return P * a + V * b

    numbers = {"P": -3.0, "a": 2.0, "V": -4.0, "b": -5.0}
    assert in_numbers(sums, numbers) == "−3 × 2 + (−4) × (−5)"


def test_step_prints_words_numbers_and_value_of_one_element():
    @formula("fb", "psi", clause="NDS 3.3.2")
    def stress(M, S):
        """Bending stress."""
        return M / S

    step = stress.step(M=np.array([[1000.0, 2000.0]]), S=given("S", 7.5625, "in3", note="2x6"))
    assert line(step, Element(0, 1)) == "fb = M / S = 2000 / 7.5625 = 264.46 psi"
    assert [s.symbol for s in step.chain()] == ["S", "fb"]
    assert line(given("CD", 1.15)) == "CD = 1.15"


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (1, "1"), (0.000123456, "0.00012346"), (7.5625, "7.5625"), (264.4628, "264.46"),
     (9999.96, "10000"), (580000, "580,000"), (-2.5, "−2.5"), (1.150, "1.15"), (100.0, "100")],
)  # fmt: skip
def test_numbers_for_people(value, text):
    assert show(value) == text


def check_of(demand, capacity, rule=""):
    return Check(
        link=IN_SHEAR, place="edge", clause="NDS 3.4.2", demand=demand, capacity=capacity,
        unit="psi", steps=(), rule=rule,
    )  # fmt: skip


def test_worst_is_the_largest_ratio_not_the_largest_demand():
    """By hand: 100/200 = 0.50 governs over 110/275 = 0.40."""
    check = check_of(np.array([[100.0, 110.0]]), np.array([[200.0, 275.0]]))
    ratio, index = check.worst()
    assert (ratio[0], index[0]) == (0.5, 0)


def test_status_of_a_check():
    assert check_of(1.0, 1.0).status() == "pass"  # a ratio of exactly 1 passes
    assert check_of(np.nextafter(1.0, 2), 1.0).status() == "fail"
    assert check_of(1.0, None).status() == "open"
    assert check_of(0.5, 1.0, "open").status() == "open"
    assert check_of(1.5, 1.0, "open").status() == "fail"
    assert check_of(0.1, 1.0, "fail").status() == "fail"
    assert check_of(0.0, 0.0).status() == "pass"  # demand 0 is ratio 0
    assert check_of(1.0, 0.0).status() == "fail"
    assert check_of(math.nan, 1.0).status() == "fail"  # never a pass in silence


def test_a_check_without_capacity_has_no_worst():
    with pytest.raises(ValueError, match="shear at edge: no capacity is given"):
        check_of(1.0, None).worst()


def test_pick_broadcasts():
    assert pick(3.0, Element(1, 2)) == 3.0
    assert pick(np.array([[1.0], [2.0]]), Element(1, 2)) == 2.0
    assert pick(np.array([[1.0, 2.0, 3.0]]), Element(1, 2)) == 3.0


def test_steps_take_steps_and_numbers():
    inner = given("S", 2.0, "in3")
    assert isinstance(inner, Step)
    for parameter in FORMULAS:
        (one,) = parameter.values
        numbers = numbers_for(one)
        stepped = {n: given(n, v, symbol(n).unit) for n, v in numbers.items()}
        assert one.step(**stepped).value == one(**numbers)
