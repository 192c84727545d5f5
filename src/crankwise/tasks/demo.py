"""The demo workshop: the Slipway Shed, which makes a tide-and-moon clock for a harbour wall.

Its gear and its jobs are files in the folder `demo` of the package, read as a person's own would be.
"""

import tomllib
from datetime import datetime
from importlib.resources import files
from sqlite3 import Connection
from typing import Any

from crankwise.files.head_toml import read_head
from crankwise.files.job_toml import Job, asked_part
from crankwise.run.journal import Entry
from crankwise.store import heads, jobs, journals, runs
from crankwise.store.plan_text import plan_text
from crankwise.store.store import Store
from crankwise.tasks.job_plan import asked_of, job_plan

LOADED = "the demo workshop was loaded"


def load_demo(store: Store) -> bool:
    """Load the demo workshop into a store that is empty and never had it; return whether that was done."""
    with store.reading() as connection:
        if not _is_wanted(connection):
            return False
    with store.writing() as connection:
        # Another process may have loaded it while this one waited for its turn.
        if not _is_wanted(connection):
            return False
        _load(connection)
        connection.execute("INSERT INTO happened (what) VALUES (?)", (LOADED,))
    return True


def has_demo(connection: Connection) -> bool:
    """Return whether anything of the demo workshop is there."""
    sought = "SELECT 1 FROM head WHERE is_demo UNION ALL SELECT 1 FROM job WHERE is_demo LIMIT 1"
    return connection.execute(sought).fetchone() is not None


def drop_demo(connection: Connection) -> None:
    """Drop the demo workshop, the runs of its jobs included; it is not loaded again."""
    connection.execute("DELETE FROM job WHERE is_demo")
    connection.execute("DELETE FROM head WHERE is_demo")


def _is_wanted(connection: Connection) -> bool:
    (found,) = connection.execute(
        "SELECT (SELECT count(*) FROM happened WHERE what = ?) + (SELECT count(*) FROM head)"
        " + (SELECT count(*) FROM job)",
        (LOADED,),
    ).fetchone()
    return not found


def _load(connection: Connection) -> None:
    folder = files("crankwise") / "demo"
    listed = tomllib.loads((folder / "workshop.toml").read_text(encoding="utf-8"))
    numbers = {}
    for name in listed["heads"]:
        head = read_head((folder / f"{name}.toml").read_bytes(), f"{name}.toml")
        numbers[name] = heads.add_head(connection, head, is_demo=True)
    for job in listed["jobs"]:
        _load_job(connection, job, numbers[job["head"]])


def _load_job(connection: Connection, job: dict[str, Any], head_id: int) -> None:
    part = asked_part(job["part"]["kind"], job["part"])
    asked = asked_of(Job(part, **job.get("asked", {})))
    plan = job_plan(heads.one_head(connection, head_id).head, asked, job.get("way"))
    job_id = jobs.add_job(connection, job["name"], head_id, plan, asked, is_demo=True)
    for run in job.get("runs", ()):
        run_id = runs.add_run(connection, job_id, plan_text(plan))
        stopped: datetime = run["stopped_at"]
        done, pace = run["rows_done"], run["seconds_a_row"]
        at = stopped.timestamp() - done * pace
        journals.add(connection, run_id, 1, Entry("began", "demo-began", at, numbers_grow=True, seen=0))
        for row in range(done):
            at += pace
            journals.add(connection, run_id, row + 2, Entry("done", f"demo-{row}", at, row, seen=row + 1))
