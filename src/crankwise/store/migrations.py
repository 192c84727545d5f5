"""How the store's tables came to be: numbered steps, each applied once and recorded.

A step never changes once it has been released. The number of steps applied is also the file's
`user_version`, so that an older program knows at a glance that a file is beyond it.
"""

from collections.abc import Callable, Iterator
from sqlite3 import Connection, complete_statement

Migration = Callable[[Connection], None]


_HEADS_JOBS_AND_RUNS = """
CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL);

-- What has happened once and must not happen again, such as loading the demo workshop.
CREATE TABLE happened (what TEXT PRIMARY KEY) WITHOUT ROWID;

CREATE TABLE head (
    id INTEGER PRIMARY KEY AUTOINCREMENT, toml TEXT NOT NULL, is_demo INTEGER NOT NULL
);

CREATE TABLE job (
    id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL,
    head_id INTEGER REFERENCES head ON DELETE SET NULL,
    plan TEXT NOT NULL, asked TEXT NOT NULL, is_demo INTEGER NOT NULL
);
CREATE INDEX job_by_head ON job (head_id);

-- schedule is a fingerprint: a version that would set a position elsewhere must not go on with the run.
CREATE TABLE run (
    id INTEGER PRIMARY KEY AUTOINCREMENT, job_id INTEGER NOT NULL REFERENCES job ON DELETE CASCADE,
    plan TEXT NOT NULL, schedule TEXT NOT NULL
);
CREATE INDEX run_by_job ON run (job_id);

CREATE TABLE journal (
    run_id INTEGER NOT NULL REFERENCES run ON DELETE CASCADE, seq INTEGER NOT NULL,
    tap TEXT NOT NULL, kind TEXT NOT NULL, at REAL NOT NULL,
    row INTEGER, numbers_grow INTEGER, seen INTEGER,
    PRIMARY KEY (run_id, seq), UNIQUE (run_id, tap)
) WITHOUT ROWID;

-- A journal is added to at its end and nowhere else. It goes only with its run, whose own row is then gone.
CREATE TRIGGER journal_only_grows BEFORE INSERT ON journal
WHEN NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM journal WHERE run_id = NEW.run_id)
BEGIN SELECT raise(ABORT, 'a journal is added to at its end'); END;

CREATE TRIGGER journal_never_changes BEFORE UPDATE ON journal
BEGIN SELECT raise(ABORT, 'a journal is never changed'); END;

CREATE TRIGGER journal_goes_only_with_its_run BEFORE DELETE ON journal
WHEN EXISTS (SELECT 1 FROM run WHERE id = OLD.run_id)
BEGIN SELECT raise(ABORT, 'a journal goes only with its run'); END;
"""


def heads_jobs_and_runs(connection: Connection) -> None:
    """Make the first tables."""
    # Not `executescript`, which would end the transaction that this step is part of.
    for statement in _statements(_HEADS_JOBS_AND_RUNS):
        connection.execute(statement)


_ALL_THAT_IS_TAPPED = """
ALTER TABLE journal ADD COLUMN reading TEXT;
ALTER TABLE journal ADD COLUMN angle TEXT;
ALTER TABLE journal ADD COLUMN joint TEXT;
ALTER TABLE journal ADD COLUMN since INTEGER;
ALTER TABLE journal ADD COLUMN note TEXT;
ALTER TABLE journal ADD COLUMN of TEXT;

-- Empty for one pass straight round, which is all that there was before.
ALTER TABLE run ADD COLUMN passes TEXT NOT NULL DEFAULT '';

-- Tells a run from every other of any store; empty for a run begun before there were such names.
ALTER TABLE run ADD COLUMN own_name TEXT NOT NULL DEFAULT '';
"""


def all_that_is_tapped(connection: Connection) -> None:
    """Make room for readings, slips and notes in a journal, and for several passes in a run."""
    for statement in _statements(_ALL_THAT_IS_TAPPED):
        connection.execute(statement)


_MEASURED_PARTS = """
-- typed: what was measured, as it was typed; plan: how the part was divided, as it was then.
CREATE TABLE measurement (
    id INTEGER PRIMARY KEY AUTOINCREMENT, job_id INTEGER NOT NULL REFERENCES job ON DELETE CASCADE,
    run_id INTEGER REFERENCES run ON DELETE SET NULL,
    plan TEXT NOT NULL, typed TEXT NOT NULL, date TEXT NOT NULL, note TEXT NOT NULL
);
CREATE INDEX measurement_by_job ON measurement (job_id);
CREATE INDEX measurement_by_run ON measurement (run_id);
"""


def measured_parts(connection: Connection) -> None:
    """Make room for what was measured of finished parts."""
    for statement in _statements(_MEASURED_PARTS):
        connection.execute(statement)


_RETURNS_TO_THE_FIRST = """
ALTER TABLE journal ADD COLUMN off_mm TEXT;
ALTER TABLE journal ADD COLUMN means TEXT;
"""


def returns_to_the_first(connection: Connection) -> None:
    """Make room in a journal for what was found on going back to the first line or space."""
    for statement in _statements(_RETURNS_TO_THE_FIRST):
        connection.execute(statement)


MIGRATIONS: tuple[Migration, ...] = (
    heads_jobs_and_runs,
    all_that_is_tapped,
    measured_parts,
    returns_to_the_first,
)
"""In order; the first is number 1."""

VERSION = len(MIGRATIONS)


def version_of(connection: Connection) -> int:
    """Return the number of steps that a file has had."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    return int(version)


def apply_next(connection: Connection) -> None:
    """Apply the next step and record it; the caller has begun a transaction, and ends it."""
    number = version_of(connection) + 1
    step = MIGRATIONS[number - 1]
    step(connection)
    connection.execute(
        "INSERT INTO migration (number, name, at) VALUES (?, ?, strftime('%Y-%m-%dT%H:%M:%SZ'))",
        (number, step.__name__),
    )
    connection.execute(f"PRAGMA user_version = {number}")


def _statements(script: str) -> Iterator[str]:
    """Yield the statements of a script, each of which ends at the end of a line."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if complete_statement(statement):
            yield statement
            statement = ""
