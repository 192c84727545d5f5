"""Settings in words that can be taken in one way only."""

from fractions import Fraction

import pytest

from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.worm import Worm
from crankwise.ways.way import Setting
from crankwise.wording.settings import (
    between_numerals,
    reading_text,
    ring_reading_text,
    setting_text,
    whole_turns,
)
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head

BENCH = head(BENCH_HEAD)


def with_dial(marks: int, numbered_every: int, read_to: str = "1/10") -> Head:
    return Head("Trial head", Worm(Fraction(40)), Dial(marks, Fraction(read_to), numbered_every))


@pytest.mark.parametrize(("turns", "text"), [(0, "0 turns"), (1, "1 turn"), (31, "31 turns")])
def test_whole_turns_agree_with_their_number(turns: int, text: str) -> None:
    assert whole_turns(turns) == text


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        ("0", "0"),
        ("56", "56"),
        ("113/2", "56.5"),
        ("282/5", "56.4"),
        ("56.125", "56.125"),
        ("169/3", "56 1/3"),
        ("1/3", "1/3"),  # not "0 1/3": a lone nought reads as a figure of its own
        ("899/16", "56 3/16"),  # never 56.19, which cannot be set
        ("1349/24", "56 5/24"),
        ("2247/40", "56.175"),
        ("360/127", "2.83"),
    ],
)
def test_a_reading_that_can_be_set_is_told_exactly(reading: str, text: str) -> None:
    assert reading_text(Fraction(reading)) == text


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        ("0", "on the numeral 0"),
        ("0.5", "between 0 and 10: 0.5 past 0"),
        ("8.5", "between 0 and 10: 8.5 past 0"),
        ("10", "on the numeral 10"),
        ("48.5", "between 40 and 50: 8.5 past 40"),
        ("89.5", "between 80 and 90: 9.5 past 80"),
        ("90", "on the numeral 90"),
        ("95", "between 90 and 0: 5 past 90"),  # where the circle closes, the next numeral is 0, not 100
        ("99.5", "between 90 and 0: 9.5 past 90"),
    ],
)
def test_a_reading_lies_between_the_two_numerals_in_the_order_passed(reading: str, text: str) -> None:
    assert between_numerals(BENCH, Fraction(reading)) == text


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        ("69.9", "between 60 and 70: 9.9 past 60"),
        ("70", "on the numeral 70"),
        ("71.5", "between 70 and 0: 1.5 past 70"),  # the last interval has two marks only
    ],
)
def test_the_last_interval_may_be_short(reading: str, text: str) -> None:
    assert between_numerals(with_dial(72, 10), Fraction(reading)) == text


def test_every_mark_may_have_its_numeral() -> None:
    assert between_numerals(with_dial(40, 1), Fraction("38.7")) == "between 38 and 39: 0.7 past 38"
    assert between_numerals(with_dial(40, 1), Fraction("39.7")) == "between 39 and 0: 0.7 past 39"


def test_a_dial_with_one_numeral_is_counted_from_it() -> None:
    assert between_numerals(with_dial(60, 60), Fraction("56.5")) == "56.5 past 0, the only numeral"
    assert between_numerals(with_dial(60, 60), Fraction(0)) == "on the numeral 0"


def test_a_dial_without_numerals_names_none() -> None:
    assert between_numerals(with_dial(60, 0), Fraction("56.5")) == ""
    assert between_numerals(head(PLATE_HEAD), Fraction("56.5")) == ""


def test_a_reading_beyond_the_dial_is_our_own_mistake_and_loud() -> None:
    # A ring's reading, 215 degrees, must never be told as if it stood on the dial.
    with pytest.raises(AssertionError, match="215 is no reading of a dial of 100 marks"):
        between_numerals(BENCH, Fraction(215))


@pytest.mark.parametrize(
    ("setting", "text"),
    [
        (Setting(turns=31, reading=Fraction(113, 2)), "31 turns and 56.5 marks"),
        (Setting(turns=1, reading=Fraction(1)), "1 turn and 1 mark"),
        (Setting(turns=0, reading=Fraction(0)), "0 turns and 0 marks"),
        (Setting(turns=2, reading=Fraction(1, 2)), "2 turns and 0.5 marks"),
        (Setting(turns=5, holes=(35,)), "5 turns and 35 holes"),
        (Setting(turns=0, holes=(1,)), "0 turns and 1 hole"),
        (Setting(notches=1), "1 notch"),
        (Setting(notches=5), "5 notches"),
        (Setting(reading=Fraction(5, 2)), "2.5° on the ring"),
    ],
)
def test_a_setting_names_the_unit_of_every_figure(setting: Setting, text: str) -> None:
    assert setting_text(BENCH, setting) == text


def test_a_ring_in_other_units_has_no_degree_sign() -> None:
    gon = head('name = "Gon table"\n[ring]\ngraduations = 400\nfull_circle = 400\n')
    assert setting_text(gon, Setting(reading=Fraction(50))) == "50 on the ring"


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        ("360/127", "2.83"),
        ("0", "0.00"),
        ("359.99", "359.99"),
        ("359.995", "0.00"),  # no ring shows 360.00
        ("359.9999", "0.00"),
    ],
)
def test_a_ring_reading_rolls_over_to_nought(reading: str, text: str) -> None:
    ring = BENCH.ring
    assert ring is not None
    assert ring_reading_text(ring, Fraction(reading)) == text


def test_a_ring_reading_rolls_over_at_its_own_full_circle() -> None:
    ring = head('name = "Gon table"\n[ring]\ngraduations = 400\nfull_circle = 400\n').ring
    assert ring is not None
    assert ring_reading_text(ring, Fraction("399.999")) == "0.00"
    assert ring_reading_text(ring, Fraction("359.999")) == "360.00"


def test_a_wheel_has_no_dial_to_read() -> None:
    assert between_numerals(head(BULL_WHEEL), Fraction(0)) == ""
    assert worm_head("40", "[dial]\nmarks = 36\n").dial == Dial(36)
