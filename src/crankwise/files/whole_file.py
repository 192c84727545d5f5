"""Write a file whole or not at all."""

import os
import tempfile
from pathlib import Path

from crankwise.errors import BadFile


def write_whole(path: str, content: bytes) -> None:
    """Put `content` at `path`, in place of what was there; the old file stays until the new one is whole.

    A link keeps pointing where it does. What is no file that could be kept (a terminal, a pipe) is
    written straight to.
    Raises BadFile when the folder is not there or cannot be written, or the disk is full.
    """
    target = Path(path).resolve()
    if target.is_dir():
        raise BadFile(f"{path}: this is a folder; give the path of a file to write")
    if not target.parent.is_dir():
        raise BadFile(
            f"{path}: the folder {str(Path(path).parent)!r} is not there; make it first, or name another"
        )
    try:
        if target.exists() and not target.is_file():
            target.write_bytes(content)
        else:
            _replace(target, content)
    except OSError as error:
        raise BadFile(
            f"{path}: it cannot be written: {error.strerror or error}; name another place"
        ) from None


def _replace(target: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        # mkstemp makes a file for its owner only; a chart is as readable as any other file.
        beside.chmod(0o666 & ~_mask())
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def _mask() -> int:
    mask = os.umask(0o022)
    os.umask(mask)
    return mask
