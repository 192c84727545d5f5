"""The page on the JSON of holes, flats and other work tells every key that an answer has."""

import json
import re
from collections.abc import Iterator

import pytest

from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

PAGE = (HOUSE / "docs/json-parts.md").read_text(encoding="utf-8")


def keys(answer: object) -> Iterator[str]:
    if isinstance(answer, dict):
        for key, value in answer.items():
            yield key
            if key != "cards":  # their lines are told in json.md
                yield from keys(value)
    elif isinstance(answer, list):
        for item in answer:
            yield from keys(item)


OF_PARTS = [
    ["holes", "28", "--circle", "60mm", "--hole", "6mm", "--leadscrew", "5mm", "--marks", "100"],
    ["flats", "6", "--across-flats", "17mm"],
    ["angles", "0: top; 90: open"],
    ["rack", "20", "--module", "1", "--leadscrew", "5mm", "--marks", "100", "--travel", "20mm"],
    ["worm-wheel", "16", "--module", "1", "--worm", "20mm"],
    ["ratchet", "24", "--outside", "50mm", "--depth", "3mm"],
    ["splines", "6x23x26", "--floor-cutter", "4mm"],
    ["sprocket", "19", "--chain", "08B"],
    ["clock-wheel", "60", "--pinion", "8", "--module", "0.5"],
]


@pytest.mark.parametrize("words", OF_PARTS, ids=lambda words: words[0])
def test_every_key_of_an_answer_is_told_under_its_command_or_at_the_top(
    typed: Typed, words: list[str]
) -> None:
    top, *sections = re.split(r"^## ", PAGE, flags=re.MULTILINE)
    section = next(one for one in sections if one.startswith(f"{words[0]}\n"))
    told = set(re.findall(r"`(\w+)`", top + section))
    answer = json.loads(typed(*words, "--json").out)
    assert sorted(set(keys(answer)) - told) == []
