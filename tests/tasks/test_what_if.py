"""What-if values as they are typed in a form or beside a command."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.error_sizes import Size
from crankwise.tasks.what_if import AS_IT_IS, read_size, read_what_if


@pytest.mark.parametrize(
    ("name", "typed", "low", "high"),
    [
        ("worm", "20", "20", "20"),
        ("worm", '20"', "20", "20"),
        ("worm", "10..60", "10", "60"),
        ("worm", "10 to 60", "10", "60"),
        ("work-off-centre", "0.02", "0.02", "0.02"),
        ("work-off-centre", "0.5thou", "0.0127", "0.0127"),
        ("work-off-centre", "20um to 1thou", "0.02", "0.0254"),
        ("reading", "1/10", "0.1", "0.1"),
    ],
)
def test_a_size_is_read_as_it_is_written(name: str, typed: str, low: str, high: str) -> None:
    assert read_size(name, typed) == Size(Fraction(low), Fraction(high))


def test_nothing_typed_leaves_all_as_it_is() -> None:
    assert read_what_if({"holding": "", "worm": " ", "rim": "100mm"}) == AS_IT_IS


def test_a_size_goes_before_how_the_work_is_held() -> None:
    found = read_what_if({"holding": "arbor", "both_sides": "1"})
    assert found.both_sides
    assert found.sizes["work-off-centre"].high == Fraction("0.005")
    found = read_what_if({"holding": "arbor", "work-off-centre": "0.01"})
    assert found.sizes["work-off-centre"].high == Fraction("0.01")


def test_all_that_is_wrong_is_told_at_once_each_at_its_field() -> None:
    with pytest.raises(FaultsFound) as told:
        read_what_if({"holding": "glue", "worm": "much", "lock": "9..1", "tilt": "99", "wheel": "5"})
    assert {fault.place: fault.message for fault in told.value.faults} == {
        "holding": "'glue'; work is held in or on chuck, collet, arbor, turned-in-place",
        "worm": "'much' is not a number; write it as 12, 12.5 or 45/2",
        "lock": "from 9 to 1; write the smaller one first",
        "tilt": "99; at most 50 is believed",
    }
