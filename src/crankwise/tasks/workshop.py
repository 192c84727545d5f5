"""The workshop: the heads owned, the jobs, and the runs with their taps, kept in one store."""

from collections.abc import Callable, Sequence
from pathlib import Path
from sqlite3 import Connection
from types import TracebackType

from crankwise.errors import BadDivisions, UnknownThing
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head
from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.schedule import Row
from crankwise.run.guide import guide
from crankwise.run.journal import Entry, RunState, after, counts, fresh_state
from crankwise.run.merge import Merged
from crankwise.run.watch import Watch
from crankwise.store import heads, jobs, journals, measurements, runs
from crankwise.store.backup import Backup, make_backup
from crankwise.store.kept import Asked, KeptHead, KeptJob, KeptMeasurement, KeptRun, TypedMeasurement
from crankwise.store.passes_text import passes_text
from crankwise.store.place import FILE_NAME, store_path
from crankwise.store.plan_text import fingerprint_of, plan_text, read_plan
from crankwise.store.store import PATIENCE, Store
from crankwise.tasks.batch import MOST_TAPS, check_batch, taken
from crankwise.tasks.demo import drop_demo, has_demo, load_demo
from crankwise.tasks.job_plan import job_name, job_plan, other_way, plan_again, usual_job_name
from crankwise.tasks.tap import check_tap

__all__ = ["Asked", "Backup", "KeptHead", "KeptJob", "KeptRun", "Workshop", "open_workshop", "store_path"]

MOST_ROWS = 20_000
"""Positions of a run: nobody makes more by hand, and each row is held in memory."""

