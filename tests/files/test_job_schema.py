"""The published schema of job files accepts what is read, knows the same keys, and so does the page."""

import json
import re
import tomllib
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given
from referencing import Registry, Resource

from crankwise.files.job_keys import PART_KEYS
from crankwise.files.job_toml import Job, read_job, write_job
from tests.files.test_job_toml import JOBS
from tests.house.tracked import HOUSE

FOLDER = HOUSE / "docs/schema"
SCHEMA = json.loads((FOLDER / "job-1.schema.json").read_text(encoding="utf-8"))
HEAD = json.loads((FOLDER / "head-1.schema.json").read_text(encoding="utf-8"))
CHECKER = jsonschema.Draft202012Validator(
    SCHEMA, registry=Registry().with_resource("head-1.schema.json", Resource.from_contents(HEAD))
)
PAGE = (HOUSE / "docs/job-file.md").read_text(encoding="utf-8")


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@given(job=JOBS.filter(lambda job: len(job.name) <= 200))
def test_what_is_written_fits_the_schema(job: Job) -> None:
    CHECKER.validate(tomllib.loads(write_job(job)))


@pytest.mark.parametrize("path", sorted((HOUSE / "examples/jobs").glob("*.toml")), ids=lambda path: path.stem)
def test_the_examples_fit_the_schema(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    read_job(text)
    CHECKER.validate(tomllib.loads(text))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "part = 3",
        '[part]\nkind = "cam"',
        "[part]\ncuont = 3",
        "[part]\ncount = true",
        '[part]\nkind = "graduated"\nengraved = "yes"',
        "format = 2\n[part]\ncount = 3",
        'work = "polish"\n[part]\ncount = 3',
        "head = 3\n[part]\ncount = 3",
        'head = ""\n[part]\ncount = 3',
        '[part]\ncount = 3\n[head]\nname = "A"\n[head.worm]\nwheel_teeth = 0',
        '[part]\nkind = "flats"\nteeth = 3',
    ],
)
def test_what_is_refused_does_not_fit(text: str) -> None:
    assert not CHECKER.is_valid(tomllib.loads(text))


def test_the_schema_and_the_page_know_every_key_of_every_kind() -> None:
    kinds = {one["title"]: one["properties"] for one in SCHEMA["properties"]["part"]["oneOf"]}
    rows = dict(re.findall(r"^\| `([\w-]+)` \| `[^`]+` \| (.*) \|$", PAGE, re.MULTILINE))
    assert list(kinds) == list(PART_KEYS)
    for kind, keys in PART_KEYS.items():
        assert list(kinds[kind]) == ["kind", *keys.all]
        assert re.findall(r"`(\w+)`", rows[kind]) == list(keys.all)


def test_the_page_knows_every_key_of_the_file() -> None:
    assert {f"| `{key}` |" for key in SCHEMA["properties"] if key != "part"} <= set(
        re.findall(r"\| `\w+` \|", PAGE)
    )
