"""Files written by each released version are read for ever, and say what they said then."""

import json
import shutil
from pathlib import Path

import pytest

from crankwise.run.journal import Entry
from crankwise.tasks.heads import load_head
from crankwise.tasks.workshop import open_workshop
from tests.old.write_files import HERE, held, held_head

STORES = sorted(HERE.glob("store-*.sqlite"))
HEADS = sorted(HERE.glob("head-*.toml"))


def test_there_are_old_files() -> None:
    assert STORES
    assert HEADS


@pytest.mark.parametrize("old", STORES, ids=lambda path: path.stem)
def test_an_old_store_says_what_it_said(old: Path, tmp_path: Path) -> None:
    shutil.copy(old, tmp_path / "workshop.sqlite")
    with open_workshop(str(tmp_path)) as workshop:
        assert held(workshop) == json.loads(old.with_suffix(".json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("old", STORES, ids=lambda path: path.stem)
def test_an_old_run_goes_on(old: Path, tmp_path: Path) -> None:
    shutil.copy(old, tmp_path / "workshop.sqlite")
    with open_workshop(str(tmp_path)) as workshop:
        unfinished = [
            run for job in workshop.jobs() for run in map(workshop.run, job.run_ids) if not run.state.finished
        ]
        assert unfinished
        for run in unfinished:
            tap = Entry("done", "a tap of today", 2e9, run.state.at_row, seen=run.state.entries)
            shown, counted = workshop.tap(run.id, tap)
            assert counted
            assert shown.state.at_row == run.state.at_row + 1


@pytest.mark.parametrize("old", HEADS, ids=lambda path: path.stem)
def test_an_old_head_file_is_read(old: Path) -> None:
    """The store written beside it holds the same head."""
    store = json.loads((HERE / f"{old.stem.replace('head', 'store')}.json").read_text(encoding="utf-8"))
    head = load_head(str(old))
    (kept,) = (kept for kept in store["heads"] if kept["name"] == head.name and not kept["demo"])
    assert held_head(head) == {name: value for name, value in kept.items() if name not in ("id", "demo")}
