"""The cards of a clock pinion: its own stuff, its own diameters, and nothing of the wheel's blank."""

from fractions import Fraction
from math import pi

import pytest

from crankwise.part.clock_pinion_cards import pinion_measuring_card, pinion_preparation_card
from crankwise.part.clock_wheel import ClockWheel

WHEEL = ClockWheel(64, 8, Fraction(1, 2))


def test_a_pinion_is_prepared_of_steel_by_itself_and_no_size_of_the_wheel_is_told() -> None:
    lines = {line.what: line for line in pinion_preparation_card(WHEEL).lines}
    assert lines["pinion, pitch diameter"].value == 4
    assert lines["pinion, outside diameter"].value is None
    assert "silver steel" in lines["blank"].note
    assert "one at a time" in lines["blank"].note
    assert lines["pinion cutter"].using.endswith("for 8 leaves")
    told = " ".join(f"{line.what} {line.using} {line.note}" for line in lines.values())
    assert "brass" not in told
    assert "wheel, " not in told


def test_a_pinion_is_measured_by_its_leaves_and_its_centres() -> None:
    lines = {line.what: line for line in pinion_measuring_card(WHEEL).lines}
    assert lines["centre distance"].value == 18
    pitch = lines["pitch, from leaf to leaf"].value
    assert pitch is not None
    assert float(pitch) == pytest.approx(pi / 2)
