"""Where sizes are from is written beside them, and read again."""

import tomllib

import jsonschema
import pytest

from crankwise.errors import FaultsFound
from crankwise.files.head_toml import read_head, write_head
from tests.files.test_head_schema import CHECKER
from tests.gear import BENCH_HEAD

SOURCES = (
    "\n[errors]\nworm_arcsec = [10, 60]\nlock_arcsec = 4\n\n[errors.from]\n"
    'worm_arcsec = "5 \\"good\\" parts \\u007f \N{WRENCH}"\n'
)


def test_it_is_written_and_read_again() -> None:
    head = read_head(BENCH_HEAD + SOURCES)
    assert head.error_sizes is not None
    assert head.error_sizes.sources == (("worm_arcsec", '5 "good" parts \x7f \N{WRENCH}'),)
    assert read_head(write_head(head)) == head
    CHECKER.validate(tomllib.loads(write_head(head)))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("from.worm_arcsec = 3", "errors.from.worm_arcsec"),
        ("from.wurm_arcsec = 'x'", "did you mean worm_arcsec"),
        ("from.worm_arcsec = 'x'", "that size is not here"),
        ("from = 7", "this is a table"),
        (f"worm_arcsec = 3\nfrom.worm_arcsec = '{'x' * 201}'", "201 characters; 200 at most"),
    ],
)
def test_what_is_wrong_with_it_is_told(line: str, told: str) -> None:
    with pytest.raises(FaultsFound, match=told):
        read_head(f"{BENCH_HEAD}\n[errors]\n{line}\n")


def test_the_schema_knows_that_it_is_text() -> None:
    with pytest.raises(jsonschema.ValidationError, match="is not of type 'string'"):
        CHECKER.validate(tomllib.loads(f"{BENCH_HEAD}\n[errors]\nworm_arcsec = 3\nfrom.worm_arcsec = 3\n"))
