"""A job as it was asked becomes a part with its cards; what is wrong is told at its place in the job."""

import re
from dataclasses import replace

from crankwise.errors import BadInput, Fault, FaultsFound, Mendable
from crankwise.exact.length import read_diameter
from crankwise.files.job_keys import PART_KEYS
from crankwise.files.job_toml import AskedPart, Job
from crankwise.files.toml_lines import line_of
from crankwise.head.head import Head
from crankwise.part.part import Part, Work
from crankwise.tasks.divide import Division, divide, read_within
from crankwise.tasks.part_kinds import MadePart, made_of
from crankwise.wording.cautions import cautions
from crankwise.wording.fields import options_as_fields
from crankwise.wording.gear import PIN_NEEDS_A_PLATE

_SETS_OF_CUTTERS = ("", "8", "15")
_OWN_WORK = ("divisions", "list")
"""The kinds that do not say by themselves what is made at a position."""
_KEYS_BY_NAME = {
    "thinning": ("thin",),
    "divisions": ("count", "lines", "teeth"),
    "angle": ("angles",),
    "angle_of_the_list": ("angles",),
    "list": ("angles",),
    "flats": ("count",),
    "flat": ("unequal",),
    "size": ("across_flats",),
    "classes_width": ("classes",),
    "classes_depth": ("classes",),
    "formula": ("law",),
    "dp_and_module": ("module",),
    "module_and_dp": ("dp", "module"),
}
"""What a sentence calls a value, where that is not its key."""


def made_part(job: Job, text: str = "", source: str = "") -> MadePart:
    """Return the part that a job asks for, its rim and its work as the job says.

    text, source  the job file and its name, so that a fault tells its line

    Raises FaultsFound with the place of each fault.
    """
    try:
        made = made_of(job.part.kind, job.part.values)
        part = _as_asked(made.part, job)
        told = made.cautions or cautions(part.work, len(part.divisions), job.part.kind)
        return replace(made, part=part, cautions=told)
    except Mendable as error:
        faults = [
            replace(fault, line=line_of(text, fault.place) if text else None)
            for fault in _placed(error, job.part.kind)
        ]
        raise FaultsFound(faults, source) from None


def names_no_file(part: AskedPart) -> bool:
    """Return whether a part can be made without opening a file, as its list of cutters."""
    return part.values.get("cutters", "").strip() in _SETS_OF_CUTTERS


def check_names_no_file(job: Job, text: str = "", source: str = "") -> None:
    """Raise FaultsFound when a job that comes from elsewhere would have a file opened here."""
    if not names_no_file(job.part):
        told = "the path of a file, which does not come with the job; write 8 or 15, or leave it out"
        line = line_of(text, "part.cutters") if text else None
        raise FaultsFound([Fault("part.cutters", told, line)], source)


def divided(head: Head, made: MadePart, within: str = "", corrected: bool = False) -> Division:
    """Return every way that this work leaves to divide the part on this head, the best first. Raises Mendable.

    corrected  whether settings are corrected for the head's known errors
    """
    division = replace(divide(head, made.part, within or None, corrected), methods=made.methods)
    left = division.left_of(division.ways)
    why_none = PIN_NEEDS_A_PLATE.format(name=head.name) if division.ways and not left else ""
    return replace(division, ways=left, why_none=why_none)


def ways_for(job: Job, head: Head, made: MadePart) -> Division:
    """Return the ways that a job chooses among: corrected ones where it names one of those. Raises Mendable."""
    return divided(head, made, job.within, corrected=":corrected=" in job.way)


def _as_asked(part: Part, job: Job) -> Part:
    if job.rim and part.is_straight:
        told = f"{job.rim}; this is cut along a slide and has no rim; its errors are lengths anyway; leave it out"
        raise FaultsFound([Fault("rim", told)])
    if job.rim:
        part = replace(part, rim_mm=read_diameter(job.rim, "rim"))
    if job.work and job.work != part.work:
        if job.part.kind not in _OWN_WORK:
            told = f"{job.work}; this kind of part says itself what is made there: {part.work}; leave it out"
            raise FaultsFound([Fault("work", told)])
        work: Work = job.work  # type: ignore[assignment]  # the file's reader lets nothing else in
        part = replace(part, work=work)
    if job.within:
        read_within(part, job.within)  # so that a bad one is told with all else
    return part


def _placed(error: Mendable, kind: str) -> list[Fault]:
    """Return what is wrong with a part, each fault at the key of the job file that it is about."""
    if isinstance(error, FaultsFound):
        return [_at_key(fault.place, fault.message, kind) for fault in error.faults]
    if isinstance(error, BadInput):
        return [_at_key(error.place, error.message, kind)]
    return [_at_key("", str(error), kind)]


def _at_key(name: str, message: str, kind: str) -> Fault:
    plain = options_as_fields(message)
    whole = _place(name, kind)
    place = whole or _place(re.split("[,:]", name)[0], kind)
    # What a key does not say stays in the sentence: which one of a list, which half of a pair.
    says_all = whole and not any(map(str.isdigit, name))
    return Fault(place or "part", plain if says_all or not name else f"{name}: {plain}")


def _place(name: str, kind: str) -> str:
    """Return the place in a job file of what a sentence calls by a name; empty where there is none."""
    plain = re.sub(r"[^a-z]+", "_", name.lower()).strip("_")
    keys = PART_KEYS[kind].all
    found = next((key for key in (plain, *_KEYS_BY_NAME.get(plain, ())) if key in keys), "")
    if found:
        return f"part.{found}"
    return plain if plain in ("rim", "within", "work") else ""
