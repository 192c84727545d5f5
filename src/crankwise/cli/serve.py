"""Start the web app on your own workshop, and print its address.

examples:
  crankwise serve
      on this computer alone, at http://127.0.0.1:8127
  crankwise serve --data club-data --port 9000
      with the store kept in a folder of your own, on another port
  crankwise serve --lan
      for phones on the shop's network too: open its page Phones on this computer, and scan the code there
  crankwise serve --host 0.0.0.0 --allow-host shed.local
      for everybody on the network, with no code asked, by the name of http://shed.local:8127
  crankwise serve --demo
      an empty store gets the demo workshop first
"""

import argparse
import json
from collections.abc import Callable
from typing import TYPE_CHECKING

from crankwise.cli.asking import json_argument

DEFAULT_PORT = 8127
LOOPBACK = "127.0.0.1"

if TYPE_CHECKING:
    from pathlib import Path


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "--data", metavar="DIR", help="folder that holds the store (default: the platform's place for data)"
    )
    command.add_argument("--demo", action="store_true", help="load the demo workshop into an empty store")
    command.add_argument(
        "--lan",
        action="store_true",
        help="also listen on the shop's network, for phones that join by a code; --host names the address there",
    )
    address_arguments(command)


def address_arguments(command: argparse.ArgumentParser) -> None:
    """Add where to listen and the names to answer to."""
    command.add_argument(
        "--host", default=LOOPBACK, help="address to listen at (default 127.0.0.1: this computer alone)"
    )
    command.add_argument(
        "--port",
        type=int,
        default=DEFAULT_PORT,
        help=f"port, 1 to 65535, or 0 for any free one (default {DEFAULT_PORT})",
    )
    command.add_argument(
        "--allow-host",
        action="append",
        default=[],
        metavar="NAME",
        help="a name that this server may be called by beside localhost; may be given more than once",
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Serve until interrupted."""
    from crankwise.tasks.workshop import store_path

    path = store_path(arguments.data)
    if arguments.lan:
        serve_on_lan(arguments, path)
    else:
        serve(arguments, str(path), arguments.demo)
    return 0


def serve_on_lan(arguments: argparse.Namespace, path: "Path") -> None:
    """Serve this computer as always, and beside it the phones that have joined."""
    from crankwise.tasks.joining import Joining
    from crankwise.web import create_app
    from crankwise.web.server import lan_socket, serve_app

    joining = Joining(path.parent)
    host = "" if arguments.host == LOOPBACK else arguments.host
    listening, address, port = lan_socket((joining.address, joining.port), host, arguments.port)
    with listening:
        path.parent.mkdir(parents=True, exist_ok=True)
        joining.found_at(address, port)
        names = [joining.host, *arguments.allow_host]
        app = create_app(str(path), arguments.demo, names, joining)
        serve_app(app, LOOPBACK, port, _tell(arguments.json, joining.site), listening)


def serve(arguments: argparse.Namespace, path: str, demo: bool) -> None:
    """Serve one store until interrupted, and print the address once it answers."""
    from crankwise.web import create_app
    from crankwise.web.server import serve_app

    names = [arguments.host, *arguments.allow_host]
    serve_app(create_app(path, demo, names), arguments.host, arguments.port, _tell(arguments.json))


def _tell(as_json: bool, lan: str = "") -> Callable[[str], None]:
    def tell(address: str) -> None:
        told = f"Crankwise is at {address}   (stop it with Ctrl-C)"
        if lan:
            told += f"\nPhones find it at {lan} once they have joined: open {address}/phones here, and scan"
        answer = {"format": 1, "address": address} | ({"lan": lan} if lan else {})
        print(json.dumps(answer) if as_json else told, flush=True)

    return tell
