"""Take a head in from a file, and hand one out."""

from crankwise.errors import Mendable
from crankwise.files.head_toml import write_head
from crankwise.web.answers import Answer, Download, GoTo, Page, file_name
from crankwise.web.errors import sentences_of
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit


def show(visit: Visit) -> Page:
    """Show where to choose a file or paste one."""
    del visit
    return _page("")


def take_in(visit: Visit) -> Answer:
    """Keep the head that a file or a pasted text describes."""
    pasted = visit.form.get("toml", "")
    content: bytes | str = visit.upload or pasted
    try:
        kept = visit.workshop.keep_head(content)
    except Mendable as error:
        return _page(pasted, error)
    return GoTo(f"/heads/{kept.id}", head_object(kept))


def hand_out(visit: Visit) -> Download:
    """Hand out a head as a file."""
    kept = visit.workshop.head(visit.id("head_id"))
    plain = file_name(kept.head.name, "head")
    return Download(write_head(kept.head).encode(), "application/toml", f"{plain}.toml")


def _page(pasted: str, error: Mendable | None = None) -> Page:
    sentences = sentences_of(error)
    return Page("head_file.html", {"toml": pasted, "sentences": sentences}, {"toml": pasted}, error=error)
