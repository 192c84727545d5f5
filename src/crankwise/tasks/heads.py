"""Read a head file, and check one."""

import os

from crankwise.errors import BadFile
from crankwise.files.head_toml import MOST_BYTES, read_head
from crankwise.head.head import Head


def load_head(path: str) -> Head:
    """Return the head described in a TOML file.

    Raises BadFile when it cannot be opened, FaultsFound with all that is wrong in it.
    """
    name = os.path.basename(path)
    try:
        size = os.stat(path).st_size
        if size > MOST_BYTES:
            raise BadFile(
                f"{name}: {size:,} bytes; a head file is a page of text, {MOST_BYTES:,} bytes at most"
            )
        with open(path, "rb") as file:
            content = file.read()
    except FileNotFoundError:
        raise BadFile(f"{path}: there is no such file; give the path of a head file (TOML)") from None
    except IsADirectoryError:
        raise BadFile(f"{path}: this is a folder; give the path of a head file (TOML)") from None
    except OSError as error:
        if isinstance(error, BadFile):
            raise
        raise BadFile(f"{path}: it cannot be read: {error.strerror or error}") from None
    return read_head(content, name)
