"""Where the store is: the folder that the platform keeps for a program's data, or one that was named."""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

FILE_NAME = "workshop.sqlite"


def store_path(data: str | None = None) -> Path:
    """Return the path of the store's file.

    data  the folder that was named, as by --data; None for the platform's own
    """
    return (Path(data) if data else data_folder()) / FILE_NAME


def data_folder(
    platform: str = sys.platform, environment: Mapping[str, str] = os.environ, home: Path | None = None
) -> Path:
    """Return the folder for our data: each platform's own convention. A relative setting is not followed."""
    home = home or Path.home()
    if platform == "darwin":
        return home / "Library" / "Application Support" / "crankwise"
    variable, fallback = (
        ("APPDATA", home / "AppData" / "Roaming")
        if platform == "win32"
        else ("XDG_DATA_HOME", home / ".local" / "share")
    )
    named = Path(environment.get(variable, ""))
    return (named if named.is_absolute() else fallback) / "crankwise"
