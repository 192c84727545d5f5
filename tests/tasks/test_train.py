"""What is typed for a train, read without loss or refused with one sentence; the answer as an object."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound, Mendable
from crankwise.head.change_gears import ChangeGears
from crankwise.tasks.train import asked_trains, find_trains, read_gears, read_ratio, trains_answer


@pytest.mark.parametrize(
    ("text", "teeth"),
    [
        ("24,24,28", (24, 24, 28)),
        (" 24  28;32 ", (24, 28, 32)),
        ("20-23, 40", (20, 21, 22, 23, 40)),
    ],
)
def test_gears_are_read_with_commas_spaces_and_rows(text: str, teeth: tuple[int, ...]) -> None:
    assert read_gears(text) == teeth


def test_every_piece_that_is_no_gear_is_told() -> None:
    with pytest.raises(FaultsFound) as caught:
        read_gears("24, x, 28.5, 60-20")
    assert [fault.place for fault in caught.value.faults] == [
        f"gear {place} of the list" for place in (2, 3, 4)
    ]


@pytest.mark.parametrize("text", ["pi", "PI", "π", "2 pi", "e", "sqrt(2)", "√2", "tau"])
def test_what_is_no_fraction_is_refused_as_such(text: str) -> None:
    with pytest.raises(Mendable, match="is no fraction of whole numbers, so no train makes it exactly"):
        read_ratio(text)


@pytest.mark.parametrize(
    ("within", "turns"),
    [("10ppm", Fraction(7, 300000)), ("0.01 %", Fraction(7, 30000)), ("0.001", Fraction(1, 1000))],
)
def test_a_tolerance_is_a_part_of_the_ratio_or_a_bare_difference(within: str, turns: Fraction) -> None:
    assert asked_trains("7/3", "24, 56", within=within).within == turns


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ({"within": "-1ppm"}, "within: -1ppm is below 0"),
        ({"within": "near"}, "within: 'near' cannot be read; write 10ppm"),
        ({"size": "5"}, "size: '5'; a train has 2, 4 or 6 gears"),
        ({"size": "4"}, "gears: 2 of them; a train of 4 needs 4"),
        ({"most": "0"}, "most: 0; how many trains to tell is a whole number from 1 to 1000"),
        ({"lead": ("27in", None, "40")}, "leadscrew: missing; a lead needs lead, leadscrew and head-ratio"),
        ({"lead": ("27in", "5mm", "40")}, "ratio: given beside a lead"),
    ],
)
def test_an_option_that_cannot_be_is_refused(options: dict[str, str], says: str) -> None:
    with pytest.raises(Mendable, match=says):
        asked_trains("7/3", "24, 56", **options)  # type: ignore[arg-type]


def test_the_answer_is_an_object_with_exact_values_as_text() -> None:
    found = find_trains(asked_trains("7/3", "24, 56, 40", within="1ppm", most="2"))
    assert trains_answer(found) == {
        "format": 1,
        "target": "7/3",
        "trains": [
            {"drivers": [56], "driven": [24], "value": "7/3", "error_ppm": 0.0, "within": True},
            {
                "drivers": [40],
                "driven": [24],
                "value": "5/3",
                "error_ppm": pytest.approx(-2_000_000 / 7),
                "within": False,
            },
        ],
    }


def test_the_trains_of_a_head_are_those_that_it_can_carry_and_the_rest_are_told_with_why() -> None:
    gears = ChangeGears((24, 28, 100, 72, 40, 44), shaft_clearance=70)
    asked = asked_trains("2400/2016", None, size="4", most="1", change_gears=gears)
    assert asked.teeth == gears.teeth
    without = find_trains(asked)
    found = find_trains(asked, tell_dropped=True)
    assert without.trains == found.trains
    assert without.dropped == ()
    assert all(gears.hindrances(train, 0) == () for train in found.trains)
    (dropped, reasons), *_ = found.dropped
    assert dropped.value == Fraction(2400, 2016)
    assert "on the stud leaves" in reasons[0]
    assert trains_answer(found)["dropped"][0]["reasons"] == list(reasons)


def test_a_lead_is_cut_by_the_train_from_screw_to_worm() -> None:
    asked = asked_trains(None, "32, 40, 48, 72", most="1", lead=("27in", "1/4in", "40"))
    found = find_trains(asked)
    assert asked.target == Fraction(10, 27)
    assert trains_answer(found)["trains"][0]["lead_mm"] == "685.8"
