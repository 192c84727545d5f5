from fractions import Fraction

import pytest

from crankwise.errors import StoreTrouble
from crankwise.plan.passes import ONE_PASS, Pass, long_lines_first, rough_then_finish, with_trace
from crankwise.store.passes_text import passes_text, read_passes


@pytest.mark.parametrize(
    "passes",
    [
        ONE_PASS,
        with_trace(),
        rough_then_finish(Fraction(127, 100), Fraction(9, 7)),
        long_lines_first(10, 5),
        (Pass("trace", each=3, but_not=6, spread=4, line_class="länge", depth_mm=Fraction(1, 3)),),
    ],
)
def test_passes_written_and_read_are_the_same(passes: tuple[Pass, ...]) -> None:
    assert read_passes(passes_text(passes)) == passes


def test_one_pass_straight_round_is_kept_as_nothing() -> None:
    assert passes_text(ONE_PASS) == ""


@pytest.mark.parametrize(
    "text", ["[", "[1]", '[["polish", 1, 0, 1, "", null]]', '[["work", 1, 0, 1, "", "1/0x"]]']
)
def test_what_another_version_kept_is_told_as_that(text: str) -> None:
    with pytest.raises(StoreTrouble, match="use the version that kept them"):
        read_passes(text)
