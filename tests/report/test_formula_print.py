"""Every formula in Typst and MathML: what is printed, worked out again, is what is computed.

The readers here know nothing of the printers: Typst's math by its own grammar (fractions, powers,
roots, attachments, strings), MathML by its elements.
"""

import math
import re
import xml.etree.ElementTree as ElementTree

import pytest
from test_formulas import FORMULAS, every_formula, numbers_for

from outrigger.formula import layout as maths
from outrigger.formula.formula import Step, Terms, formula, given
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Element
from outrigger.formula.text import line
from outrigger.report.write import typeset

TRADE = {
    "sqrt": math.sqrt, "min": min, "max": max, "abs": abs,
    "sin": lambda a: math.sin(math.radians(a)), "cos": lambda a: math.cos(math.radians(a)),
    "frac": lambda a, b: a / b,
}  # fmt: skip


def typst_value(source, names=None):
    """The value of Typst math; `names`: of its symbols, longest first."""
    text = source
    for written, value in sorted((names or {}).items(), key=lambda p: -len(p[0])):
        text = text.replace(written, f"({value!r})")
    text = re.sub(r'"([\d,.]+)/([\d.]+)"', r"(\1/\2)", text)  # an exponent on one line
    text = re.sub(
        r'"(−?)([\d,.]+)"', lambda m: m[1].replace("−", "-") + m[2].replace(",", ""), text
    )
    for written, python in (
        ('"least of "', "min"), ('"greatest of "', "max"), ('"sin"', "sin"), ('"cos"', "cos"),
        ('", "', ","), ("times", "*"), ("minus", "-"), ("^", "**"), ("slash", "/"),
    ):  # fmt: skip
        text = text.replace(written, python)
    return eval(text, {"__builtins__": {}, **TRADE})


def mathml_value(source, names=None):
    """The value of MathML; `names`: values by the text of a symbol's element."""
    return eval(mathml_text(ElementTree.fromstring(f"<math>{source}</math>"), names or {}),
                {"__builtins__": {}, **TRADE})  # fmt: skip


def mathml_text(node, names):
    if node.tag in ("mi", "msub", "msubsup") or (node.tag == "msup" and node[1].tag == "mo"):
        return repr(names["".join(node.itertext())])
    parts = [mathml_text(one, names) for one in node]
    match node.tag:
        case "math" | "mrow":
            return "".join(parts)
        case "mfrac":
            return f"(({parts[0]})/({parts[1]}))"
        case "msqrt":
            return f"sqrt({''.join(parts)})"
        case "mn":
            return node.text.replace(",", "")
        case "mo":
            return {"×": "*", "−": "-"}.get(node.text, node.text)
        case "mtext":
            said = node.text.replace("\N{NO-BREAK SPACE}", " ")
            said = {"least of ": "min", "greatest of ": "max", ", ": ","}.get(said, said)
            return said.replace("−", "-")
        case "msup":
            return f"({parts[0]})**({parts[1]})"
    raise AssertionError(node.tag)


@every_formula
def test_typst_numbers_equal_computed(one):
    numbers = numbers_for(one)
    part = maths.with_numbers(one, numbers)
    for printed in (maths.typst(part), maths.typst(part, low=False), maths.typst(part, True)):
        assert typst_value(printed) == pytest.approx(one(**numbers), rel=1e-12)
    terms = " ".join(map(maths.typst, maths.terms(part)))  # cut at its signs, nothing is lost
    assert typst_value(terms) == pytest.approx(one(**numbers), rel=1e-12)


@every_formula
def test_typst_symbols_equal_computed(one):
    numbers = numbers_for(one)
    names = {maths.typst(maths.Sign(symbol(n))): value for n, value in numbers.items()}
    assert len(names) == len(numbers), "two arguments print alike"
    used = {n: v for n, v in names.items() if len(n) > 1 or n.isalpha()}
    # a symbol of one letter stands alone, or it would be part of a word
    text = maths.typst(maths.in_symbols(one))
    for written, value in sorted(used.items(), key=lambda p: -len(p[0])):
        text = re.sub(
            rf'(?<![\w"\'])(?<!_){re.escape(written)}(?![\w"\'(])(?!_"|\^\*)', f"({value!r})", text
        )
    assert typst_value(text) == pytest.approx(one(**numbers), rel=1e-12)


