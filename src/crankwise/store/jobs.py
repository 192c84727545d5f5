"""The jobs: what was typed, and the plan that came of it."""

import json
from dataclasses import asdict, fields
from sqlite3 import Connection

from crankwise.errors import UnknownThing
from crankwise.plan.plan import Plan
from crankwise.store.kept import Asked, KeptJob
from crankwise.store.plan_text import plan_text, read_plan
from crankwise.store.store import number_of

JobRow = tuple[int, str, int | None, str, str, int, str | None]

_SELECT = (
    "SELECT id, name, head_id, plan, asked, is_demo,"
    " (SELECT group_concat(id) FROM (SELECT id FROM run WHERE job_id = job.id ORDER BY id)) FROM job"
)


def all_jobs(connection: Connection) -> list[JobRow]:
    """Return the row of every job, the oldest first."""
    return connection.execute(f"{_SELECT} ORDER BY id").fetchall()


def one_job(connection: Connection, job_id: int) -> JobRow:
    """Return the row of one job. Raises UnknownThing."""
    row: JobRow | None = connection.execute(f"{_SELECT} WHERE id = ?", (job_id,)).fetchone()
    if row is None:
        raise UnknownThing(f"job {job_id}: there is no such job; it may have been dropped")
    return row


def kept_job(row: JobRow) -> KeptJob:
    """Return the job that a row holds. Finding its way again can take a while: do it outside the store."""
    job_id, name, head_id, plan, asked, is_demo, run_ids = row
    typed = json.loads(asked)
    known = {field.name: typed.get(field.name, "") for field in fields(Asked)}
    runs = tuple(int(run_id) for run_id in run_ids.split(",")) if run_ids else ()
    return KeptJob(job_id, name, head_id, read_plan(plan), Asked(**known), bool(is_demo), runs)


def add_job(
    connection: Connection, name: str, head_id: int, plan: Plan, asked: Asked, is_demo: bool = False
) -> int:
    """Keep a new job and return its number."""
    added = connection.execute(
        "INSERT INTO job (name, head_id, plan, asked, is_demo) VALUES (?, ?, ?, ?, ?)",
        (name, head_id, plan_text(plan), json.dumps(asdict(asked), ensure_ascii=False), is_demo),
    )
    return number_of(added)


def change_plan(connection: Connection, job_id: int, plan: Plan) -> None:
    """Put another plan in a job; its runs keep theirs."""
    connection.execute("UPDATE job SET plan = ? WHERE id = ?", (plan_text(plan), job_id))


def rename_job(connection: Connection, job_id: int, name: str) -> None:
    """Give a job another name."""
    connection.execute("UPDATE job SET name = ? WHERE id = ?", (name, job_id))


def drop_job(connection: Connection, job_id: int) -> None:
    """Drop a job with its runs and their journals."""
    connection.execute("DELETE FROM job WHERE id = ?", (job_id,))
