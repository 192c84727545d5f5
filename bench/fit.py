"""The fit of 1,000 readings of a head, from its own file on, against the 200 ms that a person does not notice."""

import tempfile
from fractions import Fraction
from math import cos, pi
from pathlib import Path
from random import Random

from bench.measured import Measured, processor_seconds
from crankwise.accuracy.calibration import calibrate
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.plan.corrected import corrected_ways
from crankwise.tasks.measure import fit, write_measured
from crankwise.tasks.readings import head_readings, open_readings

READINGS, ROUNDS, BUDGET = 1000, 5, 0.2
HEAD = 'name = "Bench head"\n[worm]\nwheel_teeth = 72\n[dial]\nmarks = 100\nread_to = "1/2"\n'


def measure() -> list[Measured]:
    """Return the time of the fit alone and with its file read, and of correcting 1,000 positions, in budgets."""
    head = read_head(HEAD)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "readings.csv")
        path.write_text(_readings(), encoding="utf-8")
        read = head_readings(open_readings(str(path)), head.ratio)
        alone = processor_seconds(lambda: calibrate(read.readings, head.ratio).outliers, ROUNDS)
        whole = processor_seconds(lambda: fit(head, str(path), "2026-03-14"), ROUNDS)
        out = str(Path(folder, "measured.toml"))
        write_measured(fit(head, str(path), "2026-03-14"), out)
        measured = read_head(Path(out).read_bytes())
        corrected = processor_seconds(lambda: corrected_ways(measured, EqualDivisions(1000)), ROUNDS)
    return [
        Measured("fit of 1,000 readings, CPU : 200 ms", alone / BUDGET, 1.0, f"{alone * 1000:.0f} ms"),
        Measured("the same with its file read, CPU : 200 ms", whole / BUDGET, 1.0, f"{whole * 1000:.0f} ms"),
        Measured(
            "1,000 positions corrected, CPU : 200 ms", corrected / BUDGET, 1.0, f"{corrected * 1000:.0f} ms"
        ),
    ]


def _readings() -> str:
    chance = Random(1)
    rows = ["setting_deg,measured_deg"]
    for _ in range(READINGS):
        place = Fraction(chance.randrange(7200), 7200)
        turn = 2 * pi * float(place)
        error = 80 * cos(turn - 1) + 12 * cos(2 * turn) + 20 * cos(72 * turn - 2) + 5 * cos(144 * turn)
        rows.append(f"{place * 360},{float(place * 360) + (error + chance.gauss(0, 2)) / 3600:.5f}")
    return "\n".join(rows)
