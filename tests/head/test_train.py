"""A train by place: its value, its room at the shafts, and whether it can be mounted with the gears owned."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.head.change_gears import ChangeGears
from crankwise.head.train import Train
from tests.oracle.trains import clears_shafts

gears = st.integers(6, 127)


def test_the_value_is_drivers_over_driven_as_101_is_printed() -> None:
    train = Train((48, 24), (40, 72))
    assert train.value == Fraction(2, 5)
    assert train.gears == (48, 40, 24, 72)
    assert not train.is_simple


def test_the_room_at_the_shafts_is_that_of_centres_and_radii() -> None:
    """48 and 40 have their centres 44 modules apart and the 24 beside the 40 reaches 12: 32 are left, 64 halves."""
    assert Train((48, 24), (40, 72)).clearances == (64, 56)
    assert Train((56,), (24,)).clearances == ()
    assert len(Train((20, 30, 40), (50, 60, 70)).clearances) == 4


@given(st.tuples(gears, gears), st.tuples(gears, gears))
def test_the_arrangements_have_one_value_and_the_roomiest_comes_first(
    drivers: tuple[int, int], driven: tuple[int, int]
) -> None:
    train = Train(drivers, driven)
    orders = train.arrangements()
    assert {order.value for order in orders} == {train.value}
    assert train in orders
    room = [min(order.clearances) for order in orders]
    assert room == sorted(room, reverse=True)


@given(st.tuples(gears, gears), st.tuples(gears, gears), st.integers(2, 60))
def test_a_train_is_mounted_when_some_order_of_it_clears_the_shafts(
    drivers: tuple[int, int], driven: tuple[int, int], clearance: int
) -> None:
    owned = ChangeGears((*drivers, *driven), shaft_clearance=clearance)
    mounted = owned.mounted(Train(drivers, driven), 0)
    assert (mounted is not None) == clears_shafts((drivers, driven), clearance)


def test_a_gear_that_fouls_is_named_with_what_is_missing() -> None:
    (reason,) = ChangeGears((24, 100, 28, 72)).hindrances(Train((24, 100), (28, 72)), 0)
    assert reason == "the 100 on the stud leaves -48 teeth free at the next shaft, and 15 are needed"


BRACKET = ChangeGears(
    (24, 28, 40, 72, 100),
    module_mm=Fraction(3, 2),
    least_centres_mm=Fraction(45),
    greatest_centres_mm=Fraction(75),
)


@pytest.mark.parametrize(
    ("train", "idlers", "fits"),
    [
        (Train((24,), (40,)), 0, True),  # 48 mm
        (Train((24,), (28,)), 0, False),  # 39 mm
        (Train((72,), (100,)), 0, False),  # 129 mm
        (Train((24,), (28,)), 1, True),  # by the 40: 48 and 51 mm
        (Train((72,), (100,)), 1, False),  # any idler is too far from the 100
        (Train((72,), (24,)), 2, True),  # by the 28 and the 40: 75, 51 and 48 mm
        (Train((24, 28), (40, 72)), 0, True),  # 48 and 75 mm
        (Train((24, 28), (40, 100)), 0, False),  # 48 and 96 mm
    ],
)
def test_the_bracket_takes_what_its_slots_reach(train: Train, idlers: int, fits: bool) -> None:
    reasons = BRACKET.hindrances(train, idlers)
    assert (reasons == ()) == fits
    assert fits or "the bracket takes centres from 45 to 75 mm" in reasons[-1]


def test_the_usual_head_has_its_idlers_by_the_handbook() -> None:
    owned = ChangeGears((24, 24, 28, 32))
    simple, compound = Train((24,), (28,)), Train((24, 24), (28, 32))
    counts = [owned.idlers(train, with_crank) for train in (simple, compound) for with_crank in (True, False)]
    assert counts == [1, 2, 0, 1]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"shaft_clearance": 1}, "shaft_clearance: 1; a gear clears the next shaft by 2 or more"),
        ({"module_mm": Fraction(0)}, "module: 0; this is a length in millimetres, above 0"),
        (
            {"least_centres_mm": Fraction(40)},
            "module: missing; the centres of two gears follow from their module",
        ),
        (
            {"module_mm": Fraction(2), "least_centres_mm": Fraction(50), "greatest_centres_mm": Fraction(40)},
            "least_centres_mm: 50; the least distance is not above the greatest, 40",
        ),
        (
            {"module_mm": Fraction(1), "greatest_centres_mm": Fraction(20)},
            "no two of the gears fit: the nearest two stand 24 mm apart, the farthest 30 mm",
        ),
        ({"idlers_with": (1, 1)}, r"idlers_with: \[1, 1\]; to turn the same way, .* differ by one idler"),
        ({"idlers_with": (1, 0, 1)}, r"idlers_with: \[1, 0, 1\]; two numbers from 0 to 3"),
        ({"idlers_against": (1, 0)}, r"idlers_against: \[1, 0\]; to turn the other way"),
    ],
)
def test_a_bracket_that_cannot_be_is_refused(change: dict[str, object], says: str) -> None:
    with pytest.raises(FaultsFound, match=says):
        ChangeGears((24, 24, 28, 32), **change)  # type: ignore[arg-type]
