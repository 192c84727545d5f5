"""Write one of everything that this version keeps; every later version must read it.

Run once for each release, and when what is kept gets a new form, from the top of the repository:
`python -m tests.old.write_files NAME`, NAME being the version, or the version and what is new in it. What
it writes is never written again.
"""

import json
import sys
import tempfile
from dataclasses import asdict
from fractions import Fraction
from pathlib import Path
from typing import Any

from crankwise.head.head import Head
from crankwise.plan.passes import Pass
from crankwise.run.journal import Entry, RunState
from crankwise.store.kept import TypedMeasurement
from crankwise.tasks.workshop import Asked, Workshop, open_workshop

HERE = Path(__file__).parent

FULL_HEAD = """\
# A head with everything that a head file can say.
format = 1
name = "Heads' \\"odd\\" one, 45:2 \U0001f311"

[worm]
ratio = "45/2"
clockwise = "decreases"

[dial]
marks = 120
read_to = "1/2"
numbered_every = 5
vernier = 10
clockwise = "decreases"
settable = false

[ring]
graduations = 400
read_to = "1/4"
full_circle = 400
numbered = "anticlockwise"

[[plates]]
circles = [15, 18, 24]

[[plates]]
circles = [20]

[[notched_wheels]]
notches = 60

[[notched_wheels]]
notches = 48

[change_gears]
teeth = [24, 24, 28, 100]

[errors]
worm_arcsec = [10, 60]
wheel_arcsec = "85.5"
ring_off_centre_mm = 0.02

[[calibrations]]
date = "2025-10-01"
method = "closure"
table = [[0, 0], [90, 12], [180, "1/3"]]
readings = [[72, 5.5, 0], [144, 17, 72]]

[[calibrations]]
date = "2026-03-14"
in_force = true
reference = "index"
left_out = 2
residual_arcsec = 2.1
freedom = 27
backlash_arcsec = 241.5
harmonics = [
  { of = "wheel", order = 1, cosine_arcsec = 64.3, sine_arcsec = 46.8 },
  { of = "worm", order = 1, cosine_arcsec = -8.2, sine_arcsec = 18.1 },
]
covariance = [[0.3], [0, 0.3], [0, 0, 0.25], [0, 0, 0, 0.25]]
readings = [[0, 1.5], [3.5, 12.25, "back"]]

[[calibrations]]
date = "2026-05-02"
harmonics = [{ order = 2, sine_arcsec = 3 }]
covariance = [[0.3], [0, 0.3]]
"""

SLIDE = """\
name = "Mill table"

[slide]
lead = "1/10in"

[dial]
marks = 100
read_to = "1/2"
"""

RACK = """\
format = 1

[part]
kind = "rack"
teeth = 40
dp = 24
"""

JOBS = (
    (Asked(count="12", work="hole"), "direct:wheel=60:notches=5", 3),
    (Asked(count="30"), None, 2),
    (Asked(count="127", start="1d30m", first="3", last="100", every="2", rim="8in", work="line"), "dial", 40),
    (Asked(count="127", rim="200mm", within="1mm"), "nearest-hole:circle=24", 100),
    (Asked(count="50", work="flat"), None, 0),
    (Asked(count="40", rim="200mm", work="line"), "dial:corrected=2026-03-14", 4),
    (Asked(angles="0, 12.5, 30d15m, 1/7 turn, 300", rim="100mm", within="5'"), "dial", 4),
)


SEVERAL_PASSES = (
    Pass("trace"),
    Pass("rough", spread=3, depth_mm=Fraction(5, 2)),
    Pass("finish", each=5, but_not=10),
)

