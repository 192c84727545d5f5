"""Before any page is asked: is this visitor one of ours, and is what it sends of a sane size?

A page of another site must not be able to reach this server through its visitor's browser: neither
under a name of its own that leads here (the Host is checked), nor by a form (the Origin is checked).
"""

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from crankwise.tasks.joining import Joining
from crankwise.web.door import COOKIE, is_at_computer
from crankwise.web.errors import error_response

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
MOST_BYTES = 1_000_000
_MOST_DRAINED = 8 * MOST_BYTES
_ASKING = ("GET", "HEAD", "OPTIONS")

HEADERS = {
    "Content-Security-Policy": "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    # Not "no-referrer": with that, browsers send our own forms with the Origin "null".
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}
TOO_LARGE = f"this is more than {MOST_BYTES:,} bytes; a head file is a page of text, and a form is less"


NOT_JOINED = (
    "this phone has not joined the workshop; on the workshop's computer open Crankwise, go to Phones, "
    "and scan the code there"
)


class Guard:
    """Refuse foreign hosts (421), foreign origins (403), large bodies (413), phones that have not joined (403).

    Sets the headers of every answer.
    """

    def __init__(
        self, app: ASGIApp, allowed_hosts: tuple[str, ...] = (), joining: Joining | None = None
    ) -> None:
        self.app = app
        self.joining = joining
        self.allowed_hosts = frozenset(name.lower() for name in (*LOOPBACK, *allowed_hosts))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
                headers.setdefault(
                    "Cache-Control", "no-cache" if scope["path"].startswith("/static/") else "no-store"
                )
            await send(message)

        refused = self._refused(request.method, request.headers) or self._not_joined(request)
        if refused:
            await _drain(request.headers, receive)
            status, sentence = refused
            await error_response(request, status, sentence)(scope, receive, send_with_headers)
            return
        await self.app(scope, _limited(receive), send_with_headers)

    def _not_joined(self, request: Request) -> tuple[int, str] | None:
        if self.joining is None or is_at_computer(request.scope):
            return None
        path = request.url.path
        if path == "/join" or path.startswith("/static/"):
            return None
        if self.joining.knows(request.cookies.get(COOKIE, "")):
            return None
        return 403, NOT_JOINED

    def _refused(self, method: str, headers: Headers) -> tuple[int, str] | None:
        host = headers.get("host", "").lower()
        if _without_port(host) not in self.allowed_hosts:
            return 421, (
                "this server is not known by that name; open it by the address it printed when it started, "
                "or start it with --allow-host NAME"
            )
        if method not in _ASKING:
            origin = headers.get("origin")
            foreign = origin is not None and origin.lower().partition("://")[2] != host
            if foreign or headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
                return (
                    403,
                    "this was sent by a page of another site, and nothing was done; use the pages here",
                )
        length = headers.get("content-length", "0")
        if not length.isdecimal():
            return 400, "the length of what was sent is not a number"
        if int(length) > MOST_BYTES:
            return 413, TOO_LARGE
        return None


def _without_port(host: str) -> str:
    name, colon, port = host.rpartition(":")
    return name if colon and port.isdecimal() else host


def _limited(receive: Receive) -> Receive:
    """Count what comes in, since a length need not be said beforehand."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > MOST_BYTES:
            raise HTTPException(413, TOO_LARGE)
        return message

    return counted


async def _drain(headers: Headers, receive: Receive) -> None:
    """Read what is still being sent, within reason: a browser shows our sentence only after it has sent all."""
    if headers.get("content-length", "0") == "0" and "transfer-encoding" not in headers:
        return
    seen = 0
    while seen < _MOST_DRAINED:
        message = await receive()
        seen += len(message.get("body", b""))
        if message["type"] != "http.request" or not message.get("more_body"):
            return
