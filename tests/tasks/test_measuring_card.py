"""What can be measured of a part, and what each size is called."""

from fractions import Fraction

import pytest

from crankwise.errors import UnknownThing
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions, EqualSteps
from crankwise.part.gear import Gear
from crankwise.part.part import Part, Work
from crankwise.tasks.measuring_card import columns_of, limits_of, measured_sizes, size_named
from crankwise.tasks.part_kinds import made_of

TWO_PINS = made_of("spur", {"teeth": "31", "module": "2", "pin": "3.5mm, 4mm"}).cards


def test_over_two_sizes_of_pins_each_has_its_own_name_and_limits() -> None:
    names = [line.what for line in measured_sizes(TWO_PINS)]
    assert len(set(names)) == len(names)
    thin = size_named(TWO_PINS, "over both, pins of 3.500 mm")
    thick = size_named(TWO_PINS, "Over both, pins of 4.000 mm")
    (_, most_thin), (_, most_thick) = limits_of(thin), limits_of(thick)
    assert most_thin is not None
    assert most_thick is not None
    # A pin that is half a millimetre thicker goes out by more than that on either side.
    assert most_thick > most_thin + 1


def test_one_size_of_pins_needs_no_more_words() -> None:
    cards = made_of("spur", {"teeth": "31", "module": "2", "pin": "3.5mm"}).cards
    assert "over both" in [line.what for line in measured_sizes(cards)]


@pytest.mark.parametrize("name", ["", "  ", "height"])
def test_what_is_not_on_the_card_is_told_with_what_is(name: str) -> None:
    with pytest.raises(
        UnknownThing, match="is not on the measuring card; it has: span over 4 teeth; over both"
    ):
        size_named(TWO_PINS, name)


@pytest.mark.parametrize(
    ("divisions", "work", "is_gear", "columns"),
    [
        (EqualDivisions(50), "space", True, ("pitch_um", "position_deg")),
        (EqualDivisions(50), "line", False, ("position_deg", "pitch_um")),
        (EqualDivisions(6), "hole", False, ("chord_mm", "position_deg")),
        (EqualDivisions(50, last=30), "space", True, ("position_deg",)),
        (AngleList((Fraction(0), Fraction(1, 7), Fraction(1, 3))), "hole", False, ("position_deg",)),
        (EqualDivisions(2), "flat", False, ()),
        (EqualSteps(40, Fraction(5)), "space", False, ()),
    ],
)
def test_neighbours_are_measured_where_they_close_the_circle(
    divisions: Divisions, work: Work, is_gear: bool, columns: tuple[str, ...]
) -> None:
    gear = Gear(50, Fraction(2)) if is_gear else None
    assert columns_of(Part(divisions, None, work), gear) == columns
