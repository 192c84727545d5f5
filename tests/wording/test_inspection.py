"""What deviations point to, in words."""

import pytest

from crankwise.accuracy.part_causes import Cause, CauseName
from crankwise.wording.inspection import cause_text


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("off-centre", "once per turn, ±12.3 µm, highest at position 7"),
        ("slip", "a step of 12.3 µm after position 7 that stays"),
        ("added-up", "the last pitch, from position 7 back to the first, is 12.3 µm out alone"),
        ("bad-setting", "position 7 alone is 12.3 µm out"),
    ],
)
def test_causes_are_told_in_words(name: CauseName, text: str) -> None:
    assert cause_text(Cause(name, 12.34, 7, 0.01)).startswith(text)
