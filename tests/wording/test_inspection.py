"""What deviations point to, in words."""

from dataclasses import replace

import pytest

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import budget
from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.part_causes import Cause, CauseName
from crankwise.wording.inspection import cause_text, compared_lines
from tests.accuracy.made_parts import plan_of

BUDGET = budget(plan_of(12), 100)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("off-centre", "once per turn, ±12.3 µm, highest at position 7"),
        ("slip", "a step of 12.3 µm after position 7 that stays"),
        ("added-up", "the last pitch, from position 7 back to the first, is 12.3 µm out alone"),
        ("bad-setting", "position 7 alone is 12.3 µm out"),
        ("misread", "the pitch after position 7 alone reads 12.3 µm more than the others"),
    ],
)
def test_causes_are_told_in_words(name: CauseName, text: str) -> None:
    assert cause_text(Cause(name, 12.34, 7, 0.01)).startswith(text)


def test_what_may_be_a_misreading_is_to_be_measured_again_first() -> None:
    doubtful = cause_text(Cause("slip", 12.34, 7, 0.01, odds=4.2))
    assert "about 4 to 1" in doubtful
    assert doubtful.endswith("or that pitch was misread: measure it again first")
    sure = cause_text(Cause("slip", 12.34, 7, 0.01, odds=1000.0))
    assert "more than 1,000 to 1" in sure
    assert "measure it again" not in sure
    assert cause_text(Cause("misread", -12.34, 7, 0.01, odds=90.0)).startswith(
        "the pitch after position 7 alone reads 12.3 µm less than the others"
    )


def test_what_to_look_at_first_is_what_does_most_to_the_deviation_that_is_beyond() -> None:
    wave, slip = Cause("off-centre", 60.0, 3, 0.01, 9), Cause("slip", 80.0, 7, 0.01, odds=99.0)
    misread = Cause("misread", 30.0, 5, 0.01, odds=99.0)
    part = Inspected((80.0, -40.0, -40.0))
    budget = replace(BUDGET, part=Bounds(40.0, 1000.0))
    assert compared_lines(part, budget, (wave, slip))[-1] == "Look first at what slipped after position 7."
    budget = replace(BUDGET, part=Bounds(1000.0, 40.0))
    assert "once per turn" in compared_lines(part, budget, (wave, slip))[-1]
    budget = replace(BUDGET, part=Bounds(1000.0, 70.0))
    assert "by chance alone" in compared_lines(part, budget, (wave,))[-1]
    assert "by chance alone" not in compared_lines(part, budget, (wave, slip))[-1]
    worst = compared_lines(part, budget, (wave, slip, misread))[-1]
    assert worst == "Look first at the pitch after position 5: measure it again."
