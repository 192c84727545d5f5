"""What the cards of every kind must have: how it is held, the trace pass, what is measured, how it closes."""

import pytest

from tests.draw.drawings import EVERY_KIND, made

KINDS = [name for name, (kind, _) in EVERY_KIND.items() if kind != "divisions"]
CENTRED = ("spur", "helical", "bevel", "worm wheel", "ratchet", "splines", "sprocket", "clock wheel")


def told(name: str, title: str) -> str:
    """Every word of one card."""
    card = next(card for card in made(name).cards if card.title == title)
    return " ".join(f"{line.what} {line.using} {line.note}" for line in card.lines).lower()


@pytest.mark.parametrize("name", KINDS)
def test_how_it_is_held_what_of_and_where_it_is_first_tried(name: str) -> None:
    card = told(name, "Preparation")
    assert any(word in card for word in ("arbor", "mandrel", "chuck", "between centres", "clamps", "held"))
    assert any(word in card for word in ("trace", "trial", "spot", "count them"))
    if name != "list":
        assert any(word in card for word in ("material", "brass", "steel"))


@pytest.mark.parametrize("name", CENTRED)
def test_the_cutters_height_is_told_where_it_matters(name: str) -> None:
    assert "centre" in told(name, "Preparation")


@pytest.mark.parametrize("name", [*CENTRED, "hexagon"])
def test_the_depth_and_the_passes_are_told(name: str) -> None:
    card = told(name, "Preparation")
    assert "depth" in card or "infeed" in card


@pytest.mark.parametrize("name", KINDS)
def test_what_to_do_when_it_is_off_or_how_it_closes(name: str) -> None:
    card = told(name, "Measuring")
    assert any(
        word in card
        for word in ("over", "thick", "wide", "off", "comes back", "falls into", "one turn", "count")
    )
