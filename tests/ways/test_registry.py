"""The list of methods leaves none out, and passes over none that would have had a way."""

import pkgutil
from importlib import import_module

from hypothesis import given
from hypothesis import strategies as st

import crankwise.ways
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.registry import charted_methods, methods
from tests.ways.test_chart import WORM_HEADS

FILES = [
    import_module(f"crankwise.ways.{found.name}") for found in pkgutil.iter_modules(crankwise.ways.__path__)
]
METHODS = [file for file in FILES if hasattr(file, "ways")]
EVERYTHING = """
name = "everything"
[worm]
wheel_teeth = 40
[dial]
marks = 100
[ring]
graduations = 360
[[plates]]
circles = [15, 17]
[[notched_wheels]]
notches = 60
[[notched_wheels]]
notches = 49
detent_on = "wheel"
[change_gears]
teeth = [24, 56]
[stepper]
steps = 200
"""


def test_a_head_with_everything_meets_every_method() -> None:
    assert {id(method) for method in methods(read_head(EVERYTHING))} == {id(method) for method in METHODS}


def test_every_method_but_two_is_charted_in_the_same_order() -> None:
    head = read_head(EVERYTHING)
    charted = list(charted_methods(head))
    assert list(methods(head))[: len(charted)] == charted
    assert len(METHODS) == len(charted) + 2


@given(head=WORM_HEADS, count=st.integers(1, 400))
def test_a_method_that_is_passed_over_has_no_way(head: Head, count: int) -> None:
    asked = [*methods(head)]
    for method in METHODS:
        if method not in asked:
            assert list(method.ways(head, EqualDivisions(count))) == []
            assert list(method.ways(head, AngleList((EqualDivisions(count).step / 2,)))) == []
