"""Run every bench, print its ratios, and fail when one breaks its bound: `python -m bench [NAME ...]`."""

import sys
from importlib import import_module
from pathlib import Path

from bench.measured import Measured


def names() -> list[str]:
    """Return the benches there are: the files of this folder that measure something."""
    folder = Path(__file__).parent
    files = sorted(path.stem for path in folder.glob("*.py") if not path.stem.startswith("_"))
    return [name for name in files if name != "measured"]


def told(measured: Measured) -> str:
    verdict = "ok" if measured.ratio <= measured.bound else "TOO MUCH"
    return (
        f"{measured.name:<58} {measured.ratio:>10.4g} {measured.bound:>10.4g}  {verdict:<9} {measured.note}"
    )


def main(asked: list[str]) -> int:
    unknown = [name for name in asked if name not in names()]
    if unknown:
        print(f"bench: {', '.join(unknown)}: not there; there are {', '.join(names())}", file=sys.stderr)
        return 2
    broken = 0
    print(f"{'ratio of what to what':<58} {'ratio':>10} {'at most':>10}")
    for name in asked or names():
        for measured in import_module(f"bench.{name}").measure():
            print(told(measured), flush=True)
            broken += not measured.ratio <= measured.bound
    if broken:
        print(f"bench: {broken} over the bound", file=sys.stderr)
    return int(broken > 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
