"""Who may come in over the shop's network: a key, the codes that are still good, the address.

One small file beside the store, for its owner's eyes only. Nobody's name is in it: a phone that has
joined carries a cookie signed with the key, so a new key shuts all of them out at once.
"""

import json
import os
import tempfile
from dataclasses import asdict, dataclass, field
from pathlib import Path

from crankwise.errors import StoreTrouble

FILE_NAME = "phones.json"
FORMAT = 1


@dataclass(frozen=True, slots=True)
class Phones:
    """What is kept.

    key      secret text with which cookies are signed
    codes    codes that have been shown and not used, each by its digest, with the time it ends at
    address  where the workshop was last found on the network; empty before the first time
    port     the same; 0 before the first time
    """

    key: str
    codes: dict[str, float] = field(default_factory=dict)
    address: str = ""
    port: int = 0


def read_phones(folder: Path) -> Phones | None:
    """Return what is kept beside the store in a folder; None where nothing is. Raises StoreTrouble."""
    path = folder / FILE_NAME
    try:
        kept = json.loads(path.read_text(encoding="utf-8"))
        if kept.pop("format") != FORMAT:
            raise ValueError
        return Phones(**kept)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise StoreTrouble(f"{path}: it cannot be read: {error.strerror or error}") from None
    except (ValueError, TypeError, KeyError, AttributeError):
        raise StoreTrouble(
            f"{path}: this is not a file of ours, or a damaged one; take it away, and phones join again"
        ) from None


def write_phones(folder: Path, phones: Phones) -> None:
    """Keep it, readable by its owner alone. Raises StoreTrouble."""
    path = folder / FILE_NAME
    try:
        handle, name = tempfile.mkstemp(dir=folder, prefix=f".{FILE_NAME}.")  # made for its owner only
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                json.dump({"format": FORMAT} | asdict(phones), file)
                file.flush()
                os.fsync(file.fileno())
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise StoreTrouble(f"{path}: it cannot be written: {error.strerror or error}") from None
