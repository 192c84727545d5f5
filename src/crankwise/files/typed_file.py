"""Read a small file that a person named: whole, or a sentence that says why not.

One place for all such files, so that each is refused in the same words and none is ever cut short:
half a number is a wrong number. A cold command reads its head here, so pathlib is not loaded.
"""

import os

from crankwise.errors import BadFile, Fault, FaultsFound


def typed_bytes(
    path: str, what: str, form: str, most: int, length: str = "a page of text", missing: str = ""
) -> bytes:
    """Return the whole of a file.

    path     as typed
    what     what kind of file it is: "a head file"
    form     how it is written, after `what`: " (TOML)"
    most     bytes it has at most
    length   how long such a file is, for the sentence on one that is too long
    missing  what to do where there is no such file, where "give its path" does not say enough

    Raises BadFile when it is not there, is a folder, is too long or cannot be read.
    """
    try:
        with open(path, "rb") as file:
            content = file.read(most + 1)
            size = max(os.fstat(file.fileno()).st_size, len(content))
    except FileNotFoundError:
        raise BadFile(
            f"{path}: there is no such file; {missing or f'give the path of {what}{form}'}"
        ) from None
    except IsADirectoryError:
        raise BadFile(f"{path}: this is a folder; give the path of {what}{form}") from None
    except (OSError, ValueError) as error:
        raise BadFile(f"{path}: it cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if len(content) > most:
        raise BadFile(f"{os.path.basename(path)}: {size:,} bytes; {what} is {length}, {most:,} bytes at most")
    return content


def typed_text(
    path: str, what: str, form: str, most: int, length: str = "a page of text", missing: str = ""
) -> str:
    """Return the whole of a text file in UTF-8, without the mark that some editors put first.

    Raises BadFile as `typed_bytes` does, and with the line where the file is no UTF-8.
    """
    content = typed_bytes(path, what, form, most, length, missing)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        name = os.path.basename(path)
        raise BadFile(f"{name}, line {line}: this is not text in UTF-8; save it again as UTF-8") from None


def utf8_text(content: bytes, source: str) -> str:
    """Return the text of a file's bytes, without the mark that some editors put first.

    source  the file's name, for the error's sentence

    Raises FaultsFound with the line where it is no UTF-8.
    """
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        told = "this is not UTF-8 text; save the file with the encoding UTF-8"
        raise FaultsFound([Fault("", told, line)], source) from None
