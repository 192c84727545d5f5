"""Cards as text: both units, limits, and lines that are only words."""

from fractions import Fraction

import pytest

from crankwise.part.card import Card, CardLine
from crankwise.wording.card import angle_text, card_text, count_text, length_text, limits_text

CARD = Card(
    "Measuring",
    (
        CardLine("trace", note="a faint nick at every position"),
        CardLine(
            "span",
            Fraction("44.5846"),
            "mm",
            low=Fraction("44.55"),
            high=Fraction("44.5846"),
            using="micrometer",
        ),
        CardLine("swing", Fraction(1, 12), "turn"),
        CardLine("ratio", Fraction(2, 3), "count", low=1),
    ),
)


def test_a_card_tells_each_value_in_both_units_with_its_limits() -> None:
    assert card_text(CARD).splitlines() == [
        "Measuring",
        "  trace: a faint nick at every position",
        "  span   44.585 mm (1.7553 in)",
        "         from 44.550 mm (1.7539 in) to 44.585 mm (1.7553 in); micrometer",
        "  swing  30.0000° (30°0'0\")",
        "  ratio  0.6667",
        "         at least 1",
    ]


def test_inches_come_first_where_the_work_is_in_inches() -> None:
    assert "1.7553 in (44.585 mm)" in card_text(CARD, inch_first=True)


def test_a_long_note_is_wrapped_under_its_value() -> None:
    text = card_text(Card("x", (CardLine("depth", 1.0, "mm", note="word " * 60),)))
    lines = text.splitlines()
    assert len(lines) > 3
    assert all(len(line) <= 110 for line in lines)
    assert all(line.startswith("         word") for line in lines[2:])


@pytest.mark.parametrize(
    ("count", "told"),
    [(Fraction(30), "30"), (46.188022, "46.1880"), (Fraction(1, 3), "0.3333"), (2.5, "2.5")],
)
def test_a_count_is_exact_where_it_is_short(count: Fraction | float, told: str) -> None:
    assert count_text(count) == told


def test_lengths_angles_and_one_sided_limits() -> None:
    assert length_text(-0.0001) == "0.000 mm (0.0000 in)"
    assert length_text(Fraction(127, 5), places=4) == "25.4000 mm (1.00000 in)"
    assert angle_text(Fraction(359_9999, 10_000) / 360) == "359.9999° (360°0'0\")"
    assert limits_text(CardLine("x", 1, "mm", high=2)) == "at most 2.000 mm (0.0787 in)"
    assert limits_text(CardLine("x")) == ""
