"""One head: its pictures, its file, and what can be done with it."""

from crankwise.draw.head import head_faces
from crankwise.files.head_toml import write_head
from crankwise.web.answers import GoTo, Page
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.head import described


def show(visit: Visit) -> Page:
    """Show one head."""
    kept = visit.workshop.head(visit.id("head_id"))
    values = {
        "kept": kept,
        "parts": described(kept.head),
        "faces": head_faces(kept.head),
        "toml": write_head(kept.head),
    }
    return Page("head.html", values, head_object(kept))


def drop(visit: Visit) -> GoTo:
    """Take a head away; jobs made with it keep their own copy."""
    head_id = visit.id("head_id")
    visit.workshop.drop_head(head_id)
    return GoTo("/heads", {"dropped": head_id})
