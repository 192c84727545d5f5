"""The workshop: the heads owned, the jobs, and the runs with their taps, kept in one store."""

from collections.abc import Callable, Sequence
from pathlib import Path
from types import TracebackType

from crankwise.errors import UnknownThing
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head
from crankwise.store import heads, jobs, measurements
from crankwise.store.backup import Backup, make_backup
from crankwise.store.kept import Asked, KeptHead, KeptJob, KeptMeasurement, KeptRun, TypedMeasurement
from crankwise.store.place import FILE_NAME, store_path
from crankwise.store.store import PATIENCE, Store
from crankwise.tasks.demo import drop_demo, has_demo, load_demo
from crankwise.tasks.job_plan import job_name, job_plan, other_way, plan_again, usual_job_name
from crankwise.tasks.runs_of_a_workshop import RunsOfAWorkshop

__all__ = ["Asked", "Backup", "KeptHead", "KeptJob", "KeptRun", "Workshop", "open_workshop", "store_path"]


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


class Workshop(RunsOfAWorkshop):
    """One open workshop. Any number of threads may use it at once, and other processes the same file.

    What a method has changed is kept durably when it returns. Every method raises StoreTrouble when
    the file cannot be read or written, and then nothing was changed.
    """

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
