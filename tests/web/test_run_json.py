"""A run for a program: what a phone carries away, and what it brings back."""

import json
from itertools import pairwise
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD
from tests.web.asking import JSON, new_head, new_job, new_run, tap

MOST_BYTES_OF_ROWS = 230_000


def begun(visitor: TestClient, count: str = "149") -> int:
    return new_run(visitor, new_job(visitor, new_head(visitor, BENCH_HEAD), count=count, work="line"))


def carried(visitor: TestClient, run_id: int, asked: str = "") -> Any:
    answer = visitor.get(f"/runs/{run_id}.json{asked}")
    assert answer.status_code == 200, answer.text
    return answer.json()


def taps(count: int, first: int = 0, name: str = "away") -> list[dict[str, Any]]:
    return [
        {"kind": "done", "tap": f"{name}-{row}", "at": 1.75e9 + row, "row": row}
        for row in range(first, first + count)
    ]


def send(visitor: TestClient, run_id: int, **body: Any) -> Any:
    answer = visitor.post(f"/runs/{run_id}/taps", json=body)
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_a_phone_carries_away_all_it_needs(visitor: TestClient) -> None:
    run_id = begun(visitor)
    run = carried(visitor, run_id)
    assert (run["run"], run["row_count"], run["gates"], run["journal_length"]) == (run_id, 150, [149], 1)
    assert run["rows"][89]["reading"] == "0.5"
    whole = run["usual"] | run["rows"][89]
    assert (whole["ring"], whole["since_zero"], whole["work"]) == (
        "215.03°",
        "43 turns + 0.5",
        "Scribe the line.",
    )
    assert run["row_in_hand"]["row"] == 0
    asked = [row["row"] for row in run["rows"] if row.get("check_ring")]
    assert asked[-1] == 149
    assert max(after - before for before, after in pairwise([0, *asked])) <= 25
    assert run["promise"][0].endswith("stays hidden for 25 positions at most.")
    assert run["state"]["turn"] == "clockwise"
    assert run["journal"][0]["kind"] == "began"


def test_a_thousand_rows_are_small(visitor: TestClient) -> None:
    run = carried(visitor, begun(visitor, "1000"))
    assert len(json.dumps(run["rows"], separators=(",", ":"), ensure_ascii=False)) < MOST_BYTES_OF_ROWS


def test_only_what_is_new_when_it_is_asked(visitor: TestClient) -> None:
    run_id = begun(visitor)
    tap(visitor, run_id, "done", "t0", 0)
    run = carried(visitor, run_id, "?since=1&rows=no")
    assert "rows" not in run
    assert [entry["tap"] for entry in run["journal"]] == ["t0"]
    assert run["journal_length"] == 2


def test_what_was_done_away_is_taken_in_once(visitor: TestClient) -> None:
    run_id = begun(visitor)
    sent = {"taps": taps(3), "seen": 1, "schedule": carried(visitor, run_id)["schedule"]}
    first = send(visitor, run_id, **sent)
    assert first["counted"] == ["away-0", "away-1", "away-2"]
    assert (first["state"]["at_row"], first["journal_length"], first["conflicts"]) == (3, 4, [])
    again = send(visitor, run_id, **sent)
    assert (again["counted"], again["journal_length"], again["conflicts"]) == ([], 4, [])


def test_a_whole_journal_is_not_doubled(visitor: TestClient) -> None:
    run_id = begun(visitor)
    send(visitor, run_id, taps=taps(2), seen=1)
    whole = carried(visitor, run_id)["journal"]
    answer = send(visitor, run_id, taps=[*whole, *taps(1, first=2)])
    assert answer["counted"] == ["away-2"]
    assert answer["journal_length"] == 4


def test_two_devices_that_disagree_are_both_told(visitor: TestClient) -> None:
    run_id = begun(visitor)
    tap(visitor, run_id, "done", "here-0", 0)
    tap(visitor, run_id, "back", "here-back", 0)
    answer = send(visitor, run_id, taps=taps(2), seen=1)
    (conflict,) = answer["conflicts"]
    assert (conflict["reason"], conflict["row"], answer["counted"]) == ("reopened", 0, [])
    assert [entry["tap"] for entry in conflict["theirs"]] == ["away-0", "away-1"]
    assert [entry["tap"] for entry in conflict["ours"]] == ["here-back"]
    assert "Look at the work, and say which is right." in conflict["text"]
    assert answer["state"]["at_row"] == 0


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        ("[", "taps: what was sent is not JSON that can be read; nothing was taken in"),
        ("[1]", 'taps: what was sent has no list of taps; it looks like {"taps": [...], "seen": 12}'),
        ('{"taps": [7]}', "taps[0]: this is no tap; a tap is an object with kind, tap, at and more"),
        (
            '{"taps": [{"kind": "done", "tap": "a", "at": 1, "row": 400}]}',
            "taps[0]: tap: row 400; the rows of this run are 0 to 149",
        ),
        ('{"taps": [{"kind": "done", "tap": "a", "at": NaN, "row": 0}]}', "taps[0]: tap: the time nan"),
        ('{"taps": [{"kind": "jump", "tap": "a", "at": 1}]}', "taps[0].kind: 'jump'; a tap is one of began,"),
        ('{"taps": [{"kind": "note", "tap": "\\ud800", "at": 1}]}', "taps[0].tap: half a character is in it"),
        (
            '{"taps": [{"kind": "ring", "tap": "a", "at": 1, "row": 1, "reading": 1e3}]}',
            "taps[0].reading: '1000.0' is not a text",
        ),
        (
            '{"taps": [{"kind": "ring", "tap": "a", "at": 1, "row": 1, "reading": "361"}]}',
            "taps[0]: ring: 361; it shows from 0 to below 360",
        ),
        ('{"taps": [], "seen": 9}', "seen: 9; this run has 1 entries"),
        ('{"taps": [], "schedule": "another"}', "schedule: these taps were made for another run"),
    ],
)
def test_what_makes_no_sense_is_refused_whole(visitor: TestClient, body: str, sentence: str) -> None:
    run_id = begun(visitor)
    answer = visitor.post(
        f"/runs/{run_id}/taps", content=body, headers={"Content-Type": "application/json", **JSON}
    )
    assert answer.status_code == 422
    assert sentence in answer.json()["error"]["message"]
    assert carried(visitor, run_id)["journal_length"] == 1


def test_one_bad_tap_keeps_all_of_them_out(visitor: TestClient) -> None:
    run_id = begun(visitor)
    spoilt = [*taps(2), {"kind": "done", "tap": "x", "at": 1, "row": -1}]
    answer = visitor.post(f"/runs/{run_id}/taps", json={"taps": spoilt, "seen": 1}, headers=JSON)
    assert answer.status_code == 422
    assert carried(visitor, run_id)["journal_length"] == 1


def test_ten_thousand_taps_in_a_second_are_refused_and_half_as_many_taken(visitor: TestClient) -> None:
    run_id = begun(visitor)
    many = [{"kind": "paused" if n % 2 == 0 else "resumed", "tap": f"{n}", "at": 1} for n in range(10_000)]
    answer = visitor.post(f"/runs/{run_id}/taps", json={"taps": many, "seen": 1}, headers=JSON)
    assert answer.status_code == 422
    assert "10,000 at once" in answer.json()["error"]["message"]
    taken = send(visitor, run_id, taps=many[:5000], seen=1)
    assert taken["journal_length"] == 5001
    assert taken["state"]["at_row"] == 0
