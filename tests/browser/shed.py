"""The Slipway Shed brought to every state that a page can show: jobs of each kind, runs at each turn."""

import json
from urllib.parse import urlencode
from urllib.request import Request, urlopen

from tests.browser.runs import TIDE_RING, begun, checks, send
from tests.browser.serving import Server
from tests.house.tracked import HOUSE

FEET = 6
MILL_TABLE = "6"
EXAMPLES = HOUSE / "examples"
OPTIONS = ("--demo", "--lan", "--host", "127.0.0.2")
"""How its server is started: with phones let in, at an address of this computer."""

PARTS: dict[str, dict[str, str]] = {
    "spur": {"teeth": "127", "module": "1", "pin": "1.728mm", "name": "Tide wheel, 127 teeth"},
    "helical": {
        "head": "2",
        "teeth": "27",
        "module": "1",
        "helix": "30",
        "name": "Skew wheel to the moon hand",
    },
    "bevel": {"teeth": "30", "mate": "20", "module": "1.5", "face": "12mm", "name": "Winding bevel"},
    "graduated": {"lines": "100", "across": "60mm", "face": "10mm", "name": "Dial of the cross slide"},
    "holes": {"count": "7", "circle": "60mm", "hole": "6mm", "name": "Bezel, seven holes"},
    "flats": {"count": "6", "across_flats": "17mm", "name": "Arbor nut"},
    "list": {"angles": "0: open; 12d30m: close; 200: spring", "name": "Strike cam"},
    "worm-wheel": {"teeth": "60", "module": "1", "worm": "20mm", "name": "Worm wheel of the fly"},
    "ratchet": {"teeth": "24", "outside": "50mm", "depth": "3mm", "name": "Winding ratchet"},
    "splines": {"size": "6x23x26", "name": "Winding arbor"},
    "sprocket": {"teeth": "17", "chain": "08B", "name": "Weight chain wheel"},
    "rack": {"head": MILL_TABLE, "teeth": "40", "module": "1", "name": "Rack of the sluice"},
    "clock-wheel": {"teeth": "64", "pinion": "8", "module": "1", "name": "Third wheel"},
}
"""A job of each kind of part, as typed into its form."""


def prepared(server: Server) -> dict[str, str]:
    """Bring a demo workshop to every state, and return the paths of its jobs and runs by name."""
    asked = checks(server)
    check, off = asked[3]["row"], asked[4]
    turned = float(off["ring"].rstrip("°")) + 5
    things = {
        "unbegun": _unbegun(server),
        "begun": begun(server, 2),
        "soon": begun(server, 3),
        "check": begun(server, check),
        "fault": begun(server, off["row"]),
        "overshot": begun(server, 10),
        "paused": begun(server, 10),
        "noted": begun(server, 88),
        "closing": begun(server, 149),
        "returning": begun(server, 75),
        "missed": begun(server, 75),
        "passes": begun(server, 5, cuts="two"),
        "finished": begun(server, 6, FEET),
        "slipped": f"scale0={off['reading']}&scale1={turned - 4.7:.2f}",
    }
    reading = {"kind": "ring", "tap": "ring", "at": 1.76e9, "row": off["row"], "reading": f"{turned:.1f}"}
    send(server, things["fault"], reading)
    send(server, things["overshot"], {"kind": "overshot", "tap": "x", "at": 1.76e9, "row": 10})
    send(server, things["closing"], {"kind": "ring", "tap": "x", "at": 1.76e9, "row": 149, "reading": "0"})
    send(server, things["paused"], {"kind": "paused", "tap": "x", "at": 1.76e9})
    off_by = {"kind": "returned", "tap": "x", "at": 1.76e9, "row": 75, "off_mm": "0.41", "means": "loupe"}
    send(server, things["missed"], off_by)
    bad = {"kind": "bad", "tap": "bad", "at": 1.76e9, "row": 41, "note": "faint at the inner end"}
    send(server, things["noted"], bad)
    for kind, typed in PARTS.items():
        things[kind] = _job(server, kind, typed)
    things["along"] = begun(server, 5, int(things["rack"].rpartition("/")[2]))
    things["measured"], things["corrected"] = _measured(server)
    things["kept"] = _five_wheels(server)
    return things


def _measured(server: Server) -> tuple[str, str]:
    """A second bench head that was measured twice, and a job on it with corrected settings."""
    bench = (EXAMPLES / "bench-head.toml").read_text(encoding="utf-8")
    toml = bench.replace("Bench head", "Bench head, measured twice")
    head = posted(server, "/heads/import", {"toml": toml})
    for name, date, reference in (
        ("bench-readings.csv", "2026-03-14", "index"),
        ("bench-closure.csv", "2025-11-02", ""),
    ):
        readings = (EXAMPLES / name).read_text(encoding="utf-8")
        form = {"readings": readings, "date": date, "reference": reference, "keep": "1"}
        posted(server, f"/heads/{head}/readings", form)
    job = posted(server, "/jobs/new", {"head": str(head), "count": "127", "rim": "150mm"})
    posted(server, f"/jobs/{job}/way", {"way": "dial:corrected=2026-03-14"})
    return f"/heads/{head}", f"/jobs/{job}"


def _five_wheels(server: Server) -> str:
    """Five wheels of one job, measured and kept; the last of the measurements."""
    job = _job(server, "spur", {"teeth": "127", "module": "1", "name": "Tide wheel, five of them"})
    kept = 0
    for number in range(1, 6):
        name = "wheel-pitches.csv" if number == 1 else f"wheel-pitches-{number}.csv"
        readings = (EXAMPLES / name).read_text(encoding="utf-8")
        form = {"what": "pitch", "readings": readings, "date": f"2026-03-0{number}", "do": "keep"}
        form |= {"piece": str(number), "note": "brass"}
        kept = posted(server, f"{job}/measure", form)
    return f"{job}/measured/{kept}"


def _unbegun(server: Server) -> str:
    return f"/runs/{posted(server, f'/jobs/{TIDE_RING}/runs', {'cuts': ''})}"


def _job(server: Server, kind: str, typed: dict[str, str]) -> str:
    return f"/jobs/{posted(server, f'/jobs/new/{kind}', {'head': '1', **typed})}"


def posted(server: Server, path: str, form: dict[str, str]) -> int:
    """Send a form, and return the number of what was kept."""
    asked = Request(
        server.address + path, data=urlencode(form).encode(), headers={"Accept": "application/json"}
    )
    with urlopen(asked) as answer:
        return int(json.load(answer)["id"])
