"""Answers fit the published schema, for every kind of head and question."""

import json

import jsonschema
import pytest

from tests.cli.conftest import Typed
from tests.house.tracked import HOUSE

SCHEMA = json.loads((HOUSE / "docs/schema/division-1.schema.json").read_text(encoding="utf-8"))
CHECKER = jsonschema.Draft202012Validator(SCHEMA)


@pytest.mark.parametrize("head", ["bench-head", "plate-head", "round-table", "bull-wheel"])
@pytest.mark.parametrize(
    "words",
    [
        ["60"],
        ["127"],
        ["57", "--positions", "--working"],
        ["53", "--rim", "200mm", "--within", "1deg", "--positions"],
        ["--angles", "0, 6, 30d12m, 1/3 turn"],
        ["60", "--start", "1/120 turn", "--first", "1", "--last", "31", "--every", "10"],
        ["1"],
        ["2000"],
    ],
    ids=" ".join,
)
def test_an_answer_fits_the_schema(typed: Typed, head: str, words: list[str]) -> None:
    ran = typed("divide", *words, "--head", f"examples/{head}.toml", "--json")
    assert ran.code in (0, 1), ran.err
    CHECKER.validate(json.loads(ran.out))


def test_a_row_of_the_chart_is_a_way_of_the_same_schema(typed: Typed) -> None:
    ran = typed(
        "chart", "--head", "examples/plate-head.toml", "--from", "2", "--to", "60", "--rim", "8in", "--json"
    )
    way = CHECKER.evolve(schema={"$ref": "#/$defs/way", "$defs": SCHEMA["$defs"]})
    for row in json.loads(ran.out)["rows"]:
        way.validate(row["best"])


@pytest.mark.parametrize(
    ("key", "value"),
    [("reading", 56.5), ("turns", "0"), ("ring", 2.83), ("target_deg", 2.8346), ("reading", "about 56.7")],
)
def test_the_schema_would_notice_a_value_of_another_kind(typed: Typed, key: str, value: object) -> None:
    answer = json.loads(typed("divide", "127", "--head", "examples/bench-head.toml", "--json").out)
    answer["ways"][0]["positions"][1][key] = value
    assert not CHECKER.is_valid(answer)
