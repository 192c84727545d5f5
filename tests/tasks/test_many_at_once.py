"""A club with its phones: nothing lost, nothing skipped, and nobody told of a lock."""

import os
import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest

from crankwise.run.journal import Entry, fresh_state, replayed
from crankwise.tasks.workshop import Asked, Workshop, open_workshop
from tests.gear import BENCH_HEAD

PHONES = 50
HOUSE = Path(__file__).parents[2]


def begin_runs(workshop: Workshop, count: int, divisions: int) -> list[int]:
    job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count=str(divisions)))
    return [workshop.begin_run(job.id).id for _ in range(count)]


def began(phone: object) -> Entry:
    return Entry("began", f"{phone} began", 0.0, numbers_grow=True, seen=0)


def finish(workshop: Workshop, run_id: int, phone: object) -> list[str]:
    """Tap as one phone does until the run is finished; return the taps that counted."""
    counted = []
    shown = workshop.run(run_id)
    while not shown.state.finished:
        row = shown.state.at_row
        tap = Entry("done", f"{phone}/{row}", 0.0, row, seen=shown.state.entries)
        if not shown.state.began:
            tap = began(phone)
        shown, did_count = workshop.tap(run_id, tap)
        if did_count:
            counted.append(tap.tap)
    return counted


def test_fifty_phones_on_fifty_runs_lose_nothing(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop, ThreadPoolExecutor(PHONES) as pool:
        run_ids = begin_runs(workshop, PHONES, 23)
        start = Barrier(PHONES)

        def phone(run_id: int) -> list[str]:
            start.wait(60)
            return finish(workshop, run_id, f"phone {run_id}")

        counted = list(pool.map(phone, run_ids))
    assert [len(taps) for taps in counted] == [25] * PHONES
    with open_workshop(str(tmp_path)) as workshop:
        kept = [[entry.tap for entry in workshop.journal(run_id)] for run_id in run_ids]
    assert kept == counted


def test_fifty_phones_on_one_run_skip_nothing(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop, ThreadPoolExecutor(PHONES) as pool:
        (run_id,) = begin_runs(workshop, 1, 59)
        start = Barrier(PHONES)

        def phone(number: int) -> list[str]:
            start.wait(60)
            return finish(workshop, run_id, number)

        counted = [tap for taps in pool.map(phone, range(PHONES)) for tap in taps]
        journal = workshop.journal(run_id)
    assert [entry.row for entry in journal] == [None, *range(60)]
    assert sorted(entry.tap for entry in journal) == sorted(counted)


CLUB = """
import sys
from concurrent.futures import ThreadPoolExecutor
sys.path.insert(0, sys.argv[4])
from crankwise.tasks.workshop import open_workshop
from tests.tasks.test_many_at_once import finish

with open_workshop(sys.argv[1]) as workshop, ThreadPoolExecutor(6) as pool:
    print("open", flush=True)
    sys.stdin.readline()
    runs = [int(run) for run in sys.argv[3].split(",")] * 6
    taps = pool.map(lambda number: finish(workshop, runs[number], f"{sys.argv[2]}.{number}"), range(len(runs)))
    print("\\n".join(tap for counted in taps for tap in counted))
"""


def test_several_servers_on_one_file_lose_nothing_and_skip_nothing(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop:
        run_ids = begin_runs(workshop, 2, 59)
    named = ",".join(map(str, run_ids))
    servers = [
        subprocess.Popen(
            [sys.executable, "-c", CLUB, str(tmp_path), f"server {number}", named, str(HOUSE)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for number in range(3)
    ]
    for server in servers:
        assert server.stdout is not None
        assert server.stdout.readline() == "open\n"
    for server in servers:
        assert server.stdin is not None
        server.stdin.write("\n")
        server.stdin.flush()
    said = [server.communicate(timeout=120) for server in servers]
    assert [(server.returncode, errors) for server, (_, errors) in zip(servers, said, strict=True)] == [
        (0, "")
    ] * 3
    counted = [tap for taps, _ in said for tap in taps.split("\n") if tap]
    with open_workshop(str(tmp_path)) as workshop:
        journals = [workshop.journal(run_id) for run_id in run_ids]
    for journal in journals:
        assert [entry.row for entry in journal] == [None, *range(60)]
    assert sorted(entry.tap for journal in journals for entry in journal) == sorted(counted)


TAPPER = """
import sys
from crankwise.run.journal import Entry
from crankwise.tasks.workshop import open_workshop

workshop = open_workshop(sys.argv[1])
run_id = int(sys.argv[2])
print("began", workshop.tap(run_id, Entry("began", "began", 0.0, seen=0))[1], flush=True)
for row in range(10_000):
    print(row, workshop.tap(run_id, Entry("done", str(row), 0.0, row))[1], flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="there is no kill -9")
@pytest.mark.parametrize("taps", [1, 40, 400])
def test_every_tap_acknowledged_outlives_a_kill(tmp_path: Path, taps: int) -> None:
    with open_workshop(str(tmp_path)) as workshop:
        (run_id,) = begin_runs(workshop, 1, 10_000)
    with subprocess.Popen(
        [sys.executable, "-c", TAPPER, str(tmp_path), str(run_id)], stdout=subprocess.PIPE, text=True
    ) as tapper:
        assert tapper.stdout is not None
        acknowledged = [tapper.stdout.readline() for _ in range(taps)]
        tapper.send_signal(signal.SIGKILL)
        acknowledged += [line for line in tapper.stdout if line.endswith("\n")]
    assert tapper.returncode == -signal.SIGKILL
    names = [line.removesuffix(" True\n") for line in acknowledged]
    with open_workshop(str(tmp_path)) as workshop:
        run, journal = workshop.run(run_id), workshop.journal(run_id)
    assert [entry.tap for entry in journal[: len(names)]] == names
    assert run.state == replayed(fresh_state(run.rows), journal)
    assert len(names) <= len(journal) <= len(names) + 1, "one tap may have been kept and not yet told"
