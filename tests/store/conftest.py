"""What several tests of the store need."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

NOBODY = 65534


@pytest.fixture
def folder_of_an_ordinary_user() -> Iterator[Path]:
    """Give a folder, as a user for whom a file's permissions hold: they mean nothing to the superuser."""
    if os.geteuid() != 0:
        with tempfile.TemporaryDirectory() as name:
            yield Path(name)
            return
    folder = Path(tempfile.mkdtemp())
    os.chown(folder, NOBODY, NOBODY)
    os.seteuid(NOBODY)
    try:
        yield folder
    finally:
        os.seteuid(0)
        shutil.rmtree(folder)
