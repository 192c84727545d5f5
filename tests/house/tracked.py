"""The files that git tracks, or would at the next commit, read as text."""

import subprocess
from pathlib import Path

HOUSE = Path(__file__).parents[2]


def tracked_files(*patterns: str) -> list[Path]:
    """Return the files of this repository that match git's patterns, ignored ones left out."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", "--", *patterns],
        cwd=HOUSE,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    paths = (HOUSE / name for name in sorted(set(listed.split("\0"))) if name)
    return [path for path in paths if path.is_file()]


def text_of(path: Path) -> str | None:
    """Return what a file says, or None where it is not text."""
    content = path.read_bytes()
    if b"\0" in content:
        return None
    return content.decode("utf-8", errors="replace")


def place(path: Path) -> str:
    """Return where a file is, from the top of the repository."""
    return path.relative_to(HOUSE).as_posix()
