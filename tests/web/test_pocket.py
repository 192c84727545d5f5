"""The pocket card on the web: handed out as a file, its journal looked at and taken in."""

import re
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from crankwise.files.journal_text import EDITED, NOT_ONE
from crankwise.run.journal import Entry
from crankwise.tasks.joining import Joining
from crankwise.web import create_app
from tests.files.journal_writing import journal_text
from tests.gear import BENCH_HEAD
from tests.web.asking import JSON, form_of, new_head, new_job, new_run, tap

AT = 1_764_000_000.0
NAME = "Tide </script><b>ring</b> \N{HEBREW LETTER ALEF} \N{CRAB}"


@pytest.fixture
def run_id(visitor: TestClient) -> int:
    head = new_head(visitor, BENCH_HEAD)
    return new_run(visitor, new_job(visitor, head, count="60", work="line", name=NAME))


def told(visitor: TestClient, run_id: int) -> Any:
    return visitor.get(f"/runs/{run_id}.json").json()


def journal(visitor: TestClient, run_id: int, *entries: Entry, seen: int = 1) -> str:
    """Return what a card of a run brings home; of rows 0 and 1 done, where nothing else is said."""
    identity = told(visitor, run_id)["schedule"]
    return journal_text(entries or dones(0, 1), run_id, identity, seen)


def dones(*rows: int) -> tuple[Entry, ...]:
    return tuple(Entry("done", "", AT + 60 * row, row) for row in rows)


def steps(visitor: TestClient, run_id: int) -> list[int | None]:
    return [entry["row"] for entry in told(visitor, run_id)["journal"] if entry["kind"] == "done"]


def test_the_card_is_a_file_to_keep(visitor: TestClient, run_id: int) -> None:
    card = visitor.get(f"/runs/{run_id}/pocket.html")

    assert card.status_code == 200
    assert card.headers["content-type"] == "text/html; charset=utf-8"
    assert card.headers["content-disposition"] == (
        f'attachment; filename="tide-script-b-ring-b-pocket-{run_id}.html"'
    )
    assert card.headers["cache-control"] == "no-store", "it holds the journal as it is now"
    assert "<b>ring" not in card.text.replace("\\u003cb>ring", "")
    assert visitor.head(f"/runs/{run_id}/pocket.html").status_code == 200


def test_a_card_of_no_run_is_not_there(visitor: TestClient) -> None:
    assert visitor.get("/runs/99/pocket.html").status_code == 404
    assert visitor.get("/runs/99/bring").status_code == 404
    assert visitor.post("/runs/99/bring", data={"journal": "cw1~"}).status_code == 404


def site_of(card: str) -> str:
    found = re.search(r'"site":"([^"]*)"', card)
    assert found
    return found[1]