WATCHES_AT_HAND = 16


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
        # Where each run stood when it was last looked at, as far as it is kept durably. It may be behind, and is
        # never wrong: what came since is read from the journal, in the transaction that goes on from it.
        self._states: dict[int, RunState] = {}
        # A run's plan never changes, so neither does its watch; the oldest goes when there are many.
        self._watches: dict[int, Watch] = {}

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

    def change_head(self, head_id: int, change: Callable[[Head], Head]) -> KeptHead:
        """Put what `change` makes of a head in its place, with nothing kept of it in between, and return it.

        Raises UnknownThing, and what `change` raises; then nothing is changed.
        """
        with self._store.writing() as connection:
            before = heads.one_head(connection, head_id)
            now = change(before.head)
            if now == before.head:
                return before
            heads.change_head(connection, head_id, now)
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
        return self.new_jobs(head_id, [(asked, name)], way_key)[0]

    def new_jobs(
        self, head_id: int, wanted: Sequence[tuple[Asked, str]], way_key: str | None = None
    ) -> tuple[KeptJob, ...]:
        """Keep several new jobs, all or none of them, their numbers one after the other; return them in order.

        wanted  what was typed for each, and its name as for `new_job`

        Raises Mendable as `new_job` does.
        """
        head = self.head(head_id).head
        plans = [(job_plan(head, asked, way_key), asked, name) for asked, name in wanted]
        named = [(job_name(name) or usual_job_name(plan, asked), plan, asked) for plan, asked, name in plans]
        with self._store.writing() as connection:
            heads.one_head(connection, head_id)
            added = [jobs.add_job(connection, name, head_id, plan, asked) for name, plan, asked in named]
        return tuple(map(self.job, added))

    def choose_way(self, job_id: int, way_key: str) -> KeptJob:
        """Divide a job by another way; its runs keep theirs. Raises UnknownThing."""
        job = self.job(job_id)
        plan = other_way(job.plan, way_key, job.asked)
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            jobs.change_plan(connection, job_id, plan)
        return self.job(job_id)

    def plan_again(self, job_id: int) -> KeptJob:
        """Plan a job again on its head as that is kept now; its runs keep the head they were made with.

        Raises UnknownThing when there is no such job or its head was dropped, Mendable when that head
        cannot make it any more.
        """
        job = self.job(job_id)
        if job.head_id is None:
            raise UnknownThing(f"job {job_id}: its head was dropped; the job keeps its own copy of it")
        plan = plan_again(job.plan, job.asked, self.head(job.head_id).head)
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            jobs.change_plan(connection, job_id, plan)
        return self.job(job_id)

    def rename_job(self, job_id: int, name: str) -> KeptJob:
        """Give a job another name; an empty one brings back the usual. Raises UnknownThing, FaultsFound."""
        job = self.job(job_id)
        name = job_name(name) or usual_job_name(job.plan, job.asked)
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

    def begin_run(self, job_id: int, passes: Passes = ONE_PASS) -> KeptRun:
        """Make a new run of a job, its journal empty, its plan and passes frozen as they are now.

        Raises UnknownThing, and BadDivisions when there are more rows than anybody makes by hand, or the
        way cannot make these passes.
        """
        plan = self.job(job_id).plan
        count = len(plan.part.divisions) * len(passes)
        if count > MOST_ROWS:
            raise BadDivisions(
                "divisions",
                f"a run of {count:,} positions; a run has at most {MOST_ROWS:,}, "
                "so work it in parts with first and last",
            )
        return self._add_run(job_id, plan_text(plan), passes_text(passes))

    def begin_again(self, run_id: int) -> KeptRun:
        """Make a new run of the same plan and passes; the old one stays. Raises UnknownThing."""
        with self._store.reading() as connection:
            kept = runs.one_run(connection, run_id)
        return self._add_run(kept.job_id, kept.plan, kept.passes)

    def _add_run(self, job_id: int, plan: str, passes: str) -> KeptRun:
        fingerprint_of(plan, passes)  # long work, done before the store is held
        with self._store.writing() as connection:
            jobs.one_job(connection, job_id)
            run_id = runs.add_run(connection, job_id, plan, passes)
        return self.run(run_id)

    def run(self, run_id: int) -> KeptRun:
        """Return a run as it stands now. Raises UnknownThing."""
        watch = self._watch(run_id)
        with self._store.reading() as connection:
            kept = runs.one_run(connection, run_id)
            state = self._state(connection, run_id, watch.rows)
        return self._kept_run(kept, watch, state)

    def tap(self, run_id: int, entry: Entry) -> tuple[KeptRun, bool]:
        """Add a tap to a run's journal; return the run as it then stands, and whether the tap counted.

        entry.seen  `state.entries` of the run as it was shown where it was tapped. With it a tap that
                    was long delayed can never complete a row that has been reopened meanwhile.

        A repeat (of the same name) and a late tap do not count and change nothing. One that counts is
        kept durably before this returns. Raises UnknownThing for the run, BadTap for a tap that makes
        no sense in it.
        """
        watch = self._watch(run_id)
        check_tap(entry, len(watch.rows), watch.plan.head.ring)
        with self._store.writing() as connection:
            kept = runs.one_run(connection, run_id)
            state = self._state(connection, run_id, watch.rows)
            counted = counts(state, entry) and not journals.has_tap(connection, run_id, entry.tap)
            if counted:
                journals.add(connection, run_id, state.entries + 1, entry)
                state = after(state, entry)
        self._states[run_id] = state
        return self._kept_run(kept, watch, state), counted

    def take_in(
        self, run_id: int, taps: Sequence[Entry], seen: int = 0, identity: str = "", most: int = MOST_TAPS
    ) -> tuple[KeptRun, Merged]:
        """Add the taps of a device that was away; return the run as it then stands, and what came of them.

        seen      how many entries the device had from here before it made them
        identity  of the run that they were made for, where the device says it
        most      taps at once; a device that cannot send them in parts needs more

        All that was taken is kept durably, or none of it. Raises UnknownThing for the run, FaultsFound
        with every tap that makes no sense in it, BadTap when they belong to another run.
        """
        with self._store.reading() as connection:
            kept = runs.one_run(connection, run_id)
        watch = self._watch(run_id)
        check_batch(taps, len(watch.rows), watch.plan.head.ring, identity, kept.identity, most)
        with self._store.writing() as connection:
            kept = runs.one_run(connection, run_id)
            state = self._state(connection, run_id, watch.rows)
            journal = journals.entries_after(connection, run_id, 0)
            merged = taken(fresh_state(watch.rows), state, journal, taps, seen)
            for entry in merged.added:
                journals.add(connection, run_id, state.entries + 1, entry)
                state = after(state, entry)
        self._states[run_id] = state
        return self._kept_run(kept, watch, state), merged

    def journal(self, run_id: int, since: int = 0) -> tuple[Entry, ...]:
        """Return every tap of a run that counted after the first `since`, in order. Raises UnknownThing."""
        with self._store.reading() as connection:
            runs.one_run(connection, run_id)
            return journals.entries_after(connection, run_id, since)

    def _state(self, connection: Connection, run_id: int, rows: tuple[Row, ...]) -> RunState:
        """Return where a run stands: where it stood, and what its journal says since."""
        state = self._states.get(run_id) or fresh_state(rows)
        for entry in journals.entries_after(connection, run_id, state.entries):
            state = after(state, entry)
        self._states[run_id] = state
        return state

    def _watch(self, run_id: int) -> Watch:
        """Return the watch over a run. Raises UnknownThing, and StoreTrouble as `runs.rows_as_begun` does."""
        watch = self._watches.get(run_id)
        if watch is None:
            with self._store.reading() as connection:
                kept = runs.one_run(connection, run_id)
            watch = Watch(read_plan(kept.plan), runs.rows_as_begun(kept))
            while len(self._watches) >= WATCHES_AT_HAND:
                self._watches.pop(next(iter(self._watches)), None)
            watch = self._watches.setdefault(run_id, watch)
        return watch

    def _kept_run(self, kept: runs.RunRow, watch: Watch, state: RunState) -> KeptRun:
        return KeptRun(
            kept.id,
            kept.job_id,
            kept.job_name,
            watch.plan,
            watch.rows,
            state,
            guide(watch.plan.head, watch.rows, state),
            bool(kept.is_demo),
            kept.identity,
            watch,
        )

    # Measured parts

    def keep_measurement(
        self, job_id: int, typed: TypedMeasurement, date: str, run_id: int | None = None, note: str = ""
    ) -> KeptMeasurement:
        """Keep what was measured of a part, and return it; the very same, sent twice, is kept once.

        date    of the measurement, as 2026-03-14
        run_id  the run that made it; None where that is not known

        Raises UnknownThing. What was typed is not looked at here.
        """
        with self._store.writing() as connection:
            plan = jobs.one_job(connection, job_id)[3]
            if run_id is not None:
                plan = measurements.plan_of_run(connection, job_id, run_id)
            number = measurements.add_measurement(connection, job_id, run_id, plan, typed, date, note)
        return self.measurement(number)

    def measurement(self, measurement_id: int) -> KeptMeasurement:
        """Return what was measured of one part. Raises UnknownThing."""
        with self._store.reading() as connection:
            row = measurements.one_measurement(connection, measurement_id)
        return measurements.kept_measurement(row)

    def measurements(self, job_id: int) -> tuple[KeptMeasurement, ...]:
        """Return what was measured of the parts of a job, the oldest first."""
        with self._store.reading() as connection:
            rows = measurements.measurements_of_job(connection, job_id)
        return tuple(map(measurements.kept_measurement, rows))

    def measurements_on(self, head_id: int) -> tuple[KeptMeasurement, ...]:
        """Return what was measured of every part made on a head, the oldest first."""
        with self._store.reading() as connection:
            rows = measurements.measurements_on_head(connection, head_id)
        return tuple(map(measurements.kept_measurement, rows))

    def say_piece(self, measurement_id: int, piece: str) -> None:
        """Say which piece a measurement is of: its number or mark; empty for not said. Raises UnknownThing."""
        with self._store.writing() as connection:
            measurements.set_piece(connection, measurement_id, piece)

    def drop_measurement(self, measurement_id: int) -> None:
        """Drop what was measured of one part. Raises UnknownThing."""
        with self._store.writing() as connection:
            measurements.one_measurement(connection, measurement_id)
            measurements.drop_measurement(connection, measurement_id)

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
