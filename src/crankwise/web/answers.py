"""What a page gives back, and how it becomes a response: HTML, a part of it, JSON, a file, another page."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from crankwise.errors import Mendable
from crankwise.web.errors import mendable_response, status_of
from crankwise.web.rendering import rendered
from crankwise.web.visit import Visit, read_visit

A_YEAR = 365 * 24 * 3600
"""How long a browser keeps a choice of the visitor's, in seconds."""


@dataclass(frozen=True, slots=True)
class Page:
    """A page to show.

    template  file in templates/
    values    what the template is filled with
    as_json   the same answer for a program
    fragment  template of its changing part, for our own script
    error     what was wrong with what was sent: the page shows it with the form still filled in
    mark      names this answer, so that asking again for the same one costs nothing
    """

    template: str
    values: Mapping[str, Any]
    as_json: object = None
    fragment: str = ""
    error: Mendable | None = None
    mark: str = ""


@dataclass(frozen=True, slots=True)
class GoTo:
    """What was sent is kept: go on to another page, or hand a program what was made."""

    address: str
    as_json: object = None
    cookies: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Download:
    """A file to keep."""

    content: bytes
    media_type: str
    name: str


def file_name(title: str, otherwise: str) -> str:
    """Return the beginning of a file's name, of small letters, figures and dashes, that every system takes.

    title      what the thing is called, by its owner
    otherwise  taken where nothing is left of that

    >>> file_name("Tide wheel, 59 teeth", "job"), file_name("\u6f6e\u8f66", "job")
    ('tide-wheel-59-teeth', 'job')
    """
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or otherwise


@dataclass(frozen=True, slots=True)
class Data:
    """An answer for programs alone."""

    as_json: object


Answer = Page | GoTo | Download | Data
Show = Callable[[Visit], Answer]


def page(path: str, show: Show | None = None, act: Show | None = None) -> Route:
    """Return the route of one page.

    show  answers GET; act  answers POST. Both are plain functions, run in a thread of their own.
    """
    asked = {"GET": show, "HEAD": show, "POST": act}

    async def endpoint(request: Request) -> Response:
        handler = asked[request.method]
        assert handler is not None, "the route lists only the methods it has"
        try:
            visit = await read_visit(request)
            answer = await run_in_threadpool(handler, visit)
        except Mendable as error:
            return mendable_response(request, error)
        return await run_in_threadpool(_response, request, visit, answer)

    methods = (["GET"] if show else []) + (["POST"] if act else [])
    return Route(path, endpoint, methods=methods)


def _response(request: Request, visit: Visit, answer: Answer) -> Response:
    if isinstance(answer, Data):
        return JSONResponse(answer.as_json)
    if isinstance(answer, Download):
        return Response(
            answer.content,
            media_type=answer.media_type,
            headers={"Content-Disposition": f'attachment; filename="{answer.name}"'},
        )
    if isinstance(answer, GoTo):
        gone: Response = (
            JSONResponse(answer.as_json) if visit.wants_json else RedirectResponse(answer.address, 303)
        )
        for name, value in answer.cookies.items():
            gone.set_cookie(name, value, max_age=A_YEAR, httponly=True, samesite="lax")
        return gone
    if answer.error is not None and visit.wants_json:
        return mendable_response(request, answer.error)
    if answer.mark and answer.mark == visit.seen:
        return Response(status_code=304, headers={"ETag": answer.mark})
    if visit.wants_json:
        response: Response = JSONResponse(answer.as_json)
    else:
        whole = not (visit.is_fragment and answer.fragment)
        template = answer.template if whole else answer.fragment
        status = status_of(answer.error) if answer.error else 200
        response = rendered(request, template, dict(answer.values), status)
    if answer.mark:
        response.headers["ETag"] = answer.mark
    return response
