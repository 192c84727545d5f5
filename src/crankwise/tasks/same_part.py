"""Which measurements are of one and the same part, and which of them count where several parts are learnt from.

A part that is measured twice is one part. Which it is, is told by the piece's number or mark, or else by the run
that made it. Where neither was said, nobody knows which of its job's parts it is: it can only count where no
other of that job does, and of several such the latest.
"""

from collections.abc import Iterable, Mapping

from crankwise.store.kept import KeptMeasurement


def parts_of(measurements: Iterable[KeptMeasurement]) -> dict[int, str]:
    """Return which part each measurement is of, by its number: a text that is the same for the same part.

    Of a job whose parts were told apart, a measurement that says neither piece nor run has an empty text.
    """
    kept = tuple(measurements)
    pieces: dict[int, set[str]] = {}
    for one in kept:
        if one.run_id is not None and _piece(one):
            pieces.setdefault(one.run_id, set()).add(_piece(one))
    told = {one.id: _told(one, pieces) for one in kept}
    known_jobs = {one.job_id for one in kept if told[one.id]}
    return {
        one.id: told[one.id] or ("" if one.job_id in known_jobs else f"job {one.job_id}, not said")
        for one in kept
    }


def usual_choice(measurements: Iterable[KeptMeasurement]) -> set[int]:
    """Return the numbers of the measurements that count where nobody chose: of each part the latest."""
    kept = tuple(measurements)
    parts = parts_of(kept)
    latest: dict[str, KeptMeasurement] = {}
    for one in sorted(kept, key=lambda one: (one.date, one.id)):
        if parts[one.id]:
            latest[parts[one.id]] = one
    return {one.id for one in latest.values()}


def _piece(one: KeptMeasurement) -> str:
    """Return the piece as it was typed, capitals and blanks aside."""
    return " ".join(one.typed.piece.casefold().split())


def _told(one: KeptMeasurement, pieces: Mapping[int, set[str]]) -> str:
    """Return which part a measurement says that it is of; empty where it says neither piece nor run."""
    piece = _piece(one)
    if not piece and one.run_id is not None:
        of_run = pieces.get(one.run_id, set())
        if len(of_run) > 1:
            return ""  # a stack of pieces cut in one run: it may be any of them
        if not of_run:
            return f"job {one.job_id}, run {one.run_id}"
        (piece,) = of_run
    return f"job {one.job_id}, piece {piece}" if piece else ""
