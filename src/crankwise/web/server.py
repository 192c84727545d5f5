"""Listen at an address and answer with the app, until interrupted."""

import contextlib
import socket
from collections.abc import Callable

import uvicorn
from starlette.applications import Starlette

from crankwise.errors import Mendable

_EVERYWHERE = {"0.0.0.0": "127.0.0.1", "": "127.0.0.1", "::": "[::1]"}
"""Addresses that mean all of this computer's, and what this computer itself opens then."""


class CannotListen(Mendable):
    """The address cannot be listened at."""


def own_address() -> str:
    """Return the address of this computer on the network that leads outward. Raises CannotListen."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: the system only says which of its addresses it would send from. The one
            # asked about is kept for documentation (RFC 5737), and is nobody's.
            probe.connect(("192.0.2.1", 9))
        except OSError:
            raise CannotListen(
                "lan: this computer is on no network that a phone could be on; join one, or name its address "
                "with --host"
            ) from None
        return str(probe.getsockname()[0])


def lan_socket(kept: tuple[str, int], host: str, port: int) -> tuple[socket.socket, str, int]:
    """Return a socket on the shop's network, with its address and port. Raises CannotListen.

    kept  address and port where phones last found the workshop: the first choice, as long as it is ours
    host  the address to listen at; empty for the one that leads outward
    port  0 for the kept one, or any free one
    """
    if host in _EVERYWHERE and host:
        raise CannotListen(
            f"lan: {host} means every address of this computer, and a phone opens one of them; leave --host out, "
            "or name that one"
        )
    kept_address, kept_port = kept
    if kept_port and host in ("", kept_address) and port in (0, kept_port):
        with contextlib.suppress(CannotListen):
            return _listening(kept_address, kept_port), kept_address, kept_port
    name = host or own_address()
    listening = _listening(name, port)
    return listening, name, int(listening.getsockname()[1])


def serve_app(
    app: Starlette,
    host: str,
    port: int,
    tell: Callable[[str], None],
    lan: socket.socket | None = None,
) -> None:
    """Serve the app at an address; tell the address once it can be opened. Raises CannotListen.

    lan  a second socket, on the shop's network, which is served beside it
    """
    listening = _listening(host, port)
    real_port = listening.getsockname()[1]
    shown = _EVERYWHERE.get(host, f"[{host}]" if ":" in host else host)
    tell(f"http://{shown}:{real_port}")
    # The socket queues whoever comes before the first answer, so the address is good from now on.
    settings = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        proxy_headers=False,  # who comes by which door is told by the socket alone
        server_header=False,
        date_header=False,
        ws="none",
    )
    with listening:
        try:
            uvicorn.Server(settings).run(sockets=[listening, *([lan] if lan else [])])
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
