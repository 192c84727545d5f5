"""Two gears in mesh: what the formulas say is what the teeth do."""

from fractions import Fraction
from math import cos, pi, radians

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.gear import Gear
from crankwise.part.pair import Pair
from crankwise.part.pair_card import pair_card

ONE = Fraction(1)


def pair(first: int, second: int, *shifts: str, centres: str | None = None, thin: str = "0") -> Pair:
    gears = [
        Gear(teeth, ONE, shift=Fraction(shift), thinning_mm=Fraction(thin))
        for teeth, shift in zip((first, second), shifts or ("0", "0"), strict=True)
    ]
    return Pair(gears[0], gears[1], Fraction(centres) if centres else None)


def test_gears_without_shift_stand_half_their_pitch_diameters_apart() -> None:
    assert pair(20, 60).working_centres_mm == pytest.approx(40, abs=1e-12)
    assert pair(20, 60).backlash_mm == pytest.approx(0, abs=1e-12)
    assert pair(20, 60).troubles == ()


def test_shifts_that_cancel_leave_the_centres_where_they_were() -> None:
    assert pair(15, 45, "0.3", "-0.3").working_centres_mm == pytest.approx(30, abs=1e-12)


def test_thinned_teeth_leave_the_play_that_was_taken_off_both() -> None:
    assert pair(20, 60, thin="0.05").backlash_mm == pytest.approx(0.1, abs=1e-12)


def test_wider_centres_add_backlash_as_the_flanks_lean() -> None:
    """To first order twice the tangent of the pressure angle for each millimetre."""
    assert pair(40, 60, centres="50.02").backlash_mm == pytest.approx(0.02 * 2 * 0.36397, rel=2e-3)


def test_the_contact_ratio_is_the_path_walked_step_by_step() -> None:
    """Walk the line of action from tip to tip, and count base pitches: nothing but circles and a line."""
    made = pair(24, 36)
    angle, centres = radians(20), 30.0
    base = 24 / 2 * cos(angle)
    steps, inside = 200_000, 0
    length = centres  # longer than the whole tangent
    for step in range(steps):
        along = (step + 0.5) / steps * length  # from the first gear's base circle
        first_radius = (base**2 + along**2) ** 0.5
        rest = centres * (1 - cos(angle) ** 2) ** 0.5 - along
        second_radius = ((36 / 2 * cos(angle)) ** 2 + rest**2) ** 0.5
        inside += first_radius <= 13 and second_radius <= 19 and rest >= 0
    walked = inside / steps * length / (pi * cos(angle))
    assert made.contact_ratio == pytest.approx(walked, abs=1e-4)


@pytest.mark.parametrize(
    ("made", "troubles"),
    [
        (pair(8, 60), ("beyond",)),
        (pair(40, 60, centres="49.9"), ("tight", "root")),
        (pair(40, 60, centres="51.5"), ("gap",)),
        (pair(40, 60, centres="49.7"), ("tight", "root", "bottom")),
    ],
)
def test_what_goes_wrong_is_named(made: Pair, troubles: tuple[str, ...]) -> None:
    assert made.troubles == troubles
    notes = [line.note for line in pair_card(made).lines if line.what == "interference"]
    assert len(notes) == len(troubles)


@pytest.mark.parametrize(
    ("made", "is_reached"),
    [
        (pair(20, 60), True),
        (pair(40, 60, centres="51.5"), True),
        (pair(8, 60), False),
        (pair(40, 60, centres="49.9"), False),
    ],
)
def test_a_contact_ratio_that_teeth_which_foul_never_reach_is_told_as_such(
    made: Pair, is_reached: bool
) -> None:
    (line,) = (line for line in pair_card(made).lines if line.what == "contact ratio")
    assert line.note.startswith("not reached") is not is_reached
    assert line.low == (1.2 if is_reached else None)


def test_twelve_teeth_foul_a_large_mate_below_their_involute() -> None:
    """The least that a 20 degree gear drives without its mate's tips working past the tangent: 17 for a rack."""
    fouls = [teeth for teeth in range(10, 20) if pair(teeth, 10_000).troubles]
    assert fouls == list(range(10, 18))


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        (Gear(20, ONE), Gear(20, Fraction(2)), "mate's module: not the same"),
        (Gear(20, ONE), Gear(20, ONE, Fraction("14.5") / 360), "mate's pressure angle"),
        (Gear(20, ONE, helix=Fraction(1, 24)), Gear(20, ONE, helix=Fraction(1, 24)), "hands are opposite"),
        (Gear(20, ONE, shift=-ONE), Gear(12, ONE, shift=-ONE), "too far below 0"),
    ],
)
def test_gears_that_are_no_pair_are_refused(first: Gear, second: Gear, said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        Pair(first, second)


@pytest.mark.parametrize("centres", ["30", "52.1"])
def test_centres_at_which_nothing_meshes_are_refused(centres: str) -> None:
    with pytest.raises(FaultsFound, match="not in mesh there"):
        pair(40, 60, centres=centres)
