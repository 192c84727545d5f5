"""A list of one's own: angles with their texts."""

from fractions import Fraction

import pytest

from crankwise.errors import BadAngle, BadDivisions, FaultsFound
from crankwise.part.own_list import (
    OwnList,
    OwnPosition,
    measuring_card,
    part_of,
    preparation_card,
    read_own_list,
)

TYPED = "0: top; 32d30m = inlet  opens\n# a remark\n180; 1/3 turn off: not read"


def test_a_list_is_read_as_it_is_typed() -> None:
    own = read_own_list("0: top; 32d30m = inlet  opens\n# a remark: no angle\n180\n")
    assert own.positions == (
        OwnPosition(Fraction(0), "top"),
        OwnPosition(Fraction(65, 720), "inlet opens"),
        OwnPosition(Fraction(1, 2), ""),
    )


def test_each_text_is_the_note_of_its_position() -> None:
    part = part_of(read_own_list("0: top; 90: side: left"), Fraction(50))
    assert [mark.note for mark in part.marks] == ["top", "side: left"]
    assert part.rim_mm == 50


def test_the_cards_tell_angles_and_what_is_between() -> None:
    own = read_own_list("10: a; 100: b; 280: c")
    assert preparation_card(own).lines[0].value == 3
    between = [line.value for line in measuring_card(own).lines if line.value is not None]
    assert between == [Fraction(1, 4), Fraction(1, 2), Fraction(1, 4)]


@pytest.mark.parametrize(
    ("typed", "error", "said"),
    [
        (TYPED, BadAngle, "angle 4 of the list: 'off' in '1/3 turn off' is not a unit"),
        ("", BadDivisions, "list: nothing in it; write angles with their texts"),
        ("# only a remark", BadDivisions, "nothing in it"),
        ("90: a; 45: b", BadDivisions, "angle 2 of the list: .* angles must rise"),
        ("0: " + "x" * 81, FaultsFound, "text 1 of the list: 81 characters; a text has 80 at most"),
        ("0: a\x07b", FaultsFound, "text 1 of the list: it holds a character that cannot be printed"),
    ],
)
def test_what_cannot_be_read_names_its_place(typed: str, error: type[Exception], said: str) -> None:
    with pytest.raises(error, match=said):
        read_own_list(typed)


def test_an_empty_list_is_no_list() -> None:
    with pytest.raises(BadDivisions, match="empty"):
        OwnList(())
