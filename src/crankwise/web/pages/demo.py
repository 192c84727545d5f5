"""Take the demo workshop away, in one tap."""

from crankwise.web.answers import GoTo
from crankwise.web.visit import Visit


def drop(visit: Visit) -> GoTo:
    """Take away every head, job and run that came with the demo."""
    visit.workshop.drop_demo()
    return GoTo("/", {"demo": False})
