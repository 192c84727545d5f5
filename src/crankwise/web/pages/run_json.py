"""A run for a program: all of it at once, and the taps of a device that was away."""

from crankwise.errors import BadTap
from crankwise.tasks.read_taps import read_sent
from crankwise.tasks.run_answer import TellTarget, merged_answer, run_answer
from crankwise.web.answers import Data
from crankwise.web.showing import Showing
from crankwise.web.visit import Visit


def show(visit: Visit) -> Data:
    """Return everything that a device needs to carry the run on."""
    run = visit.workshop.run(visit.id("run_id"))
    since = _whole(visit.query.get("since", ""))
    journal = visit.workshop.journal(run.id, since)
    known = journal[: max(0, run.state.entries - since)]
    return Data(run_answer(run, known, since, visit.query.get("rows") != "no", _targets(visit)))


def take_in(visit: Visit) -> Data:
    """Take in the taps of a device that was away, and say what came of them."""
    sent = read_sent(visit.sent_json or b"")
    run, merged = visit.workshop.take_in(visit.id("run_id"), sent.taps, sent.seen, sent.identity)
    journal = visit.workshop.journal(run.id, sent.seen)
    known = journal[: max(0, run.state.entries - sent.seen)]
    told = run_answer(run, known, sent.seen, with_rows=False, tell_target=_targets(visit))
    return Data({**told, **merged_answer(run, merged)})


def _targets(visit: Visit) -> TellTarget:
    """The page goes on alone with these rows: it tells targets as it did while it was served."""
    return Showing(visit.preferences).target_here


def _whole(typed: str) -> int:
    if not typed:
        return 0
    if not typed.isascii() or not typed.isdecimal() or len(typed) > 9:
        raise BadTap(f"since: {typed[:20]!r} is not a whole number")
    return int(typed)
