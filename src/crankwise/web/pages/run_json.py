"""A run for a program: all of it at once, and the taps of a device that was away."""

from crankwise.errors import BadTap
from crankwise.tasks.read_taps import read_sent
from crankwise.tasks.run_answer import merged_answer, run_answer
from crankwise.web.answers import Data
from crankwise.web.visit import Visit


def show(visit: Visit) -> Data:
    """Return everything that a device needs to carry the run on."""
    run = visit.workshop.run(visit.id("run_id"))
    since = _whole(visit.query.get("since", ""))
    journal = visit.workshop.journal(run.id, since)
    return Data(
        run_answer(run, journal[: max(0, run.state.entries - since)], since, visit.query.get("rows") != "no")
    )


def take_in(visit: Visit) -> Data:
    """Take in the taps of a device that was away, and say what came of them."""
    sent = read_sent(visit.sent_json or b"")
    run, merged = visit.workshop.take_in(visit.id("run_id"), sent.taps, sent.seen, sent.identity)
    journal = visit.workshop.journal(run.id, sent.seen)
    told = run_answer(run, journal[: max(0, run.state.entries - sent.seen)], sent.seen, with_rows=False)
    return Data({**told, **merged_answer(run, merged)})


def _whole(typed: str) -> int:
    if not typed:
        return 0
    if not typed.isascii() or not typed.isdecimal() or len(typed) > 9:
        raise BadTap(f"since: {typed[:20]!r} is not a whole number")
    return int(typed)
