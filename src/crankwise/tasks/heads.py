"""Read a head file, and write one."""

import os

from crankwise.files.head_toml import read_head, write_head
from crankwise.files.toml_text import MOST_BYTES
from crankwise.files.typed_file import typed_bytes
from crankwise.head.head import Head


def load_head(path: str) -> Head:
    """Return the head described in a TOML file.

    Raises BadFile when it cannot be opened, FaultsFound with all that is wrong in it.
    """
    content = typed_bytes(path, "a head file", " (TOML)", MOST_BYTES)
    return read_head(content, os.path.basename(path))


def write_head_file(head: Head, path: str) -> None:
    """Write a head file, whole or not at all. Raises BadFile."""
    from crankwise.files.whole_file import write_whole

    write_whole(path, write_head(head).encode())
