"""The pocket card: the run handed out as a file for a phone, and its journal brought home."""

from crankwise.errors import Mendable
from crankwise.tasks.pocket import bring_home, looked_over, pocket_card
from crankwise.tasks.run_answer import merged_answer
from crankwise.web.answers import Answer, Download, Page, file_name
from crankwise.web.showing import Showing
from crankwise.web.visit import Visit


def hand_out(visit: Visit) -> Download:
    """Hand out the card of a run."""
    run_id = visit.id("run_id")
    card = pocket_card(visit.workshop, run_id, visit.phone_site, Showing(visit.preferences).target_here)
    plain = file_name(visit.workshop.run(run_id).job_name, "run")
    return Download(card, "text/html; charset=utf-8", f"{plain}-pocket-{run_id}.html")


def show(visit: Visit) -> Page:
    """Show what a card brings, or ask for it. Looking changes nothing: cameras open links by themselves."""
    return _page(visit, visit.query.get("journal", ""))


def take_in(visit: Visit) -> Answer:
    """Take a card's journal into the run, from a file or as text."""
    text = typed = visit.typed("journal")
    if visit.upload:
        text = visit.upload.decode("utf-8", errors="replace")
    run_id = visit.id("run_id")
    try:
        brought = bring_home(visit.workshop, run_id, text)
    except Mendable as error:
        return _page(visit, typed, error)
    values = {"run": brought.run, "brought": brought, "journal": "", "count": 0, "error": "", "typed": ""}
    return Page("bring.html", values, merged_answer(brought.run, brought.merged))


def _page(visit: Visit, text: str, error: Mendable | None = None) -> Page:
    run_id = visit.id("run_id")
    count = 0
    if text and error is None:
        try:
            count = len(looked_over(visit.workshop, run_id, text).entries)
        except Mendable as found:
            error = found
    values = {
        "run": visit.workshop.run(run_id),
        "brought": None,
        "journal": "" if error else text,
        "count": count,
        "error": str(error) if error else "",
        "typed": text if error else "",
    }
    return Page("bring.html", values, {"taps": count}, error=error)
