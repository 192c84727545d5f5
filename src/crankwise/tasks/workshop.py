"""The workshop: the heads owned, the jobs, and the runs with their taps, kept in one store."""

from pathlib import Path
from sqlite3 import Connection
from types import TracebackType

from crankwise.errors import BadDivisions
from crankwise.files.head_toml import read_head
from crankwise.plan.schedule import Row
from crankwise.run.guide import guide
from crankwise.run.journal import Entry, RunState, after, counts
from crankwise.store import heads, jobs, journals, runs
from crankwise.store.backup import Backup, make_backup
from crankwise.store.kept import Asked, KeptHead, KeptJob, KeptRun
from crankwise.store.place import FILE_NAME, store_path
from crankwise.store.plan_text import fingerprint_of, plan_text, read_plan
from crankwise.store.store import PATIENCE, Store
from crankwise.tasks.demo import drop_demo, has_demo, load_demo
from crankwise.tasks.job_plan import job_name, job_plan, other_way, usual_job_name
from crankwise.tasks.tap import check_tap

__all__ = ["Asked", "Backup", "KeptHead", "KeptJob", "KeptRun", "Workshop", "open_workshop", "store_path"]

MOST_ROWS = 20_000
"""Positions of a run: nobody makes more by hand, and each row is held in memory."""


def open_workshop(path: str | None = None, demo: bool = False, patience: float = PATIENCE) -> "Workshop":
    """Open the workshop kept in a file, made new where there is none.

    path      the file, or the folder that holds it; None for the platform's own place
    demo      load the demo workshop into a workshop that is empty and never had it
    patience  seconds to wait for another program that holds the file

    Raises StoreTrouble, and leaves the file as it is, when it is damaged, not ours, locked, may not
    be written, or comes from a newer version.
    """
    place = Path(path) if path else store_path()
    store = Store(place / FILE_NAME if place.is_dir() else place, patience)
    if demo:
        try:
            load_demo(store)
        except BaseException:
            store.close()
            raise
    return Workshop(store)


