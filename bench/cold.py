"""A cold command, whole process, against a Python that does nothing.

Python keeps compiled files beside the sources once they have run, so a user meets them from the second
command on. Some environments forbid that; so the bench keeps compiled files in a place of its own, for
both processes alike, and lets each run once before it counts. What counts is the processor time of the whole
process, taken in turns: on an idle machine that is the time that passes, and a busy one changes it little.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from statistics import median

from bench.measured import Measured

ROUNDS = 21
BOUND, BOUND_EVERY_METHOD = 7.5, 11.0
HEAD = Path(__file__).parents[1] / "examples" / "bench-head.toml"
DIVIDE = ["-m", "crankwise", "divide", "127", "--head", str(HEAD), "--json"]
EVERY_METHOD_HEAD = Path(__file__).with_name("every-method.toml")
EVERY_METHOD = ["-m", "crankwise", "divide", "127", "--head", str(EVERY_METHOD_HEAD), "--json"]
HELP = ["-m", "crankwise", "divide", "--help"]


def measure() -> list[Measured]:
    """Return the division's time, and the help's, in runs of an empty Python."""
    with tempfile.TemporaryDirectory() as compiled:
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        environment = {**kept, "PYTHONPYCACHEPREFIX": compiled}
        commands = {
            "nothing": ["-c", "pass"],
            "divide": DIVIDE,
            "divide by every method": EVERY_METHOD,
            "help": HELP,
        }
        seconds: dict[str, list[float]] = {name: [] for name in commands}
        for turn in range(ROUNDS + 1):
            for name, words in commands.items():
                took = _seconds(words, environment)
                if turn:
                    seconds[name].append(took)
    middle = {name: median(taken) for name, taken in seconds.items()}
    return [
        Measured(
            f"crankwise {name} cold, against python -c pass",
            middle[name] / middle["nothing"],
            bound,
            f"{middle[name] * 1000:.0f} ms, {middle['nothing'] * 1000:.0f} ms, CPU; medians of {ROUNDS}",
        )
        for name, bound in (
            ("divide", BOUND),
            ("divide by every method", BOUND_EVERY_METHOD),
            ("help", BOUND),
        )
    ]


def _seconds(words: list[str], environment: dict[str, str]) -> float:
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *words], env=environment, stdout=subprocess.DEVNULL, check=True)
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