@every_formula
def test_mathml_numbers_equal_computed(one):
    numbers = numbers_for(one)
    printed = maths.mathml(maths.with_numbers(one, numbers))
    assert mathml_value(printed) == pytest.approx(one(**numbers), rel=1e-12)


@every_formula
def test_mathml_symbols_equal_computed(one):
    numbers = numbers_for(one)
    names = {}
    for name, value in numbers.items():
        sign = ElementTree.fromstring(f"<math>{maths.mathml(maths.Sign(symbol(name)))}</math>")
        names["".join(sign.itertext())] = value
    assert len(names) == len(numbers), "two arguments print alike"
    printed = maths.mathml(maths.in_symbols(one))
    assert mathml_value(printed, names) == pytest.approx(one(**numbers), rel=1e-12)


def test_typst_takes_every_formula():
    """All of them set on one page, by the compiler itself, in symbols and in numbers."""
    import json

    import typst

    lines = []
    for parameter in FORMULAS:
        (one,) = parameter.values
        sides = (maths.in_symbols(one), maths.with_numbers(one, numbers_for(one)))
        lines.append(
            " = ".join(maths.typst(part) for part in (maths.Sign(symbol(one.symbol)), *sides))
        )
    source = b"""#set page(height: auto)
#for one in json(bytes(sys.inputs.data)) [#eval(one, mode: "math") \\ ]"""
    made = typst.Compiler(
        source, font_paths=typeset._fonts(), sys_inputs={"data": json.dumps(lines)}
    ).compile(format="pdf")
    assert made.startswith(b"%PDF")


def test_a_fraction_or_sum_under_a_power_stands_in_parentheses():
    """By hand: (d / b)^2, (a + t)^2; a plain number does not."""

    @formula("M", "lb-in", clause="none")
    def powers(d, b, a, t):
        """On purpose."""
        return (d / b) ** 2 + (a + t) ** 2 + a**2

    part = maths.in_symbols(powers)
    assert maths.typst(part) == '(d slash b)^("2") + (a + t)^("2") + a^("2")'
    stacked = '(frac(d, b))^("2") + (a + t)^("2") + a^("2")'
    assert maths.typst(part, low=False) == stacked
    assert "<msup><mrow><mo>(</mo><mfrac>" in maths.mathml(maths.in_symbols(powers))


def test_negative_numbers_stand_in_parentheses():
    @formula("M", "lb-in", clause="none")
    def product(P, a):
        """A product."""
        return P * a**2

    assert (
        maths.typst(maths.with_numbers(product, {"P": 2.0, "a": -3.0})) == '"2" times ("−3")^("2")'
    )


def test_a_sum_prints_its_terms_where_they_add_up():
    """By hand: 1 x 310 + 0.6 x (-120) = 238; where the value is another, the value alone."""
    import numpy as np

    terms = Terms(("D", "W_up"), np.array([[1.0, 0.6]]), np.array([[310.0, -120.0]]))
    step = given("P", np.array([[238.0]]), "lb", terms=terms)
    assert line(step) == "P = 1 × 310 + 0.6 × (−120) = 238 lb"
    assert line(given("P", 240.0, "lb", terms=terms)) == "P = 240 lb"
    assert step.summed(Element()) == [("D", 1.0, 310.0), ("W_up", 0.6, -120.0)]


def test_a_value_that_is_not_what_the_formula_gives_says_so():
    """By hand: 2 - 3 = -1; its size 1; not below nothing 0."""

    @formula("R", "lb", clause="none")
    def left(P, V):
        """A difference."""
        return P - V

    step = left.step(P=2.0, V=3.0)
    size = Step("R", 1.0, "lb", "", formula=left, inputs=step.inputs)
    assert line(size) == "R = P − V = 2 − 3 = −1, taken as 1 lb"
    assert maths.typst(maths.line(size).parts[2]) == 'abs("2" minus "3")'
    nothing = Step("R", 0.0, "lb", "", formula=left, inputs=step.inputs)
    assert maths.line(nothing).parts[3] == maths.Text("−1, taken as 0 lb")