ALL_KINDS = (
    Entry("began", "b", 1_770_000_000.5, numbers_grow=True, seen=0),
    Entry("done", "d0", 1_770_000_060.0, 0),
    Entry("done", "d1", 1_770_000_120.0, 1),
    Entry("skipped", "s", 1_770_000_121.0, 2),
    Entry("overshot", "o", 1_770_000_122.0, 3),
    Entry("ring", "r", 1_770_000_123.0, 3, reading=Fraction(7, 3)),
    Entry("bad", "x", 1_770_000_124.0, 1, note="<b>\N{WRENCH}</b>"),
    Entry("slipped", "w", 1_770_000_125.0, 3, angle=Fraction(-31, 36000), joint="spindle", since=1),
    Entry("good", "g", 1_770_000_126.0, 0),
    Entry("note", "n", 1_770_000_127.0, note="oil"),
    Entry("undone", "u", 1_770_000_128.0, of="n"),
    Entry("done", "d3", 1_770_000_129.0, 3),
    Entry("back", "k", 1_770_000_130.0, 3),
    Entry("paused", "p", 1_770_000_131.0),
    Entry("resumed", "q", 1_770_000_132.0),
    Entry("returned", "f", 1_770_000_133.0, 3),
    Entry("returned", "m", 1_770_000_134.0, 3, angle=Fraction(0), means="indicator"),
    Entry("returned", "h", 1_770_000_135.0, 3, off_mm=Fraction(-41, 100), means="loupe"),
)


MEASURED = TypedMeasurement("position_deg", "\n".join(f"{6 * k},01" for k in range(60)), rim="100mm")


def write(name: str) -> None:
    """Write the files of this version beside this one."""
    (HERE / f"head-{name}.toml").write_text(FULL_HEAD, encoding="utf-8")
    store = HERE / f"store-{name}.sqlite"
    with tempfile.TemporaryDirectory() as folder, open_workshop(folder, demo=True) as workshop:
        head_id = workshop.keep_head(FULL_HEAD).id
        for asked, way_key, taps in JOBS:
            job = workshop.new_job(head_id, asked, way_key=way_key)
            for _ in range(bool(taps)):
                tap(workshop, workshop.begin_run(job.id).id, taps)
        rack = workshop.new_job(workshop.keep_head(SLIDE).id, Asked(part=RACK))
        tap(workshop, workshop.begin_run(rack.id).id, 5)
        lines = workshop.new_job(head_id, Asked(count="60", work="line"), way_key="dial")
        workshop.keep_measurement(lines.id, MEASURED, "2026-03-14", note="<b>\N{WRENCH}</b>")
        several = workshop.begin_run(lines.id, SEVERAL_PASSES)
        assert all(workshop.tap(several.id, entry)[1] for entry in ALL_KINDS)
        workshop.backup(str(store))
        holds = held(workshop)
    store.with_suffix(".json").write_text(json.dumps(holds, indent=1) + "\n", encoding="utf-8")


def tap(workshop: Workshop, run_id: int, taps: int) -> None:
    """Begin a run, do a row more than asked, and take it back."""
    entries = [Entry("began", "b", 1_770_000_000.5, numbers_grow=False, seen=0)]
    entries += [Entry("done", f"d{row}", 1_770_000_060.0 + row, row, seen=row + 1) for row in range(taps)]
    entries += [Entry("back", "back", 0.0, taps - 1)]
    assert all(workshop.tap(run_id, entry)[1] for entry in entries)


def held(workshop: Workshop) -> dict[str, Any]:
    """Return all that a workshop holds, as a machinist would see it: exact values as texts."""
    return {
        "heads": [{"id": kept.id, "demo": kept.is_demo, **held_head(kept.head)} for kept in workshop.heads()],
        "jobs": [
            {
                "id": job.id,
                "name": job.name,
                "head": job.head_id,
                "way": job.plan.way.key,
                "worst_error": str(job.plan.way.worst_error),
                "rim_mm": str(job.plan.part.rim_mm),
                "work": job.plan.part.work,
                "within": job.asked.within,
                "demo": job.is_demo,
                "runs": [held_run(workshop, run_id) for run_id in job.run_ids],
                **held_measurements(workshop, job.id),
            }
            for job in workshop.jobs()
        ],
    }


