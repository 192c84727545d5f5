"""What a visitor does, in few words."""

import re
from html import unescape
from typing import Any

from starlette.testclient import TestClient

JSON = {"Accept": "application/json"}
FRAGMENT = {"X-Fragment": "1", "Accept": "text/html"}


def new_head(visitor: TestClient, toml: str) -> int:
    """Keep a head and return its number."""
    answer = visitor.post("/heads/import", data={"toml": toml}, headers=JSON)
    assert answer.status_code == 200, answer.text
    return int(answer.json()["id"])


def new_job(visitor: TestClient, head_id: int, **typed: str) -> int:
    """Keep a job and return its number."""
    answer = visitor.post("/jobs/new", data={"head": str(head_id), **typed}, headers=JSON)
    assert answer.status_code == 200, answer.text
    return int(answer.json()["id"])


def new_run(visitor: TestClient, job_id: int, answer: str | None = "yes") -> int:
    """Make a run, begun with an answer to the direction test, and return its number."""
    run_id = int(visitor.post(f"/jobs/{job_id}/runs", headers=JSON).json()["id"])
    if answer is not None:
        begun = tap(visitor, run_id, "began", f"begin-{run_id}", answer=answer, sure="1")
        assert begun["began"] is True
    return run_id


def tap(visitor: TestClient, run_id: int, kind: str, name: str, row: int | None = None, **more: str) -> Any:
    """Tap, and return what the server says."""
    form = {"kind": kind, "tap": name, "at": "1750000000", **more}
    if row is not None:
        form["row"] = str(row)
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=JSON)
    assert answer.status_code == 200, answer.text
    return answer.json()


def form_of(page: str, kind: str) -> dict[str, str]:
    """Return the hidden fields of the form on a run page that taps one kind."""
    for form in re.findall(r"<form[^>]*/taps.*?</form>", page, re.DOTALL):
        fields = {
            name: unescape(value)
            for name, value in re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form)
        }
        if fields.get("kind") == kind:
            return fields
    raise AssertionError(f"no form taps {kind!r}")
