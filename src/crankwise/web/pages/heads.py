"""The heads owned."""

from crankwise.draw.head import head_faces
from crankwise.web.answers import Page
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.head import described


def show(visit: Visit) -> Page:
    """Show every head with its first picture."""
    heads = visit.workshop.heads()
    listed = [(kept, described(kept.head), head_faces(kept.head)[0].svg) for kept in heads]
    return Page("heads.html", {"heads": listed}, {"heads": [head_object(kept) for kept in heads]})
