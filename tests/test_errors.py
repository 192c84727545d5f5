"""The one family of errors that a person can mend."""

import pytest

from crankwise import errors
from crankwise.errors import Fault, FaultsFound, Mendable


def test_every_error_of_the_family_is_drawn_in_its_tree() -> None:
    family = {
        name
        for name, thing in vars(errors).items()
        if isinstance(thing, type) and issubclass(thing, Mendable)
    }
    drawn = {word for word in (errors.__doc__ or "").replace("──", " ").split() if word in family}
    assert drawn == family


@pytest.mark.parametrize(
    ("fault", "source", "sentence"),
    [
        (
            Fault("plates[0].circles[3]", "0 holes; a hole circle has 2 or more", 14),
            "my-head.toml",
            "plates[0].circles[3] (my-head.toml, line 14): 0 holes; a hole circle has 2 or more",
        ),
        (Fault("name", "empty"), "my-head.toml", "name (my-head.toml): empty"),
        (Fault("name", "empty", 3), "", "name (line 3): empty"),
        (Fault("", "no way to divide"), "my-head.toml", "my-head.toml: no way to divide"),
        (Fault("", "no way to divide"), "", "no way to divide"),
    ],
)
def test_a_fault_is_told_with_its_place(fault: Fault, source: str, sentence: str) -> None:
    assert fault.told(source) == sentence
    assert str(FaultsFound([fault], source)) == sentence


@pytest.mark.parametrize(
    ("place", "under", "seen"),
    [
        ("circles[3]", "plates[0]", "plates[0].circles[3]"),
        ("", "dial", "dial"),
        ("marks", "", "marks"),
        ("[2]", "teeth", "teeth[2]"),
    ],
)
def test_a_fault_is_seen_from_one_floor_up(place: str, under: str, seen: str) -> None:
    assert Fault(place, "x").under(under).place == seen


def test_all_faults_are_told_a_line_each() -> None:
    found = FaultsFound([Fault("a", "one"), Fault("b", "two")])
    assert str(found) == "a: one\nb: two"
    assert isinstance(found, ValueError)


def test_one_thing_typed_tells_its_place_as_data_and_in_its_sentence() -> None:
    found = errors.BadLength("within", "5 has no unit; write 5um")
    assert (found.place, found.message) == ("within", "5 has no unit; write 5um")
    assert str(found) == "within: 5 has no unit; write 5um"
    assert isinstance(found, ValueError)
