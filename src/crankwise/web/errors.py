"""How a page says no: one sentence for a person, one shape for a program.

    {"error": {"status": 422, "message": "...", "faults": [{"place": "", "line": null, "message": "..."}]}}

The shape is the same on every route. `faults` holds every single thing that is wrong.
"""

import re
from dataclasses import replace
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from crankwise.errors import BadInput, Fault, FaultsFound, Mendable, MissingExtra, StoreTrouble, UnknownThing
from crankwise.web.rendering import rendered
from crankwise.web.visit import wants_json
from crankwise.wording.fields import options_as_fields

_HEADINGS = {
    400: "That could not be read",
    403: "Not from here",
    404: "There is nothing here",
    405: "Not done this way",
    413: "Too much at once",
    421: "Wrong name",
    422: "Something to mend",
    500: "Our own fault",
    501: "A part is not installed",
    503: "The store has a trouble",
}
_SENTENCES = {
    400: "what was sent is not a form of ours",
    404: "there is no page at this address; begin again from the workbench",
    405: "this address answers, but not to that kind of request",
}


def status_of(error: Mendable) -> int:
    """Return the status that tells a program what kind of trouble it is."""
    if isinstance(error, UnknownThing):
        return 404
    if isinstance(error, StoreTrouble):
        return 503
    return 501 if isinstance(error, MissingExtra) else 422


def faults_of(error: Mendable) -> tuple[Fault, ...]:
    """Return everything that is wrong, each with its place."""
    if isinstance(error, FaultsFound):
        found = error.faults
    else:
        found = (Fault(error.place, error.message) if isinstance(error, BadInput) else Fault("", str(error)),)
    return tuple(replace(fault, message=options_as_fields(fault.message)) for fault in found)


def sentences_of(error: Mendable | None) -> list[str]:
    """Return what was wrong, a sentence a fault, an option of a command called as a page's field is."""
    return options_as_fields(str(error)).splitlines() if error else []


def error_object(status: int, message: str, faults: tuple[Fault, ...] = ()) -> dict[str, Any]:
    """Return the one shape of an error."""
    told = faults or (Fault("", message),)
    return {
        "error": {
            "status": status,
            "message": message,
            "faults": [{"place": one.place, "line": one.line, "message": one.message} for one in told],
        }
    }


def error_response(request: Request, status: int, message: str, faults: tuple[Fault, ...] = ()) -> Response:
    """Return the refusal, as a page or as JSON."""
    if wants_json(request):
        return JSONResponse(error_object(status, message, faults), status)
    sentences = [one.told() for one in faults] or [message]
    heading = _HEADINGS.get(status, "That did not work")
    fragment = "x-fragment" in request.headers
    template = "error_fragment.html" if fragment else "error.html"
    values = {"heading": heading, "sentences": sentences, "back": _back(request, status)}
    return rendered(request, template, values, status)


def _back(request: Request, status: int) -> tuple[str, str] | None:
    """Where what was asked is of, and its name, where something of a job, a run or a head is to be mended."""
    found = re.match(r"/(job|run|head)s/(\d+)/.", request.url.path)
    return (f"/{found[1]}s/{found[2]}", found[1]) if found and status == 422 else None


def mendable_response(request: Request, error: Mendable) -> Response:
    """Return the refusal of something that a person can mend."""
    return error_response(request, status_of(error), "\n".join(sentences_of(error)), faults_of(error))


def refusal(request: Request, error: Exception) -> Response:
    """Return the refusal of a request that no page took."""
    assert isinstance(error, HTTPException)
    status = error.status_code
    message = error.detail if status == 413 else _SENTENCES.get(status, error.detail)
    response = error_response(request, status, message)
    response.headers.update(error.headers or {})
    return response


def our_own_fault(request: Request, error: Exception) -> Response:
    """Return the page for a bug of ours; the error itself goes to the server's log."""
    del error
    sentence = "this is a fault in Crankwise, not in what you did; what was kept before is still kept"
    return error_response(request, 500, sentence)
