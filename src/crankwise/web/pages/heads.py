"""The heads owned."""

from crankwise.draw.head import head_faces
from crankwise.head.head import Head
from crankwise.web.answers import Page
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.head import described


def show(visit: Visit) -> Page:
    """Show every head with its first picture."""
    heads = visit.workshop.heads()
    listed = [(kept, described(kept.head), _picture(kept.head)) for kept in heads]
    return Page("heads.html", {"heads": listed}, {"heads": [head_object(kept) for kept in heads]})


def _picture(head: Head) -> str:
    """The picture of the first part that has one; a stepper drive by itself has none."""
    return next((face.svg for face in head_faces(head)), "")
