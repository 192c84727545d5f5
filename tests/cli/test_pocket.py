"""crankwise pocket: a card written, and its journal brought home, by typed commands."""

import json
import re
from pathlib import Path

import pytest

from crankwise.files.journal_text import EDITED
from crankwise.run.journal import Entry
from crankwise.tasks.workshop import Asked, KeptRun, open_workshop
from tests.cli.conftest import Typed
from tests.files.journal_writing import journal_text
from tests.gear import BENCH_HEAD

AT = 1_764_000_000.0


@pytest.fixture
def data(tmp_path: Path) -> str:
    """A folder with a workshop, and one run begun in it."""
    (tmp_path / "data").mkdir()
    with open_workshop(str(tmp_path / "data")) as workshop:
        job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count="60", work="line"))
        run = workshop.begin_run(job.id)
        workshop.tap(run.id, Entry("began", "desk-b", AT, numbers_grow=True))
    return str(tmp_path / "data")


def run_in(data: str) -> KeptRun:
    with open_workshop(data) as workshop:
        return workshop.run(1)


def saved(data: str, folder: Path, *rows: int) -> str:
    """Save the journal of a card as a phone does, and return the file's path."""
    run = run_in(data)
    path = folder / "run-1-x7c2qa.txt"
    entries = [Entry("done", "", AT + 60 * row, row) for row in rows]
    path.write_text(journal_text(entries, run.id, run.identity, seen=1), encoding="utf-8")
    return str(path)


def test_a_card_is_written_whole(typed: Typed, data: str, tmp_path: Path) -> None:
    out = tmp_path / "card.html"
    ran = typed("pocket", "1", "--out", str(out), "--data", data, "--site", "http://shed.test:8127/")
    card = out.read_text(encoding="utf-8")

    assert (ran.code, ran.err) == (0, "")
    assert ran.out == f"{out}: pocket card of run 1, {out.stat().st_size:,} bytes\n"
    assert '"site":"http://shed.test:8127"' in card
    assert "<h1" in card


def test_a_card_in_json(typed: Typed, data: str, tmp_path: Path) -> None:
    out = tmp_path / "card.html"
    ran = typed("pocket", "1", "--out", str(out), "--data", data, "--json")

    assert json.loads(ran.out) == {"format": 1, "out": str(out), "run": 1, "bytes": out.stat().st_size}
    assert '"site":""' in out.read_text(encoding="utf-8")


def test_a_journal_is_brought_home_once(typed: Typed, data: str, tmp_path: Path) -> None:
    path = saved(data, tmp_path, 0, 1)
    for told in ("run 1: 2 taken in, 0 known already\n", "run 1: 0 taken in, 0 known already\n"):
        ran = typed("pocket", "1", "--bring", path, "--data", data)
        assert (ran.code, ran.out, ran.err) == (0, told, "")
        assert run_in(data).state.at_row == 2


def test_a_conflict_is_the_answer_no(typed: Typed, data: str, tmp_path: Path) -> None:
    with open_workshop(data) as workshop:
        workshop.tap(1, Entry("done", "desk-0", AT, 0))
        workshop.tap(1, Entry("back", "desk-k", AT, 0))
    path = saved(data, tmp_path, 0, 1)
    ran = typed("pocket", "1", "--bring", path, "--data", data)
    asked = typed("pocket", "1", "--bring", path, "--data", data, "--json")

    assert (ran.code, ran.out) == (1, "run 1: 0 taken in, 0 known already\n")
    assert re.fullmatch("crankwise: A row was done on one side, and reopened.*Look at the work.*\n", ran.err)
    (conflict,) = json.loads(asked.out)["conflicts"]
    assert (asked.code, conflict["reason"], len(conflict["theirs"])) == (1, "reopened", 2)
    assert run_in(data).state.at_row == 0


def test_an_edited_journal_is_refused(typed: Typed, data: str, tmp_path: Path) -> None:
    path = Path(saved(data, tmp_path, 0, 1))
    path.write_text(path.read_text(encoding="utf-8").replace("~x7c2qa~", "~x7c2qb~"), encoding="utf-8")
    ran = typed("pocket", "1", "--bring", str(path), "--data", data)

    assert (ran.code, ran.out, ran.err) == (2, "", f"crankwise: {EDITED}\n")
    assert run_in(data).state.at_row == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["9", "--out", "card.html"], "run 9: there is no such run"),
        (["one", "--out", "card.html"], "RUN: 'one' is not a whole number"),
        (
            ["1", "--out", "card.html", "--site", "shed"],
            "site: 'shed' is no address that a phone opens; it looks like",
        ),
        (["1"], "one of the arguments --out --bring is required"),
        (
            ["1", "--out", "card.html", "--bring", "x.txt"],
            "--bring: it does not go with --out; give one or the other",
        ),
        (["1", "--out", "nowhere/card.html"], "nowhere/card.html: the folder 'nowhere' is not there"),
        (["1", "--bring", "nowhere.txt"], "nowhere.txt: there is no such file"),
        (["1", "--bring", "."], ".: this is a folder"),
    ],
)
def test_a_wrong_word_earns_a_sentence_and_leaves_nothing(
    typed: Typed, data: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], says: str
) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    monkeypatch.chdir(empty)
    ran = typed("pocket", *words, "--data", data)

    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert list(empty.iterdir()) == []
