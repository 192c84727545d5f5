"""What is wrong with a head is told by the name that stands over its field."""

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from crankwise.errors import Fault
from crankwise.web.head_fields import FIELDS
from crankwise.web.head_labels import label_of, told_at_its_field


def test_every_label_is_the_one_that_stands_over_its_field(visitor: TestClient) -> None:
    page = visitor.get("/heads/new").text
    over = {name: unescape(text) for name, text in re.findall(r'<label for="f-([\w.]+)">([^<]*)<', page)}
    assert len(over) > 30
    typed = set(FIELDS) & set(over)
    told = {name: label_of(name) for name in typed if label_of(name)}
    assert {name: label.rpartition("“")[2].removesuffix("”") for name, label in told.items()} == {
        name: over[name] for name in told
    }
    assert typed - set(told) == set()


@pytest.mark.parametrize(
    ("place", "sentence"),
    [
        ("ring.read_to", "Ring, “Read to”: wrong"),
        ("dial.read_to", "Dial, “Read to”: wrong"),
        ("name", "“Name”: wrong"),
        ("errors.tool_mm", "Its errors, “Tool beside its place”: wrong"),
        ("plates[1]", "Hole plates, plate 2: wrong"),
        ("no_such.place", "no_such.place: wrong"),
        ("", "wrong"),
    ],
)
def test_a_place_of_a_head_file_is_told_as_the_form_calls_it(place: str, sentence: str) -> None:
    assert told_at_its_field(Fault(place, "wrong")) == sentence
