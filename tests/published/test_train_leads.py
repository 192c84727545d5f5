"""08-leads.csv: the leads that trains between table and head cut, as printed, and the trains found for them."""

from decimal import Decimal
from fractions import Fraction

import pytest

from crankwise.exact.length import INCH
from crankwise.exact.number import read_number
from crankwise.head.train import Train
from crankwise.tasks.train import asked_trains, find_trains
from tests.published.tables import Row, cases, rows

GEARS = "24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100"
TABLE = rows("08-leads.csv")
LEADS = [row for row in TABLE if row["exact"]]
MACHINES = [row for row in LEADS if row["gear_on_worm"] == "1:1"]
TRAINS = [row for row in LEADS if row["gear_on_worm"] != "1:1"]
NOT_TO_BE_CHECKED = [row for row in TABLE if row["machine_lead"] and not row["exact"]]
HELIX_ANGLES = [row for row in TABLE if row["unit"] == "deg"]


def half_of_the_last_digit(printed: str) -> Fraction:
    if "/" in printed:
        return Fraction(0)
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return Fraction(10) ** exponent / 2


def printed_train(row: Row) -> Train:
    """Return the printed train from the screw on; the gear on the worm and the second on the stud are driven."""
    if not row["first_on_stud"]:
        return Train((int(row["gear_on_screw"]),), (int(row["gear_on_worm"]),))
    return Train(
        (int(row["gear_on_screw"]), int(row["first_on_stud"])),
        (int(row["second_on_stud"]), int(row["gear_on_worm"])),
    )


def test_every_row_is_looked_at() -> None:
    assert len(MACHINES) + len(TRAINS) + len(NOT_TO_BE_CHECKED) + len(HELIX_ANGLES) == len(TABLE) == 39


@pytest.mark.parametrize("row", cases(TRAINS, "lead"))
def test_a_printed_train_cuts_the_printed_lead_and_an_exact_train_is_found_for_it(row: Row) -> None:
    exact = read_number(row["exact"])
    cut = read_number(row["machine_lead"]) / printed_train(row).value
    assert cut == exact, row["source"]
    assert abs(cut - read_number(row["lead"])) <= half_of_the_last_digit(row["lead"]), row["source"]

    # A table's screw of 1/4 in and a 40:1 head have the lead 10 in.
    screw = read_number(row["machine_lead"]) / 40
    asked = asked_trains(None, GEARS, lead=(f"{exact} in", f"{screw} in", "40"))
    found = find_trains(asked)
    assert asked.lead is not None
    assert asked.lead.lead_of(found.trains[0]) == exact * INCH, row["source"]


@pytest.mark.parametrize("row", cases(MACHINES, "lead"))
def test_the_lead_of_a_machine_is_head_ratio_times_leadscrew(row: Row) -> None:
    screw, ratio = {"8": ("1/5 in", "40"), "15": ("1/4 in", "60"), "45/2": ("1/4 in", "90")}[
        row["machine_lead"]
    ]
    asked = asked_trains(None, "24, 24", lead=(f"{row['lead']} in", screw, ratio))
    assert asked.target == 1, row["source"]


def test_the_lead_that_the_book_has_wrong_cannot_be_cut() -> None:
    """The book gives 10.467 with 72 on the worm; no train with 72 there does, and the nearest is 10.4651."""
    (row,) = NOT_TO_BE_CHECKED
    assert (row["gear_on_worm"], row["lead"]) == ("72", "10.467")
    asked = asked_trains(None, GEARS, most="1000", lead=("10.467 in", "1/4 in", "40"))
    assert asked.lead is not None
    with_72 = [train for train in find_trains(asked).trains if 72 in train.driven]
    nearest = asked.lead.lead_of(with_72[0]) / INCH
    assert nearest == Fraction(450, 43)
    assert abs(nearest - Fraction("10.467")) > Fraction("0.0005")
