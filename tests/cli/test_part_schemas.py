"""What gear, graduate, holes and flats answer fits the published schemas, whatever is asked."""

import json
from typing import Any

import jsonschema
import pytest

from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

PLATE = "examples/plate-head.toml"
SCHEMAS = {
    command: json.loads((HOUSE / f"docs/schema/{command}-1.schema.json").read_text(encoding="utf-8"))
    for command in ("gear", "graduate", "holes", "flats")
}
GEAR = ("gear", "--teeth", "127", "--module", "1")
HELICAL = ("gear", "--teeth", "30", "--module", "2", "--helix", "30")
BEVEL = ("gear", "--bevel", "--teeth", "24", "--dp", "10", "--mate", "36", "--face", "3/4in")
ASKED: list[tuple[str, ...]] = [
    GEAR,
    (*GEAR, "--pin", "1.728mm, 2mm", "--span", "15", "--read-span", "44.7mm", "--blank", "128.9mm"),
    ("gear", "--teeth", "12", "--module", "3", "--shift", "0.6", "--mate", "24", "--face", "20mm"),
    (
        "gear",
        "--teeth",
        "40",
        "--dp",
        "24",
        "--pressure-angle",
        "14.5",
        "--cutters",
        "15",
        "--thin",
        "0.002in",
    ),
    ("gear", "--teeth", "8", "--module", "1"),
    HELICAL,
    (*HELICAL, "--hand", "left", "--face", "20mm", "--leadscrew", "5mm", "--head", PLATE),
    (*HELICAL, "--leadscrew", "5mm", "--head-ratio", "40", "--train", "40/48 x 28/44"),
    BEVEL,
    ("gear", "--bevel", "--teeth", "8", "--module", "1", "--mate", "30", "--face", "3mm"),
    ("graduate", "149", "--across", "150mm", "--classes", "1=3mm, 6=4.5mm, 12=6.5mm", "--height", "2.4mm"),
    ("graduate", "720", "--across", "50mm"),
    ("graduate", "100", "--across", "60mm", "--texts", "0=N, 25=E, 50=S, 75=W"),
    ("graduate", "100", "--on", "drum", "--across", "50mm", "--no-numerals"),
    ("graduate", "--vernier", "12", "--over", "23", "--main-part", "1deg", "--across", "120mm"),
    ("graduate", "--thread-dial", "16", "--lead", "4tpi", "--threads", "8tpi,11tpi", "--across", "40mm"),
    ("graduate", "--law", "log", "--values", "1:2:0.1,2:10:1", "--across", "200mm"),
    ("graduate", "60", "--on", "cone", "--across", "60mm", "--stand", "radial", "--height", "9mm"),
    ("graduate", "--period", "12h25m", "--per-line", "5m", "--across", "150mm", "--short-last"),
    ("holes", "7", "--circle", "60mm", "--hole", "6mm"),
    ("holes", "1", "--circle", "60mm"),
    ("holes", "--angles", "0, 30, 75", "--circle", "80mm", "--centre", "1in,2in"),
    ("holes", "37", "--circle", "80mm", "--hole", "3mm", "--also", "41 on 90mm", "--blank", "120mm"),
    ("holes", "7", "--circle", "60mm", "--leadscrew", "5mm", "--marks", "100"),
    ("flats", "6", "--across-flats", "17mm"),
    ("flats", "5", "--side", "10mm"),
    ("flats", "2", "--height", "8mm", "--bar", "20mm"),
    ("flats", "--unequal", "0: 8mm, 90: 7mm, 200: 8.5mm", "--bar", "20mm"),
]


def told(typed: Typed, words: tuple[str, ...]) -> Any:
    ran = typed(*words, "--json")
    assert ran.code in (0, 1), ran.err
    return json.loads(ran.out)


@pytest.mark.parametrize("command", list(SCHEMAS))
def test_the_schema_is_one(command: str) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMAS[command])


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
def test_an_answer_fits_the_schema_of_its_command(typed: Typed, words: tuple[str, ...]) -> None:
    jsonschema.Draft202012Validator(SCHEMAS[words[0]]).validate(told(typed, words))


@pytest.mark.parametrize("command", list(SCHEMAS))
def test_the_schema_knows_every_key_of_every_answer(typed: Typed, command: str) -> None:
    """No key is promised by the page alone: each is in the schema, at the top or among a kind's own."""
    text = json.dumps(SCHEMAS[command])
    for words in ASKED:
        if words[0] == command:
            assert [key for key in told(typed, words) if f'"{key}"' not in text] == [], words


@pytest.mark.parametrize(
    ("words", "key", "value"),
    [
        (GEAR, "outside_diameter_mm", "129"),
        (GEAR, "span", {"teeth": 15}),
        (GEAR, "least_teeth_without_undercut", 17.1),
        (HELICAL, "helix", None),
        (BEVEL, "approximate", False),
        (BEVEL, "teeth", 24.5),
        (("graduate", "12", "--across", "60mm"), "lines", [{"position": 0, "angle": 0.0}]),
        (("graduate", "12", "--across", "60mm"), "on", "sphere"),
        (("holes", "7", "--circle", "60mm"), "coordinates_mm", [[1.0]]),
        (("flats", "6", "--across-flats", "17mm"), "bar_mm", None),
    ],
)
def test_the_schema_would_notice_a_value_of_another_kind(
    typed: Typed, words: tuple[str, ...], key: str, value: object
) -> None:
    answer = told(typed, words)
    checker = jsonschema.Draft202012Validator(SCHEMAS[words[0]])
    assert not checker.is_valid(answer | {key: value})
    del answer[key]
    assert not checker.is_valid(answer)