def test_the_card_knows_where_the_workshop_is_when_a_phone_could_find_it(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    joining.found_at("192.0.2.7", 8127)
    for joined, names, address, site in (
        (None, [], "http://127.0.0.1:8127", ""),
        (None, ["shed.test"], "http://shed.test:8127", "http://shed.test:8127"),
        (joining, ["192.0.2.7"], "http://127.0.0.1:8127", "http://192.0.2.7:8127"),
    ):
        app = create_app(tmp_path / "workshop.sqlite", allowed_hosts=names, joining=joined)
        with TestClient(app, address, follow_redirects=False) as client:
            run_id = new_run(client, new_job(client, new_head(client, BENCH_HEAD), count="12"))
            assert site_of(client.get(f"/runs/{run_id}/pocket.html").text) == site


def test_looking_at_a_link_takes_nothing_in(visitor: TestClient, run_id: int) -> None:
    text = journal(visitor, run_id)
    page = visitor.get(f"/runs/{run_id}/bring", params={"journal": text})

    assert page.status_code == 200
    assert "This card brings 2 taps for this run." in page.text
    assert f'value="{text}"' in page.text
    assert f"<bdi>{NAME}</bdi>" in unescape(page.text)
    assert "<b>ring" not in page.text
    assert visitor.get(f"/runs/{run_id}/bring", params={"journal": text, "json": ""}).json()["taps"] == 2
    assert steps(visitor, run_id) == []


@pytest.mark.parametrize("way", ["text", "file", "file with a mark first"])
def test_a_journal_is_taken_in_once(visitor: TestClient, run_id: int, way: str) -> None:
    text = journal(visitor, run_id)
    content = ("\ufeff" if "mark" in way else "") + text + "\r\n"
    for counted in (2, 0):
        if way == "text":
            page = visitor.post(f"/runs/{run_id}/bring", data={"journal": text})
        else:
            file = ("run.txt", content.encode(), "text/plain")
            page = visitor.post(f"/runs/{run_id}/bring", data={"journal": ""}, files={"file": file})
        assert page.status_code == 200
        assert f"{counted} taps were taken in." in page.text
        assert steps(visitor, run_id) == [0, 1]


def test_a_program_is_told_what_came_of_it(visitor: TestClient, run_id: int) -> None:
    tap(visitor, run_id, "done", "here-0", 0)
    answer = visitor.post(f"/runs/{run_id}/bring", data={"journal": journal(visitor, run_id)}, headers=JSON)

    assert answer.json() == {"counted": ["x7c2qa-2"], "said_twice": ["x7c2qa-1"], "conflicts": []}


def test_a_conflict_is_shown_and_nothing_taken(visitor: TestClient, run_id: int) -> None:
    tap(visitor, run_id, "done", "here-0", 0)
    tap(visitor, run_id, "back", "here-back", 0)
    page = visitor.post(f"/runs/{run_id}/bring", data={"journal": journal(visitor, run_id)})

    assert page.status_code == 200
    assert 'role="alert"><h2>Card and workshop do not agree</h2>' in page.text
    assert "2 entries of the phone are not taken in" in page.text
    assert told(visitor, run_id)["state"]["at_row"] == 0
    assert steps(visitor, run_id) == [0], "the one that was reopened"


def spoilt(visitor: TestClient, run_id: int) -> dict[str, tuple[str, str]]:
    good = journal(visitor, run_id)
    other = new_run(visitor, new_job(visitor, 1, count="48"))
    return {
        "half": (good[: len(good) // 2], EDITED),
        "a letter changed": (good.replace("~x7c2qa~", "~x7c2qb~"), EDITED),
        "another run": (journal(visitor, other), "journal: it is of another run than"),
        "another store": (journal_text(dones(0), run_id, "ffff00-1"), "journal: it is of another run than"),
        "more than the run has": (
            journal(visitor, run_id, seen=7),
            "journal: the card was made when the run had 7 entries, and here it has 1",
        ),
        "a letter of another kind": ("Dear workshop, <script>alert(1)</script>", NOT_ONE),
        "a picture": ("\x00\x01\x02PNG", NOT_ONE),
        "nothing": ("", NOT_ONE),
        "a reading beyond the ring": (
            journal(visitor, run_id, Entry("ring", "", AT, 0, reading=400)),  # type: ignore[arg-type]
            "taps[0]: ring: 400; it shows from 0 to below 360",
        ),
    }


@pytest.mark.parametrize(
    "what",
    [
        "half",
        "a letter changed",
        "another run",
        "another store",
        "more than the run has",
        "a letter of another kind",
        "a picture",
        "nothing",
        "a reading beyond the ring",
    ],
)
def test_what_cannot_be_taken_in_is_told_and_what_was_typed_stays(
    visitor: TestClient, run_id: int, what: str
) -> None:
    text, sentence = spoilt(visitor, run_id)[what]
    before = told(visitor, run_id)
    page = visitor.post(f"/runs/{run_id}/bring", data={"journal": text})
    asked = visitor.post(f"/runs/{run_id}/bring", data={"journal": text}, headers=JSON)

    assert (page.status_code, asked.status_code) == (422, 422)
    assert sentence in unescape(page.text)
    assert sentence in asked.json()["error"]["message"]
    assert f">{text}</textarea>" in unescape(page.text)
    assert "<script>alert" not in page.text
    assert told(visitor, run_id) == before
    if text:
        looked = visitor.get(f"/runs/{run_id}/bring", params={"journal": text})
        assert looked.status_code == 422
        assert sentence in unescape(looked.text)


def test_a_file_beyond_all_measure_is_refused(visitor: TestClient, run_id: int) -> None:
    file = ("run.txt", b"cw1~" + b"x" * 1_000_000, "text/plain")

    assert visitor.post(f"/runs/{run_id}/bring", files={"file": file}).status_code == 413
    assert steps(visitor, run_id) == []


def test_ten_thousand_taps_of_a_card_are_taken_in_whole(visitor: TestClient, run_id: int) -> None:
    entries = [Entry("paused" if number % 2 == 0 else "resumed", "", AT + number) for number in range(10_000)]
    text = journal(visitor, run_id, *entries)
    answer = visitor.post(f"/runs/{run_id}/bring", data={"journal": text}, headers=JSON)

    assert len(answer.json()["counted"]) == 10_000
    assert told(visitor, run_id)["journal_length"] == 10_001


def test_a_thousand_taps_on_one_button_at_once_are_one(visitor: TestClient, run_id: int) -> None:
    """As from a finger that trembles on many phones: the same page, each tap under a name of its own."""
    form = form_of(visitor.get(f"/runs/{run_id}").text, "done")

    def send(number: int) -> Any:
        answer = visitor.post(f"/runs/{run_id}/taps", data=form | {"tap": f"t{number}"}, headers=JSON)
        assert answer.status_code == 200
        return answer.json()["counted"]

    with ThreadPoolExecutor(8) as fingers:
        counted = list(fingers.map(send, range(1000)))

    assert counted.count(True) == 1
    assert (steps(visitor, run_id), told(visitor, run_id)["journal_length"]) == ([0], 2)


def test_ten_thousand_taps_that_say_the_same_are_one(visitor: TestClient, run_id: int) -> None:
    for part in range(2):
        taps = [{"kind": "done", "tap": f"t{part}-{n}", "at": 1, "row": 0} for n in range(5000)]
        answer = visitor.post(f"/runs/{run_id}/taps", json={"taps": taps, "seen": 1}, headers=JSON)
        assert answer.status_code == 200
        assert answer.json()["conflicts"] == []

    assert steps(visitor, run_id) == [0]
