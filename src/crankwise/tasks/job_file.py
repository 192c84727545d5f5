"""Job files: one becomes a part with its cards and its head; and what was typed becomes one."""

import os
from dataclasses import dataclass, replace
from pathlib import Path

from crankwise.files.job_toml import AskedPart, Job, read_job, write_job
from crankwise.files.toml_text import MOST_BYTES
from crankwise.files.typed_file import typed_bytes
from crankwise.files.whole_file import write_whole
from crankwise.head.head import Head
from crankwise.tasks.heads import load_head
from crankwise.tasks.jobs import check_names_no_file, made_part, names_no_file
from crankwise.tasks.part_kinds import MadePart


@dataclass(frozen=True, slots=True)
class LoadedJob:
    """A job file that was read: what it says, the part that it makes, and its head where it names one."""

    job: Job
    made: MadePart
    head: Head | None


def load_job(path: str, with_head: bool = True) -> LoadedJob:
    """Return the job kept in a file; the files that it names are sought from the folder it lies in.

    with_head  whether the head that it names is read too

    Raises BadFile when it or a file that it names cannot be opened, FaultsFound with all that is wrong in it.
    """
    content = typed_bytes(path, "a job file", " (TOML)", MOST_BYTES)
    place = Path(path)
    job = read_job(content, place.name)
    head = job.head
    if isinstance(head, str):
        head = load_head(str(place.parent / head)) if with_head else None
    job = replace(job, part=_with_paths_from(job.part, place.parent))
    return LoadedJob(job, made_part(job, content.decode("utf-8-sig"), place.name), head)


def take_job(content: bytes | str, source: str = "") -> LoadedJob:
    """Return the job that a text brought from elsewhere describes. No other file is opened for it, whatever it names.

    source  the file's name, for the errors' sentences

    Raises FaultsFound with all that is wrong in it.
    """
    job = read_job(content, source)
    text = content if isinstance(content, str) else content.decode("utf-8-sig")
    check_names_no_file(job, text, source)
    head = job.head if isinstance(job.head, Head) else None
    return LoadedJob(replace(job, head=head), made_part(job, text, source), head)


def write_job_file(path: str, job: Job) -> None:
    """Write a job file whole or not at all. Raises BadFile.

    job  its paths as they are from here; the file names them from its own folder
    """
    folder = Path(path).resolve().parent
    if isinstance(job.head, str):
        job = replace(job, head=_path_from(folder, job.head))
    if not names_no_file(job.part):
        typed = tuple(
            (key, _path_from(folder, text) if key == "cutters" else text) for key, text in job.part.typed
        )
        job = replace(job, part=replace(job.part, typed=typed))
    write_whole(path, write_job(job).encode())


def _path_from(folder: Path, path: str) -> str:
    try:
        return Path(os.path.relpath(Path(path).resolve(), folder)).as_posix()
    except ValueError:  # on another drive
        return Path(path).resolve().as_posix()


def _with_paths_from(part: AskedPart, folder: Path) -> AskedPart:
    if names_no_file(part):
        return part
    typed = tuple((key, str(folder / text) if key == "cutters" else text) for key, text in part.typed)
    return replace(part, typed=typed)
