"""The best train against a compiled brute force of the same search, and six gears against their budgets.

The brute force is the loop that a C programmer writes for it: every two drivers with every two of the
other gears, compared exactly in whole numbers, its best train printed. It is built here with `cc -O2`.
Both sides are told their own processor time for the search alone, without the start of their process.
"""

import shutil
import subprocess
import sys
import tempfile
from fractions import Fraction
from math import prod
from pathlib import Path
from statistics import median
from time import process_time

from bench.measured import Measured
from crankwise.head.train_search import nearest_trains

GEARS_60 = tuple(range(20, 80))
TARGETS = (Fraction(314159265, 100000000), Fraction(29530589, 14765000), Fraction(40, 127))
SIX_TARGETS = (*TARGETS, Fraction(1, 2), Fraction(1))
ROUNDS = 5
SECONDS, MEGABYTES = 5.0, 2000.0
BRUTE_FORCE = r"""
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
int main(int count, char **words) {
    long long p = atoll(words[1]), q = atoll(words[2]), best = -1, below = 1;
    int n = count - 3, g[200], t[4] = {0, 0, 0, 0};
    for (int i = 0; i < n; i++) g[i] = atoi(words[3 + i]);
    clock_t begun = clock();
    for (int a = 0; a < n; a++)
    for (int b = a + 1; b < n; b++)
    for (int c = 0; c < n; c++) {
        if (c == a || c == b) continue;
        for (int d = c + 1; d < n; d++) {
            if (d == a || d == b) continue;
            long long under = (long long)g[c] * g[d], miss = llabs((long long)g[a] * g[b] * q - p * under);
            if (best < 0 || (__int128)miss * below < (__int128)best * under) {
                best = miss; below = under; t[0] = g[a]; t[1] = g[b]; t[2] = g[c]; t[3] = g[d];
            }
        }
    }
    printf("%.9f %d %d %d %d\n", (double)(clock() - begun) / CLOCKS_PER_SEC, t[0], t[1], t[2], t[3]);
    return 0;
}
"""
SIX = """
import resource, sys
from fractions import Fraction
from time import process_time
from crankwise.head.train_search import nearest_trains
begun = process_time()
nearest_trains(Fraction(sys.argv[1]), range(20, 60), (6,))
print(process_time() - begun, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def measure() -> list[Measured]:
    """Return the time for 4 gears from 60 against compiled brute force, and time and memory for 6 from 40."""
    six = [_six(target) for target in SIX_TARGETS]
    budgets = [
        Measured(
            "exact best of 6 gears from 40, CPU : 5 s",
            max(seconds for seconds, _ in six) / SECONDS,
            1.0,
            f"{max(seconds for seconds, _ in six):.3f} s, the slowest of {len(six)} ratios",
        ),
        Measured(
            "exact best of 6 gears from 40, memory : 2 GB",
            max(memory for _, memory in six) / MEGABYTES,
            1.0,
            f"{max(memory for _, memory in six):.0f} MB",
        ),
    ]
    if shutil.which("cc") is None:
        print("bench: there is no C compiler (cc), so the brute force was not built", file=sys.stderr)
        return budgets
    return [*_against_brute_force(), *budgets]


def _against_brute_force() -> list[Measured]:
    ours, theirs = [], []
    with tempfile.TemporaryDirectory() as folder:
        source, program = Path(folder, "brute.c"), Path(folder, "brute")
        source.write_text(BRUTE_FORCE, encoding="utf-8")
        subprocess.run(["cc", "-O2", "-o", program, source], check=True)
        for target in TARGETS:
            for _ in range(ROUNDS):
                begun = process_time()
                (best,) = nearest_trains(target, GEARS_60, (4,))
                ours.append(process_time() - begun)
                words = [str(part) for part in (*target.as_integer_ratio(), *GEARS_60)]
                said = subprocess.run([program, *words], check=True, capture_output=True, text=True)
                seconds, *gears = said.stdout.split()
                theirs.append(float(seconds))
                found = Fraction(prod(map(int, gears[:2])), prod(map(int, gears[2:])))
                assert abs(found - target) == abs(best.value - target), (target, gears, best)
    note = f"{median(ours) * 1000:.1f} ms against {median(theirs) * 1000:.1f} ms, equally near"
    return [Measured("best of 4 gears from 60 : brute force in C", median(ours) / median(theirs), 1.0, note)]


def _six(target: Fraction) -> tuple[float, float]:
    ran = subprocess.run([sys.executable, "-c", SIX, str(target)], check=True, capture_output=True, text=True)
    seconds, memory = map(float, ran.stdout.split())
    return seconds, memory
