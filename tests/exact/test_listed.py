"""Lists: what is forgotten between two marks is told, never passed over."""

import pytest

from crankwise.errors import BadNumber
from crankwise.exact.listed import listed


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("", []),
        (" , ", []),
        ("0", ["0"]),
        ("0, 10,", ["0", "10"]),
        ("0,\n10,\n\n# a note\n20", ["0", "10", "20"]),
        ("0; 10, 20", ["0", "10", "20"]),
    ],
)
def test_what_stands_in_a_list(text: str, pieces: list[str]) -> None:
    assert listed(text, "angles", ",;", by_lines=True) == pieces


@pytest.mark.parametrize(
    ("text", "where"),
    [("0,,10", "after '0'"), ("0, ,10", "after '0'"), (",10", "at the start"), ("5,;6", "after '5'")],
)
def test_nothing_between_two_marks_is_told_with_its_place(text: str, where: str) -> None:
    with pytest.raises(
        BadNumber, match=f"^angles: nothing stands between two commas {where}; write what is missing"
    ):
        listed(text, "angles", ",;")


def test_a_line_is_no_mark_where_it_was_not_said() -> None:
    assert listed("a\nb, c", "texts") == ["a\nb", "c"]