class Workshop:
    """One open workshop. Any number of threads may use it at once, and other processes the same file.

    What a method has changed is kept durably when it returns. Every method raises StoreTrouble when
    the file cannot be read or written, and then nothing was changed.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        # Where each run stood when it was last looked at, read and written only in a transaction: the
        # store lets one in at a time. It is behind, never wrong: what came since is read from the journal.
        self._states: dict[int, RunState] = {}

    def __enter__(self) -> "Workshop":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._store.close()

    # Heads

    def heads(self) -> tuple[KeptHead, ...]:
        """Return the heads owned, the oldest first."""
        with self._store.reading() as connection:
            return heads.all_heads(connection)

    def head(self, head_id: int) -> KeptHead:
        """Return one head. Raises UnknownThing."""
        with self._store.reading() as connection:
            return heads.one_head(connection, head_id)

    def keep_head(self, toml: str | bytes, head_id: int | None = None) -> KeptHead:
        """Keep a head described as in a head file, and return it.

        head_id  the head that it takes the place of; None for a new one. A head of the demo workshop
                 becomes the person's own by this.

        Raises FaultsFound with every fault of the description, UnknownThing.
        """
        head = read_head(toml)
        with self._store.writing() as connection:
            if head_id is None:
                head_id = heads.add_head(connection, head)
            else:
                heads.one_head(connection, head_id)
                heads.change_head(connection, head_id, head)
            return heads.one_head(connection, head_id)

    def drop_head(self, head_id: int) -> None:
        """Drop a head; jobs planned on it keep their own copy. Raises UnknownThing."""
        with self._store.writing() as connection:
            heads.one_head(connection, head_id)
            heads.drop_head(connection, head_id)

    # Jobs

    def jobs(self) -> tuple[KeptJob, ...]:
        """Return the jobs, the oldest first."""
        with self._store.reading() as connection:
            rows = jobs.all_jobs(connection)
        return tuple(jobs.kept_job(row) for row in rows)

    def job(self, job_id: int) -> KeptJob:
        """Return one job. Raises UnknownThing."""
        with self._store.reading() as connection:
            row = jobs.one_job(connection, job_id)
        return jobs.kept_job(row)

    def new_job(self, head_id: int, asked: Asked, name: str = "", way_key: str | None = None) -> KeptJob:
        """Keep a new job of what was typed, and return it.

        name     as it shall be known by; empty for one made from the divisions and the head
        way_key  the way chosen; None for the best there is, be it within the tolerance or not

        Raises Mendable when what was typed cannot be read, or not be divided on this head, or the
        head or the way is not there.
        """
        head = self.head(head_id).head
        plan = job_plan(head, asked, way_key)
        name = job_name(name) or usual_job_name(plan)
        with self._store.writing() as connection:
            heads.one_head(connection, head_id)
            job_id = jobs.add_job(connection, name, head_id, plan, asked)
        return self.job(job_id)

    def choose_way(self, job_id: int, way_key: str) -> KeptJob:
        """Divide a job by another way; its runs keep theirs. Raises UnknownThing."""
        plan = other_way(self.job(job_id).plan, way_key)
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            jobs.change_plan(connection, job_id, plan)
        return self.job(job_id)

    def rename_job(self, job_id: int, name: str) -> KeptJob:
        """Give a job another name; an empty one brings back the usual. Raises UnknownThing, FaultsFound."""
        name = job_name(name) or usual_job_name(self.job(job_id).plan)
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            jobs.rename_job(connection, job_id, name)
        return self.job(job_id)

    def drop_job(self, job_id: int) -> None:
        """Drop a job with its runs and their journals. Raises UnknownThing."""
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            jobs.drop_job(connection, job_id)

    # Runs

    def begin_run(self, job_id: int) -> KeptRun:
        """Make a new run of a job, its journal empty, its plan frozen as it is now.

        Raises UnknownThing, and BadDivisions when there are more rows than anybody makes by hand.
        """
        plan = self.job(job_id).plan
        if len(plan.part.divisions) > MOST_ROWS:
            raise BadDivisions(
                f"divisions: a run of {len(plan.part.divisions):,} positions; a run has at most {MOST_ROWS:,}, "
                "so work it in parts with first and last"
            )
        text = plan_text(plan)
        fingerprint_of(text)  # long work, done before the store is held
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            run_id = runs.add_run(connection, job_id, text)
        return self.run(run_id)

    def run(self, run_id: int) -> KeptRun:
        """Return a run as it stands now. Raises UnknownThing."""
        with self._store.reading() as connection:
            kept = runs.one_run(connection, run_id)
        rows = runs.rows_as_begun(kept)
        with self._store.reading() as connection:
            state = self._state(connection, run_id, len(rows))
        return _kept_run(kept, rows, state)

    def tap(self, run_id: int, entry: Entry) -> tuple[KeptRun, bool]:
        """Add a tap to a run's journal; return the run as it then stands, and whether the tap counted.

        entry.seen  `state.entries` of the run as it was shown where it was tapped. With it a tap that
                    was long delayed can never complete a row that has been reopened meanwhile.

        A repeat (of the same name) and a late tap do not count and change nothing. One that counts is
        kept durably before this returns. Raises UnknownThing for the run, BadTap for a tap that makes
        no sense in it.
        """
        with self._store.reading() as connection:
            kept = runs.one_run(connection, run_id)
        rows = runs.rows_as_begun(kept)
        check_tap(entry, len(rows))
        with self._store.writing() as connection:
            kept = runs.one_run(connection, run_id)
            state = self._state(connection, run_id, len(rows))
            counted = counts(state, entry) and not journals.has_tap(connection, run_id, entry.tap)
            if counted:
                journals.add(connection, run_id, state.entries + 1, entry)
                state = after(state, entry)
        return _kept_run(kept, rows, state), counted

    def journal(self, run_id: int) -> tuple[Entry, ...]:
        """Return every tap of a run that counted, in order. Raises UnknownThing."""
        with self._store.reading() as connection:
            runs.one_run(connection, run_id)
            return journals.entries_after(connection, run_id, 0)

    def _state(self, connection: Connection, run_id: int, rows: int) -> RunState:
        """Return where a run stands: where it stood, and what its journal says since."""
        state = self._states.get(run_id) or RunState(rows)
        for entry in journals.entries_after(connection, run_id, state.entries):
            state = after(state, entry)
        self._states[run_id] = state
        return state

    # The whole

    @property
    def has_demo(self) -> bool:
        """Whether anything of the demo workshop is there."""
        with self._store.reading() as connection:
            return has_demo(connection)

    def drop_demo(self) -> None:
        """Drop the demo workshop, the runs of its jobs included. It is not loaded again."""
        with self._store.writing() as connection:
            drop_demo(connection)

    def backup(self, path: str) -> Backup:
        """Copy the workshop to a file, taps going on meanwhile. Raises BadFile when it cannot be written."""
        return make_backup(self._store.path, Path(path))


def _kept_run(kept: runs.RunRow, rows: tuple[Row, ...], state: RunState) -> KeptRun:
    plan = read_plan(kept.plan)
    shown = guide(plan.head, rows, state)
    return KeptRun(kept.id, kept.job_id, kept.job_name, plan, rows, state, shown, bool(kept.is_demo))
