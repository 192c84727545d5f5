"""The page on JSON tells every key that an answer of a command has."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from crankwise.tasks.workshop import open_workshop
from tests.cli.conftest import Typed, typed
from tests.cli.test_help import ALL
from tests.docs.test_json_parts_page import OF_PARTS
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

PARTS = [
    word
    for readings in ("wheel-pitches", "wheel-pitches-2", "wheel-pitches-3")
    for word in ("--part", "examples/jobs/wheel-127.toml", f"examples/{readings}.csv")
]
PAGE = (HOUSE / "docs/json.md").read_text(encoding="utf-8")
TOLD = set(re.findall(r"`\"?(\w+)\"?`", PAGE)) | set(re.findall(r"\"(\w+)\":", PAGE))


def keys(answer: object) -> Iterator[str]:
    if isinstance(answer, dict):
        for key, value in answer.items():
            yield key
            yield from keys(value)
    elif isinstance(answer, list):
        for item in answer:
            yield from keys(item)


MEASURED = ("--measured-single", "18um", "--measured-cumulative", "50um")
SCREW = ("--leadscrew", "5mm", "--head-ratio", "40", "--gears", "24,28,32,40,44,48,56,64,72,86,100")
ASKED = [
    ["divide", "127", "--head", "examples/bench-head.toml", "--rim", "200mm", "--positions", "--working"],
    ["divide", "53", "--head", "examples/plate-head.toml", "--positions"],
    ["divide", "57", "--head", "examples/plate-head.toml"],
    ["divide", "12", "--head", "examples/bull-wheel.toml", "--positions"],
    ["chart", "--head", "examples/plate-head.toml", "--from", "2", "--to", "60"],
    ["head", "check", "examples/plate-head.toml"],
    ["divide", "127", "--head", "examples/measured-bench-head.toml", "--corrected"],
    ["measure", "plan", "--head", "examples/bench-head.toml", "--reverse"],
    ["measure", "plan", "--head", "examples/plate-head.toml", "--reference", "closure"],
    ["measure", "fit", "examples/bench-readings.csv", "--head", "examples/bench-head.toml"],
    ["measure", "fit", "examples/bench-closure.csv", "--head", "examples/bench-head.toml"],
    ["centre", "--pointers", "359.96:180.04,60:240,120.04:299.96,180.04:359.96", "--diameter", "120mm"],
    ["measure", "part", "examples/wheel-pitches.csv", "--job", "examples/jobs/wheel-127.toml"],
    ["measure", "parts", "--head", "examples/bench-head.toml", *PARTS],
    ["centre", "--readings", "0:0.00,90:0.03,180:0.05,270:0.02", "--diameter", "120mm"],
    ["graduate", "720", "--across", "50mm"],
    ["graduate", "--vernier", "12", "--main-part", "1deg", "--across", "120mm"],
    ["graduate", "--thread-dial", "16", "--lead", "4tpi", "--threads", "8tpi", "--across", "40mm"],
    [
        "graduate",
        "--period",
        "12h25m",
        "--per-line",
        "5m",
        "--across",
        "150mm",
        "--face",
        "10mm",
        "--height",
        "2.4mm",
    ],
    ["chart", "--head", "examples/plate-head.toml", "--from", "2", "--to", "60", "--rim", "100mm"],
    ["head", "check", "examples/mill-table.toml"],
    ["measure", "kept", "--head", "examples/measured-bench-head.toml"],
    ["measure", "part", "examples/wheel-pitches.csv", "--teeth", "127", "--module", "0.5"],
    ["gear", "--teeth", "12", "--module", "3", "--shift", "0.6", "--mate", "24", "--mate-shift", "0.36"],
    [
        "gear",
        "--teeth",
        "127",
        "--module",
        "1",
        "--blank",
        "128.9mm",
        "--read-span",
        "44.75mm",
        "--cutters",
        "8",
    ],
    ["gear", "--teeth", "20", "--module", "1", "--helix", "20", "--face", "9mm", *SCREW],
    ["gear", "--teeth", "24", "--dp", "10", "--bevel", "--mate", "36", "--face", "3/4in"],
    ["train", "7/3", "--head", "examples/plate-head.toml", "--dropped", "--within", "10ppm"],
    ["train", "--lead", "1200mm", *SCREW],
    ["budget", "examples/jobs/wheel-127.toml"],
    ["budget", "examples/jobs/tide-ring.toml"],
    ["tolerance", "--module", "2", "--teeth", "50", "--class", "8", *MEASURED],
    ["tolerance", "--module", "2", "--teeth", "30", "--helix", "30", "--class", "9"],
    [
        "sheet",
        "--job",
        "examples/jobs/wheel-127.toml",
        "--head",
        "examples/bench-head.toml",
        "--out",
        "OUT.csv",
    ],
    ["picture", "examples/jobs/tide-ring.toml", "--out", "OUT.svg"],
    ["backup", "--data", "DATA", "--out", "OUT.sqlite"],
]
TOLD_ELSEWHERE = {"pocket", "serve", "demo"}
"""Commands that need a run or go on until they are stopped: test_json_web_page.py and tests/cli/test_serve.py."""


def test_every_command_is_asked() -> None:
    asked = {" ".join(words) for words in (*ASKED, *OF_PARTS)}
    missing = [name for name in ALL if not any(f"{one} ".startswith(f"{name} ") for one in asked)]
    assert set(missing) == TOLD_ELSEWHERE


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
def test_every_key_of_an_answer_is_told(typed: Typed, words: list[str], tmp_path: Path) -> None:
    open_workshop(str(tmp_path / "workshop.sqlite")).close()
    here = {"DATA": str(tmp_path), "OUT": str(tmp_path / "out")}
    ran = typed(*(re.sub("DATA|OUT", lambda found: here[found[0]], word) for word in words), "--json")
    assert sorted(set(keys(json.loads(ran.out))) - TOLD) == []


def test_every_key_of_a_picture_is_told(typed: Typed, tmp_path: Path) -> None:
    answer = json.loads(
        typed("picture", "examples/jobs/tide-ring.toml", "--out", str(tmp_path / "ring.svg"), "--json").out
    )
    section = PAGE.split("## picture\n")[1].partition("\n## ")[0]
    assert sorted(set(answer) - {"format"} - set(re.findall(r"`(\w+)`", section))) == []
