"""A tap in a run against a bare durable commit: the same disk, turn about, in one run.

The bare commit is what the disk asks of anybody: one row added to one table of an SQLite file in
write-ahead mode with full synchronisation.
"""

import sqlite3
import tempfile
from collections.abc import Callable
from contextlib import closing
from functools import partial
from pathlib import Path
from statistics import quantiles
from time import perf_counter

from bench.measured import Measured
from crankwise.run.journal import Entry
from crankwise.tasks.workshop import Asked, open_workshop

TAPS = 4000
BOUNDS = {50: 2.0, 99: 3.0}
"""A tap takes 0.05 ms beside its commit, and a commit 0.13 to 0.25 ms where this was set: 1.3 to 1.7 in the middle."""
BENCH_HEAD = """
name = "Bench head"
[worm]
wheel_teeth = 72
[dial]
marks = 100
read_to = "1/2"
[ring]
graduations = 360
"""


def measure() -> list[Measured]:
    """Return how many times as long as a bare commit a tap takes: the middle one, and 99 in 100."""
    Path("build").mkdir(exist_ok=True)  # not the system's temporary folder, which may be in memory
    with (
        tempfile.TemporaryDirectory(dir="build") as folder,
        closing(sqlite3.connect(f"{folder}/bare.sqlite", isolation_level=None)) as bare,
        open_workshop(f"{folder}/workshop.sqlite") as workshop,
    ):
        bare.execute("PRAGMA journal_mode = WAL")
        bare.execute("PRAGMA synchronous = FULL")
        bare.execute("CREATE TABLE tap (seq INTEGER PRIMARY KEY, tap TEXT, at REAL)")
        job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count=str(TAPS)))
        run_id = workshop.begin_run(job.id).id
        workshop.tap(run_id, Entry("began", "began", 0.0, seen=0))
        commits, taps = [], []
        for row in range(TAPS):
            name = f"0123456789abcdef-{row:06}"
            commit = partial(bare.execute, "INSERT INTO tap (tap, at) VALUES (?, 0.0)", (name,))
            tap = partial(workshop.tap, run_id, Entry("done", name, 0.0, row, seen=row + 1))
            commits.append(_seconds(commit))
            taps.append(_seconds(tap))
        assert workshop.run(run_id).state.at_row == TAPS
    note = f"{TAPS} of each, turn about; a bare commit takes {_hundredth(commits, 50) * 1000:.2f} ms in the middle"
    return [
        Measured(
            f"a tap against a durable commit, p{p}", _hundredth(taps, p) / _hundredth(commits, p), bound, note
        )
        for p, bound in BOUNDS.items()
    ]


def _seconds(act: Callable[[], object]) -> float:
    start = perf_counter()
    act()
    return perf_counter() - start


def _hundredth(times: list[float], p: int) -> float:
    return quantiles(times, n=100)[p - 1]
