"""Runs brought to a row by what a program sends, so that a test begins where it matters."""

import json
from typing import Any
from urllib.parse import urlencode
from urllib.request import Request, urlopen

from tests.browser.serving import Server

TIDE_RING = 1
A_ROW_SECONDS = 45


def begun(server: Server, done: int, job: int = TIDE_RING, **passes: str) -> str:
    """Return the path of a new run with so many rows done, at a steady pace."""
    made = _sent(server, f"/jobs/{job}/runs", urlencode(passes or {"cuts": ""}).encode())
    run = f"/runs/{made['id']}"
    taps: list[dict[str, Any]] = [{"kind": "began", "tap": "began", "at": 1.75e9, "numbers_grow": True}]
    taps += [
        {"kind": "done", "tap": f"row-{row}", "at": 1.75e9 + A_ROW_SECONDS * (row + 1), "row": row}
        for row in range(done)
    ]
    send(server, run, *taps)
    return run


def send(server: Server, run: str, *taps: dict[str, Any]) -> Any:
    """Send taps, and return what the server says."""
    return _sent(server, f"{run}/taps", json.dumps({"taps": taps}).encode(), "application/json")


def told(server: Server, run: str) -> Any:
    """Return everything that the server tells of a run."""
    with urlopen(f"{server.address}{run}.json") as answer:
        return json.load(answer)


def checks(server: Server, job: int = TIDE_RING) -> list[Any]:
    """Return the rows, whole, at which a run of a job asks for the ring."""
    run = told(server, begun(server, 0, job))
    return [run["usual"] | row for row in run["rows"] if (run["usual"] | row)["check_ring"]]


def send_checked(server: Server, run: str, first: int, to: int) -> None:
    """Do the rows from one to before another, after the ring was read at the first and agreed."""
    ring = whole_row(server, run, first)["check_ring"]
    send(server, run, {"kind": "ring", "tap": f"ring-{first}", "at": 1.76e9, "row": first, "reading": ring})
    send(
        server,
        run,
        *({"kind": "done", "tap": f"row-{row}", "at": 1.76e9 + row, "row": row} for row in range(first, to)),
    )


def whole_row(server: Server, run: str, row: int) -> Any:
    """Return a row as the server tells it, whole."""
    run_told = told(server, run)
    return run_told["usual"] | run_told["rows"][row]


def _sent(server: Server, path: str, body: bytes, kind: str = "application/x-www-form-urlencoded") -> Any:
    asked = Request(
        server.address + path, data=body, headers={"Accept": "application/json", "Content-Type": kind}
    )
    with urlopen(asked) as answer:
        return json.load(answer)
