"""The dial on the crank."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.dial import Dial


@pytest.mark.parametrize(
    ("dial", "per_mark", "places"),
    [
        (Dial(100), 1, 100),
        (Dial(100, Fraction(1, 2)), 2, 200),
        (Dial(100, vernier=10), 10, 1000),  # the vernier is finer than the eye
        (Dial(100, Fraction(1, 20), vernier=10), 20, 2000),  # the eye is finer than the vernier
    ],
)
def test_the_finer_of_eye_and_vernier_counts(dial: Dial, per_mark: int, places: int) -> None:
    assert (dial.places_per_mark, dial.places) == (per_mark, places)


@pytest.mark.parametrize(
    ("dial", "reading", "numerals"),
    [
        (Dial(100), "56.5", (50, 60)),
        (Dial(100), "50", (50, 60)),
        (Dial(100), "49.99", (40, 50)),
        (Dial(100), "0", (0, 10)),
        (Dial(100), "99.5", (90, 0)),
        (Dial(72), "71.5", (70, 0)),
        (Dial(60, numbered_every=60), "30", (0, 0)),
        (Dial(60, numbered_every=1), "59.5", (59, 0)),
        (Dial(60, numbered_every=0), "30", None),
    ],
)
def test_a_reading_lies_between_two_numerals(
    dial: Dial, reading: str, numerals: tuple[int, int] | None
) -> None:
    assert dial.between(Fraction(reading)) == numerals


def faults_of(**parts: object) -> list[tuple[str, str]]:
    with pytest.raises(FaultsFound) as found:
        Dial(**parts)  # type: ignore[arg-type]
    return [(fault.place, fault.message) for fault in found.value.faults]


@pytest.mark.parametrize("marks", [0, 1, -5])
def test_a_dial_has_two_marks_or_more(marks: int) -> None:
    unit = "mark" if marks == 1 else "marks"
    assert faults_of(marks=marks, numbered_every=0) == [("marks", f"{marks} {unit}; a dial has 2 or more")]


def test_more_marks_than_can_be_are_not_believed() -> None:
    assert faults_of(marks=1_000_001) == [("marks", "1000001 marks; a dial has at most 1,000,000")]


@pytest.mark.parametrize(("read_to", "told"), [("2/3", "2/3"), ("0", "0"), ("-1/2", "-0.5"), ("2", "2")])
def test_what_is_read_goes_into_a_mark_a_whole_number_of_times(read_to: str, told: str) -> None:
    assert faults_of(marks=100, read_to=Fraction(read_to)) == [
        ("read_to", f"{told}; what can be read is 1, 1/2, 1/5, 1/10 ... of a mark")
    ]


@pytest.mark.parametrize("every", [-1, 101])
def test_numerals_stand_on_the_dial(every: int) -> None:
    assert faults_of(marks=100, numbered_every=every) == [
        ("numbered_every", f"{every}; from 1 to the dial's 100 marks, or 0 for no numerals")
    ]


@pytest.mark.parametrize(
    ("vernier", "message"),
    [
        (1, "1 division; a vernier has 2 or more"),
        (0, "0 divisions; a vernier has 2 or more"),
        (13, "13 divisions lie along 12 marks, and the dial has only 12; 12 divisions at most fit"),
    ],
)
def test_a_vernier_fits_on_its_dial(vernier: int, message: str) -> None:
    assert faults_of(marks=12, vernier=vernier) == [("vernier", message)]
    assert Dial(12, vernier=12).places == 144


def test_all_faults_are_told_at_once() -> None:
    assert [place for place, _ in faults_of(marks=0, read_to=Fraction(0), numbered_every=-1)] == [
        "marks",
        "read_to",
        "numbered_every",
    ]
