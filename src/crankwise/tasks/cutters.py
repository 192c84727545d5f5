"""Read the list of form cutters owned."""

from pathlib import Path

from crankwise.errors import BadFile
from crankwise.files.cutters_toml import read_cutters
from crankwise.files.toml_text import MOST_BYTES
from crankwise.part.cutters import OwnedCutter


def load_cutters(path: str) -> tuple[OwnedCutter, ...]:
    """Return the cutters listed in a TOML file.

    Raises BadFile when it cannot be opened, FaultsFound with all that is wrong in it.
    """
    try:
        with Path(path).open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise BadFile(
            f"{path}: there is no such file; --cutters takes 8 or 15 for a whole set, or the path of a list (TOML)"
        ) from None
    except IsADirectoryError:
        raise BadFile(f"{path}: this is a folder; give the path of a list of cutters (TOML)") from None
    except OSError as error:
        raise BadFile(f"{path}: it cannot be read: {error.strerror or error}") from None
    return read_cutters(content, Path(path).name)
