"""Keep how this browser likes lengths and angles written."""

from crankwise.web.answers import GoTo
from crankwise.web.preferences import COOKIE, preferred
from crankwise.web.visit import Visit


def keep(visit: Visit) -> GoTo:
    """Keep the preferences, and go back to the page they were set on."""
    chosen = preferred(visit.typed("length"), visit.typed("angle"))
    return GoTo(
        _ours(visit.typed("back")),
        {"length": chosen.length, "angle": chosen.angle},
        {COOKIE: chosen.written()},
    )


def _ours(address: str) -> str:
    """Return the address if it is a path of this server, else the first page."""
    plain = address.isascii() and address.isprintable() and "\\" not in address
    return address if plain and address.startswith("/") and not address.startswith("//") else "/"
