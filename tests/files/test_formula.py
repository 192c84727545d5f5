"""Formulas: exact where they can be, and nothing gets in that is not a formula."""

import math
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadFormula
from crankwise.files.formula import MOST_CHARACTERS, read_formula


@pytest.mark.parametrize(
    ("text", "x", "value"),
    [
        ("x", "7/3", "7/3"),
        ("0.1 * x + 0.2", "3", "1/2"),
        ("2*x^2 - x/3", "3", "17"),
        ("-(x - 1)**-2", "3", "-1/4"),
        ("360 × x − 1", "1/127", "233/127"),
    ],
)
def test_whole_numbers_and_fractions_stay_exact(text: str, x: str, value: str) -> None:
    found = read_formula(text)(x=Fraction(x))
    assert isinstance(found, Fraction)
    assert found == Fraction(value)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("sin(30)", 0.5),
        ("atan(1)", 45),
        ("log10(1000)", 3),
        ("ln(exp(2))", 2),
        ("sqrt(2) ** 2", 2),
        ("abs(-pi)", math.pi),
        ("8 ** (1/3)", 2),
        ("2 ** 100", 2.0**100),
    ],
)
def test_functions_take_degrees_and_give_floats(text: str, value: float) -> None:
    assert float(read_formula(text)(x=Fraction(1))) == pytest.approx(value, rel=1e-14)


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os').system('ls')",
        "x.__class__",
        "(lambda: 1)()",
        "[x for x in (1, 2)]",
        "x if x else 1",
        "x == 1",
        "x and 1",
        "'a' * 9",
        "f'{x}'",
        "print(x)",
        "sin",
        "sin(x, x)",
        "sin(*x)",
        "x[0]",
        "x := 3",
        "1j",
        "True",
        "1_000",
        "0x10",
        "x // 2",
        "x % 2",
        "~x",
        "y",
        "",
        "x +",
        "2x",
        "x\0",
        "(" * 250 + "x",
        "1;2",
    ],
)
def test_what_is_no_formula_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(BadFormula, match=r"^formula: [^\n]+$"):
        read_formula(text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("log(x)", "'log' is not a function; write log10 .base 10. or ln"),
        ("sin(x; 2)", "cannot be read"),
        ("2,5 * x", "decimals have a point, not a comma"),
        ("2x", r"write 2\*x, not 2x"),
        ("q * x", "'q' is not known; there are x, pi, e and the functions sin"),
        ("x + " * 100 + "x", f"401 characters; it has {MOST_CHARACTERS} at most"),
    ],
)
def test_the_sentence_says_what_would_be_right(text: str, message: str) -> None:
    with pytest.raises(BadFormula, match=message):
        read_formula(text)


@pytest.mark.parametrize(
    "text",
    [
        "1 / x",
        "log10(x)",
        "sqrt(x - 1)",
        "(x - 1) ** 0.5",
        "asin(x + 2)",
        "exp(99999)",
        "9**9**9**9**9",
        "x**-1",
    ],
)
def test_where_it_has_no_value_it_says_so(text: str) -> None:
    with pytest.raises(BadFormula, match=r"has no value at x = 0: "):
        read_formula(text)(x=Fraction(0))


def test_a_tower_of_powers_takes_no_time() -> None:
    text = "*".join(["(x**64)**64"] * 20)
    with pytest.raises(BadFormula, match="has no value at x = 99999999999"):
        read_formula(text)(x=Fraction(99_999_999_999))


@given(st.text(alphabet="x+-*/()0123456789. sincolg^e,_'\"[]{}:=", max_size=60))
def test_whatever_is_typed_is_a_formula_or_a_sentence(text: str) -> None:
    # Anything but BadFormula that is raised, and any value that is no number, fails here.
    with suppress(BadFormula):
        value = read_formula(text)(x=Fraction(3, 7))
        assert isinstance(value, Fraction) or math.isfinite(value)
