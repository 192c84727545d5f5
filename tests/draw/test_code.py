"""Codes read back by a reader that is not ours, from pixels painted here."""

import pytest
import zxingcpp
from PIL import Image

from crankwise.draw.code import QUIET, code_modules, code_picture, dark_runs

TEXTS = [
    "http://127.0.0.2:8127/join?code=Z5b-_x",
    "http://shed.local:8127/runs/149",
    "Gezeitenring — שעון",
    "x" * 900,
]


def read(modules: tuple[tuple[bool, ...], ...], scale: int = 4) -> str:
    size = (len(modules) + 2 * QUIET) * scale
    image = Image.new("L", (size, size), 255)
    for x, y, length in dark_runs(modules):
        left, top = (x + QUIET) * scale, (y + QUIET) * scale
        image.paste(0, (left, top, left + length * scale, top + scale))
    (found,) = zxingcpp.read_barcodes(image)
    return str(found.text)


@pytest.mark.parametrize("text", TEXTS, ids=range(len(TEXTS)))
def test_a_code_is_read_back_by_somebody_elses_reader(text: str) -> None:
    assert read(code_modules(text)) == text


def test_a_code_is_dark_on_light_whatever_the_page_is_like() -> None:
    drawn = code_picture("x", "A code & more")

    assert 'fill="#fff"' in drawn
    assert 'fill="#000"' in drawn
    assert 'aria-label="A code &amp; more"' in drawn
    assert "style" not in drawn, "the content policy lets no inline style through"
