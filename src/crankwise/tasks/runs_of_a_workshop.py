"""The runs of a workshop: begun, tapped at the machine, and taken in from a device that was away."""

from collections.abc import Sequence
from sqlite3 import Connection

from crankwise.errors import BadDivisions
from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.schedule import Row
from crankwise.run.guide import guide
from crankwise.run.journal import Entry, RunState, after, counts, fresh_state
from crankwise.run.merge import Merged
from crankwise.run.watch import Watch
from crankwise.store import jobs, journals, runs
from crankwise.store.kept import KeptRun
from crankwise.store.passes_text import passes_text
from crankwise.store.plan_text import fingerprint_of, plan_text, read_plan
from crankwise.store.store import Store
from crankwise.tasks.batch import MOST_TAPS, check_batch, taken
from crankwise.tasks.tap import check_tap

MOST_ROWS = 20_000
"""Positions of a run: nobody makes more by hand, and each row is held in memory."""

WATCHES_AT_HAND = 16


class RunsOfAWorkshop:
    """The runs kept in one store, with what is at hand of each so that a tap is answered at once.

    What holds for a `Workshop` holds here: durable when a method returns, any number of threads, StoreTrouble.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        # Where each run stood when it was last looked at, as far as it is kept durably. It may be behind, and is
        # never wrong: what came since is read from the journal, in the transaction that goes on from it.
        self._states: dict[int, RunState] = {}
        # A run's plan never changes, so neither does its watch; the oldest goes when there are many.
        self._watches: dict[int, Watch] = {}

    def begin_run(self, job_id: int, passes: Passes = ONE_PASS) -> KeptRun:
        """Make a new run of a job, its journal empty, its plan and passes frozen as they are now.

        Raises UnknownThing, and BadDivisions when there are more rows than anybody makes by hand, or the
        way cannot make these passes.
        """
        with self._store.reading() as connection:
            row = jobs.one_job(connection, job_id)
        plan = jobs.kept_job(row).plan
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