def held_measurements(workshop: Workshop, job_id: int) -> dict[str, Any]:
    """Return what was measured of a job's parts; nothing where nothing was, as in the first stores."""
    held = [
        {
            "id": kept.id,
            "run": kept.run_id,
            "date": kept.date,
            "note": kept.note,
            "way": kept.plan.way.key,
            "typed": {name: text for name, text in asdict(kept.typed).items() if text},
        }
        for kept in workshop.measurements(job_id)
    ]
    return {"measured": held} if held else {}


def held_head(head: Head) -> dict[str, Any]:
    """Return what a head has, part by part."""
    worm, dial, ring = head.worm, head.dial, head.ring
    return {
        "name": head.name,
        "worm": worm and [str(worm.ratio), worm.wheel_teeth, worm.starts, worm.clockwise],
        "dial": dial
        and [
            dial.marks,
            str(dial.read_to),
            dial.numbered_every,
            dial.vernier,
            dial.clockwise,
            dial.settable,
        ],
        "ring": ring and [ring.graduations, str(ring.read_to), ring.full_circle, ring.numbered],
        "plates": [list(plate.circles) for plate in head.plates],
        "notched_wheels": [wheel.notches for wheel in head.notched_wheels],
        "change_gears": list(head.change_gears.teeth) if head.change_gears else None,
        **({"slide": str(head.slide.lead_mm)} if head.slide else {}),
        **held_errors(head),
    }


def held_errors(head: Head) -> dict[str, Any]:
    """Return what is known of a head's errors, as the first files did not; nothing where that is nothing."""
    sizes = head.error_sizes.sizes if head.error_sizes else ()
    held = {
        "errors": {name: [str(size.low), str(size.high)] for name, size in sizes},
        "calibrations": [
            {
                "date": known.date,
                "how": [known.method, known.reference, known.left_out, known.in_force],
                "known_to": [str(known.residual), known.freedom, str(known.backlash)],
                "harmonics": [[str(value) for value in one] for one in known.harmonics],
                "covariance": [[str(value) for value in row] for row in known.covariance],
                "table": [[str(value) for value in point] for point in known.table],
                "readings": [[str(value) for value in one] for one in known.readings],
            }
            for known in head.calibrations
        ],
        "in_force": head.known_errors.date if head.known_errors else None,
    }
    return held if any(held.values()) else {}


def held_run(workshop: Workshop, run_id: int) -> dict[str, Any]:
    """Return where a run stands and what every row of it sets."""
    run = workshop.run(run_id)
    return {
        "id": run_id,
        "began": run.state.began,
        "numbers_grow": run.state.numbers_grow,
        "at_row": run.state.at_row,
        "last_at": run.state.last_at,
        **held_beyond_done_and_back(run.state),
        "taps": [[entry.kind, entry.tap, entry.row] for entry in workshop.journal(run_id)],
        "rows": [
            [
                str(row.reached.position),
                " ".join(
                    f"{name}={value}"
                    for name, value in row.reached.setting._asdict().items()
                    if value is not None
                ),
                str(row.reached.achieved),
            ]
            for row in run.rows
        ],
    }


def held_beyond_done_and_back(state: RunState) -> dict[str, Any]:
    """Return what a run holds that the first stores could not; nothing where it holds none of it."""
    held: dict[str, Any] = {
        "skipped": list(state.skipped),
        "paused": state.paused,
        "facts": [
            {name: str(value) for name, value in asdict(fact.entry).items() if value is not None}
            for fact in state.facts
        ],
        "suspect": list(state.suspect),
        "anchor": [str(state.anchor.work), str(state.anchor.ring)],
    }
    return held if any((state.skipped, state.paused, state.facts)) else {}


if __name__ == "__main__":
    write(*sys.argv[1:])
