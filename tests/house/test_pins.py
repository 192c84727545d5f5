"""The pinned lists: every need has a hash, none has an address, and none is forgotten."""

import re
import tomllib

import pytest

from tests.house.tracked import HOUSE

LISTS = ("base", "run", "dev")


def pinned(name: str) -> dict[str, int]:
    """Return each pinned package with the number of its hashes."""
    text = (HOUSE / f"requirements/{name}.txt").read_text(encoding="utf-8").replace("\\\n", " ")
    hashes: dict[str, int] = {}
    for line in text.splitlines():
        if line.startswith("#") or not line.strip():
            continue
        package = re.match(r"([a-z0-9-]+)==\S+", line)
        assert package, f"not pinned to one version: {line[:80]}"
        hashes[package[1]] = line.count("--hash=sha256:")
    return hashes


def needs() -> dict[str, list[str]]:
    """Return what pyproject.toml asks for in each list, names only."""
    asked = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))
    base = asked["project"]["dependencies"]
    run = base + [need for extra in asked["project"]["optional-dependencies"].values() for need in extra]
    dev = run + asked["dependency-groups"]["dev"] + asked["dependency-groups"]["build"]
    return {
        name: [re.split(r"[=<>~!;\[ ]", need)[0].replace("_", "-").lower() for need in wanted]
        for name, wanted in {"base": base, "run": run, "dev": dev}.items()
    }


@pytest.mark.parametrize("name", LISTS)
def test_every_need_is_pinned_with_a_hash(name: str) -> None:
    hashes = pinned(name)
    assert [need for need in needs()[name] if hashes.get(need, 0) == 0] == []
    assert [package for package, count in hashes.items() if count == 0] == []


@pytest.mark.parametrize("name", LISTS)
def test_no_list_records_an_address(name: str) -> None:
    text = (HOUSE / f"requirements/{name}.txt").read_text(encoding="utf-8")
    assert re.findall(r"\S*://\S*|^-.*", text, re.MULTILINE) == []


def test_the_build_back_end_is_the_pinned_one() -> None:
    asked = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))
    assert asked["build-system"]["requires"] == asked["dependency-groups"]["build"]
