"""The runs: a plan frozen when the run was made, and the fingerprint of its schedule."""

from secrets import token_hex
from sqlite3 import Connection
from typing import NamedTuple

from crankwise.errors import StoreTrouble, UnknownThing
from crankwise.plan.schedule import Row
from crankwise.store.plan_text import fingerprint_of, read_plan, rows_of
from crankwise.store.store import number_of


class RunRow(NamedTuple):
    """A run as it is kept."""

    id: int
    job_id: int
    plan: str
    schedule: str
    job_name: str
    is_demo: int
    passes: str
    own_name: str

    @property
    def identity(self) -> str:
        """What names this run, its plan and every setting of it, among all runs of all stores."""
        return f"{self.own_name or self.id}-{self.schedule[:16]}"


def one_run(connection: Connection, run_id: int) -> RunRow:
    """Return the row of one run. Raises UnknownThing."""
    row = connection.execute(
        "SELECT run.id, job_id, run.plan, schedule, job.name, job.is_demo, passes, own_name"
        " FROM run JOIN job ON job.id = job_id WHERE run.id = ?",
        (run_id,),
    ).fetchone()
    if row is None:
        raise UnknownThing(f"run {run_id}: there is no such run; it may have been dropped with its job")
    return RunRow(*row)


def add_run(connection: Connection, job_id: int, plan: str, passes: str = "") -> int:
    """Make a run of a plan's text, over the passes of another, and return its number."""
    added = connection.execute(
        "INSERT INTO run (job_id, plan, schedule, passes, own_name) VALUES (?, ?, ?, ?, ?)",
        (job_id, plan, fingerprint_of(plan, passes), passes, token_hex(6)),
    )
    return number_of(added)


def rows_as_begun(run: RunRow) -> tuple[Row, ...]:
    """Return the schedule of a run, which is what it was when the run was made.

    Raises StoreTrouble when this version would set even one position elsewhere.
    """
    if fingerprint_of(run.plan, run.passes) != run.schedule:
        raise StoreTrouble(
            f"run {run.id}: this version of Crankwise would set {read_plan(run.plan).head.name!r} otherwise than "
            "the one that began the run; finish it with that version, for half the work is done to its settings"
        )
    return rows_of(run.plan, run.passes)
