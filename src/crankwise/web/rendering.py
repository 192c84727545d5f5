"""Fill a template: what every page is given, beside its own values."""

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from crankwise.web.preferences import ANGLES, LENGTHS, read_preferences
from crankwise.web.showing import Showing

_environment = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def rendered(request: Request, template: str, values: dict[str, Any], status: int = 200) -> Response:
    """Return a template filled for one visitor, as a response."""
    preferences = read_preferences(request.cookies)
    workshop = getattr(request.scope.get("app"), "state", None)
    given = {
        "show": Showing(preferences),
        "preferences": preferences,
        "lengths": LENGTHS,
        "angles": ANGLES,
        "here": request.url.path,
        "with_phones": bool(workshop and workshop.joining),
        "has_demo": bool(workshop and workshop.workshop.has_demo),
    }
    return HTMLResponse(_environment.get_template(template).render(given | values), status)
