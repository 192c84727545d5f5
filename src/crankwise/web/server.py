"""Listen at an address and answer with the app, until interrupted."""

import socket
from collections.abc import Callable

import uvicorn
from starlette.applications import Starlette

from crankwise.errors import Mendable

_EVERYWHERE = {"0.0.0.0": "127.0.0.1", "": "127.0.0.1", "::": "[::1]"}
"""Addresses that mean all of this computer's, and what this computer itself opens then."""


class CannotListen(Mendable):
    """The address cannot be listened at."""


def serve_app(app: Starlette, host: str, port: int, tell: Callable[[str], None]) -> None:
    """Serve the app at an address; tell the address once it can be opened. Raises CannotListen."""
    listening = _listening(host, port)
    real_port = listening.getsockname()[1]
    shown = _EVERYWHERE.get(host, f"[{host}]" if ":" in host else host)
    tell(f"http://{shown}:{real_port}")
    # The socket queues whoever comes before the first answer, so the address is good from now on.
    settings = uvicorn.Config(
        app, log_level="warning", access_log=False, server_header=False, date_header=False, ws="none"
    )
    with listening:
        try:
            uvicorn.Server(settings).run(sockets=[listening])
        except KeyboardInterrupt:
            return


def _listening(host: str, port: int) -> socket.socket:
    if not 0 <= port <= 65_535:
        raise CannotListen(f"port: {port}; a port is 1 to 65535, or 0 for any free one")
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except OSError as error:
        raise CannotListen(
            f"host: {host!r} is no address of this computer: {error.strerror or error}"
        ) from None
    listening = socket.socket(family, kind, protocol)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(address)
        listening.listen(128)
    except OSError as error:
        listening.close()
        why = error.strerror or str(error)
        raise CannotListen(
            f"{host}, port {port}: it cannot be listened at: {why}; name another with --port"
        ) from None
    return listening
