"""A slide: what it may have beside it, and what its screw is worth."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.exact.length import INCH, along
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.slide import Slide
from crankwise.head.worm import Worm
from crankwise.run.check_points import witness_marks
from crankwise.run.guide import DirectionTest, direction_test


@pytest.mark.parametrize("lead", [Fraction(5), Fraction(3), INCH / 10, INCH / 8, Fraction("2.5")])
def test_one_turn_of_the_screw_is_one_lead(lead: Fraction) -> None:
    assert along(1 / Slide(lead).ratio) == lead


def test_both_systems_of_units_come_out_whole() -> None:
    assert Slide(Fraction(1)).ratio == 127_000
    assert Slide(INCH).ratio == 5_000


@pytest.mark.parametrize("lead", ["0", "-5", "0.009", "100.01"])
def test_a_lead_beyond_belief_is_refused(lead: str) -> None:
    with pytest.raises(FaultsFound, match=r"lead: \S+ mm; a lead is from 0\.01 to 100 mm"):
        Slide(Fraction(lead))


@pytest.mark.parametrize("travel", ["0", "0.9", "50000.1"])
def test_a_travel_beyond_belief_is_refused(travel: str) -> None:
    with pytest.raises(FaultsFound, match=r"travel: \S+ mm; a slide travels from 1 mm to 50 m"):
        Slide(Fraction(5), Fraction(travel))


def test_a_slide_has_the_dial_of_its_screw_and_nothing_else() -> None:
    table = Head("Mill table", dial=Dial(100), slide=Slide(Fraction(5)))
    assert table.is_straight
    assert table.ratio == 25_400
    with pytest.raises(
        FaultsFound, match=r"slide: a slide is set by the dial of its screw, but there is no \[dial\]"
    ):
        Head("Mill table", slide=Slide(Fraction(5)))
    with pytest.raises(FaultsFound, match="worm: this turns the work") as told:
        Head(
            "Mill table",
            Worm(Fraction(40)),
            Dial(100),
            (Plate((15,)),),
            Ring(360),
            slide=Slide(Fraction(5)),
        )
    assert [fault.place for fault in told.value.faults] == ["worm", "plates", "ring"]


@pytest.mark.parametrize(("clockwise", "grows"), [("increases", True), ("decreases", False)])
def test_the_handle_is_tried_by_its_dial(clockwise: str, grows: bool) -> None:
    table = Head("Mill table", dial=Dial(100, clockwise=clockwise), slide=Slide(Fraction(5)))  # type: ignore[arg-type]
    assert direction_test(table) == DirectionTest("handle", "dial", grows)
    assert table.advance_is_clockwise is grows


def test_nothing_turns_so_other_joints_are_marked() -> None:
    assert witness_marks(Head("Mill table", dial=Dial(100), slide=Slide(Fraction(5)))) == (
        "work and table",
        "dial and shaft",
    )
