"""Read the list of form cutters owned."""

from pathlib import Path

from crankwise.files.cutters_toml import read_cutters
from crankwise.files.toml_text import MOST_BYTES
from crankwise.files.typed_file import typed_bytes
from crankwise.part.cutters import OwnedCutter


def load_cutters(path: str) -> tuple[OwnedCutter, ...]:
    """Return the cutters listed in a TOML file.

    Raises BadFile when it cannot be opened, FaultsFound with all that is wrong in it.
    """
    missing = "--cutters takes 8 or 15 for a whole set, or the path of a list (TOML)"
    content = typed_bytes(path, "a list of cutters", " (TOML)", MOST_BYTES, missing=missing)
    return read_cutters(content, Path(path).name)
