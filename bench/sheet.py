"""A PDF of 1,000 positions, whole process: its time, against the PDF library writing as much bare text; its memory.

The bare text is what nobody can do without: the same number of strings, on as many pages, in a
built-in face, with nothing worked out and nothing laid out. The two budgets are of the house: two
seconds of processor time and 200 MB, the start of the interpreter counted in.
"""

import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from typing import NamedTuple

from bench.measured import Measured

POSITIONS = 1000
ROUNDS = 5
BOUND = 8.0
SECONDS, MEGABYTES = 2.0, 200.0
BENCH_HEAD = """
name = "Bench head"
[worm]
wheel_teeth = 72
[dial]
marks = 100
read_to = "1/2"
[ring]
graduations = 360
"""
BARE = """
import sys
from reportlab.pdfgen.canvas import Canvas
canvas = Canvas(sys.argv[1], invariant=1, pageCompression=1)
for page in range(34):
    for line in range(30):
        for column in range(10):
            canvas.drawString(40 + 50 * column, 800 - 24 * line, "351.3600")
    canvas.showPage()
canvas.save()
"""


class Spent(NamedTuple):
    """What one process took."""

    seconds: float
    megabytes: float


def measure() -> list[Measured]:
    """Return the sheet's time against bare text, and its time and memory against their budgets."""
    with tempfile.TemporaryDirectory() as folder:
        head, out = Path(folder, "head.toml"), Path(folder, "run.pdf")
        head.write_text(BENCH_HEAD, encoding="utf-8")
        asked = ["sheet", str(POSITIONS), "--head", str(head), "--rim", "200mm", "--out", str(out)]
        sheet, bare = [], []
        for _ in range(ROUNDS):
            sheet.append(_spent(["-m", "crankwise", *asked]))
            bare.append(_spent(["-c", BARE, str(Path(folder, "bare.pdf"))]))
        size = out.stat().st_size
    seconds = median(spent.seconds for spent in sheet)
    beside = median(spent.seconds for spent in bare)
    megabytes = max(spent.megabytes for spent in sheet)
    note = f"{POSITIONS} positions, {size // 1000} kB, middle of {ROUNDS} processes"
    return [
        Measured("a PDF sheet against bare text, processor time", seconds / beside, BOUND, note),
        Measured("a PDF sheet against two seconds", seconds / SECONDS, 1.0, f"{seconds:.2f} s; {note}"),
        Measured("a PDF sheet against 200 MB", megabytes / MEGABYTES, 1.0, f"{megabytes:.0f} MB at most"),
    ]


def _spent(arguments: Sequence[str]) -> Spent:
    """Run this Python once and return its processor time and its largest memory."""
    process = subprocess.Popen([sys.executable, *arguments], stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError(f"the process ended with {process.returncode}")
    # Linux counts in kilobytes, macOS in bytes.
    unit = 1_000_000 if sys.platform == "darwin" else 1_000
    return Spent(usage.ru_utime + usage.ru_stime, usage.ru_maxrss / unit)
