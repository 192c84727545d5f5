"""The base package at work with nothing compiled: a division, a page and a tap.

Run by `make pure`, with the Python of an empty environment that holds the base package alone. No test
library is there, so this is a plain script: it prints what it did and ends with 1 at the first thing
that is not so.
"""

import asyncio
import json
import subprocess
import sys
import sysconfig
import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message

STORE = "workshop.sqlite"
COMPILED = {".so", ".pyd", ".dylib", ".dll"}

DIAL_ONLY = """\
name = "Dial only"
[worm]
wheel_teeth = 72
clockwise = "increases"
[dial]
marks = 100
read_to = "1/2"
numbered_every = 10
"""


class NotSo(Exception):
    """What was promised of the base package does not hold."""


def must(holds: bool, otherwise: str) -> None:
    """Raise NotSo unless it holds."""
    if not holds:
        raise NotSo(otherwise)


@dataclass
class Answer:
    """What the app sent back to one request."""

    status: int = 0
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes = b""


def ask(
    app: "ASGIApp", method: str, path: str, body: bytes = b"", headers: dict[str, str] | None = None
) -> Answer:
    """Return the app's answer to one request, made in this process with no HTTP library."""
    answer = Answer()
    sent = {"host": "127.0.0.1", "content-length": str(len(body)), **(headers or {})}
    path, _, query = path.partition("?")
    scope: dict[str, Any] = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "query_string": query.encode(),
        "root_path": "",
        "headers": [(name.encode(), value.encode()) for name, value in sent.items()],
        "client": ("127.0.0.1", 50000),
        "server": ("127.0.0.1", 80),
    }
    messages: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def receive() -> "Message":
        return messages.pop() if messages else {"type": "http.disconnect"}

    async def send(message: "Message") -> None:
        if message["type"] == "http.response.start":
            answer.status = message["status"]
            answer.headers = {name.decode(): value.decode() for name, value in message["headers"]}
        else:
            answer.body += message.get("body", b"")

    async def once() -> None:
        await app(scope, receive, send)

    asyncio.run(once())
    return answer


def nothing_is_compiled() -> str:
    installed = Path(sysconfig.get_path("purelib"))
    compiled = [str(path.relative_to(installed)) for path in installed.rglob("*") if path.suffix in COMPILED]
    must(not compiled, f"compiled modules were installed: {', '.join(compiled)}")
    must(any(installed.glob("markupsafe")), "the environment is empty")
    return "nothing compiled is installed"


def a_division(folder: Path) -> str:
    """127 on a 72:1 head, its dial read to half a mark: position 1 is set to 56.5 marks, 34.72" short."""
    head = folder / "dial-only.toml"
    head.write_text(DIAL_ONLY, encoding="utf-8")
    crankwise = Path(sysconfig.get_path("scripts")) / "crankwise"
    command = [str(crankwise), "divide", "127", "--head", str(head), "--positions", "--json"]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    must(ran.returncode == 0, f"crankwise divide ended with {ran.returncode}: {ran.stderr}")
    ways = {way["method"]: way for way in json.loads(ran.stdout)["ways"]}
    first = next(row for row in ways["dial"]["positions"] if row["position"] == 1)
    must((first["turns"], first["reading"]) == (0, "56.5"), f"position 1 of 127 is {first}")
    must(round(first["error_arcsec"], 2) == -34.72, f"position 1 of 127 is {first}")
    return "a division: 127 on the dial, position 1 at 56.5 marks"


def a_page(app: "ASGIApp") -> str:
    answer = ask(app, "GET", "/")
    must(answer.status == 200, f"the first page answered {answer.status}")
    must(b"</html>" in answer.body, "the first page is not a whole page")
    return f"a page: {len(answer.body)} bytes"


def a_tap(app: "ASGIApp", folder: Path) -> str:
    """A head, a job and a run made by the pages' own forms; one tap, which is there when the store is opened anew."""
    head = sent(app, "/heads/import", toml=DIAL_ONLY)
    job = sent(app, "/jobs/new", head=str(head["id"]), count="127", work="space")
    run = sent(app, f"/jobs/{job['id']}/runs")
    taps = f"/runs/{run['id']}/taps"
    must(sent(app, taps, kind="began", tap="one", answer="yes")["began"], "the run did not begin")
    tapped = sent(app, taps, kind="done", tap="two", row="0")
    must((tapped["counted"], tapped["done"]) == (True, 1), f"a tap came to {tapped}")
    must(tapped["row"]["reading"] == "56.5", f"after position 0 comes {tapped['row']}")
    must(not sent(app, taps, kind="done", tap="two", row="0")["counted"], "the same tap counted twice")
    from crankwise.web import create_app

    page = ask(create_app(folder / STORE), "GET", f"/runs/{run['id']}")
    must(b'id="reading">56.5<' in page.body, "the tap was not kept")
    return "a tap: position 0 of 127 done, the next one at 56.5 marks"


def sent(app: "ASGIApp", path: str, **form: str) -> dict[str, Any]:
    """Return what the app says, as an object, to one of its own forms."""
    headers = {"content-type": "application/x-www-form-urlencoded", "accept": "application/json"}
    answer = ask(app, "POST", path, urlencode(form).encode(), headers)
    must(answer.status == 200, f"{path} answered {answer.status}: {answer.body!r}")
    said: dict[str, Any] = json.loads(answer.body)
    return said


def main() -> int:
    """Return 0 when all of it holds, 1 at the first thing that does not."""
    try:
        print(nothing_is_compiled())
        with tempfile.TemporaryDirectory() as folder:
            print(a_division(Path(folder)))
            from crankwise.web import create_app

            app = create_app(Path(folder) / STORE, demo=True)
            print(a_page(app))
            print(a_tap(app, Path(folder)))
    except NotSo as wrong:
        print(f"NOT SO: {wrong}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
