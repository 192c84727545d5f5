"""What was measured of finished parts: as it was typed, with the plan that the part was made by."""

import json
from dataclasses import asdict, fields, replace
from sqlite3 import Connection

from crankwise.errors import UnknownThing
from crankwise.store.kept import KeptMeasurement, TypedMeasurement
from crankwise.store.plan_text import read_plan
from crankwise.store.runs import one_run
from crankwise.store.store import number_of

MeasurementRow = tuple[int, int, int | None, str, str, str, str]

_COLUMNS = "measurement.id, job_id, run_id, measurement.plan, typed, date, note"


def measurements_of_job(connection: Connection, job_id: int) -> list[MeasurementRow]:
    """Return the row of every measurement of a job's parts, the oldest first."""
    return connection.execute(
        f"SELECT {_COLUMNS} FROM measurement WHERE job_id = ? ORDER BY id", (job_id,)
    ).fetchall()


def measurements_on_head(connection: Connection, head_id: int) -> list[MeasurementRow]:
    """Return the row of every measurement of a part made on a head, the oldest first."""
    return connection.execute(
        f"SELECT {_COLUMNS} FROM measurement JOIN job ON job.id = job_id WHERE head_id = ? ORDER BY measurement.id",
        (head_id,),
    ).fetchall()


def one_measurement(connection: Connection, measurement_id: int) -> MeasurementRow:
    """Return the row of one measurement. Raises UnknownThing."""
    row: MeasurementRow | None = connection.execute(
        f"SELECT {_COLUMNS} FROM measurement WHERE id = ?", (measurement_id,)
    ).fetchone()
    if row is None:
        raise UnknownThing(f"measurement {measurement_id}: there is no such one; it may have been dropped")
    return row


def kept_measurement(row: MeasurementRow) -> KeptMeasurement:
    """Return the measurement that a row holds. Finding its way again can take a while: do it outside the store."""
    number, job_id, run_id, plan, typed, date, note = row
    return KeptMeasurement(number, job_id, run_id, read_plan(plan), _typed(typed), date, note)


def plan_of_run(connection: Connection, job_id: int, run_id: int) -> str:
    """Return the text of the plan of one of a job's runs. Raises UnknownThing."""
    run = one_run(connection, run_id)
    if run.job_id != job_id:
        raise UnknownThing(f"run {run_id}: it is no run of this job")
    return run.plan


def add_measurement(
    connection: Connection,
    job_id: int,
    run_id: int | None,
    plan: str,
    typed: TypedMeasurement,
    date: str,
    note: str,
) -> int:
    """Keep a measurement and return its number; one that is kept already, to the letter, is not kept twice.

    plan  the text of the plan that the part was made by
    """
    row = (job_id, run_id, plan, _text(typed), date, note)
    kept = connection.execute(
        "SELECT id FROM measurement "
        "WHERE job_id = ? AND run_id IS ? AND plan = ? AND typed = ? AND date = ? AND note = ?",
        row,
    ).fetchone()
    if kept:
        return int(kept[0])
    added = connection.execute(
        "INSERT INTO measurement (job_id, run_id, plan, typed, date, note) VALUES (?, ?, ?, ?, ?, ?)", row
    )
    return number_of(added)


def set_piece(connection: Connection, measurement_id: int, piece: str) -> None:
    """Say which piece a measurement is of. Raises UnknownThing."""
    *_, typed_text, _, _ = one_measurement(connection, measurement_id)
    typed = replace(_typed(typed_text), piece=piece)
    connection.execute("UPDATE measurement SET typed = ? WHERE id = ?", (_text(typed), measurement_id))


def _typed(text: str) -> TypedMeasurement:
    held = json.loads(text)
    return TypedMeasurement(**{field.name: held.get(field.name, "") for field in fields(TypedMeasurement)})


def _text(typed: TypedMeasurement) -> str:
    """Return it as it is kept. A piece that was not said is left out, as it was before pieces were asked for."""
    held = {name: text for name, text in asdict(typed).items() if text or name != "piece"}
    return json.dumps(held, ensure_ascii=False)


def drop_measurement(connection: Connection, measurement_id: int) -> None:
    """Drop a measurement."""
    connection.execute("DELETE FROM measurement WHERE id = ?", (measurement_id,))
