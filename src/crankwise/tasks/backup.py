"""Make a backup of the workshop, in use or not, and say what one holds."""

from pathlib import Path

from crankwise.store.backup import Backup, look_at, make_backup
from crankwise.store.place import store_path


def back_up(out: str, data: str | None = None) -> Backup:
    """Copy the workshop to a file and return what is in the copy.

    out   path of the backup
    data  the folder that holds the workshop; None for the platform's own

    Raises StoreTrouble when there is no workshop or it cannot be read, BadFile when the backup
    cannot be written.
    """
    return make_backup(store_path(data), Path(out))


def look_into_backup(path: str) -> Backup:
    """Return what a backup holds, and leave it as it is. Raises BadFile, StoreTrouble."""
    return look_at(Path(path))
