"""Describe a head: by a form, or as a file, on one page."""

from collections.abc import Mapping
from dataclasses import replace

from crankwise.errors import Fault, FaultsFound, Mendable
from crankwise.files.head_toml import write_head
from crankwise.tasks.workshop import KeptHead
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.head_fields import (
    FIELDS,
    field_of,
    filled_fields,
    form_holds,
    head_toml,
    with_calibrations,
    without_lines,
)
from crankwise.web.head_labels import told_at_its_field
from crankwise.web.objects import head_object
from crankwise.web.pages.head_drawing import drawing
from crankwise.web.visit import Visit
from crankwise.wording.error_sizes import SIZE_GROUPS

FILE_ONLY = (
    "this head has parts that the form does not know, and the form would lose them; change it as a file"
)


def show_new(visit: Visit) -> Page:
    """Show an empty form."""
    del visit
    return _page(None, dict.fromkeys(FIELDS, ""), "")


def show_edit(visit: Visit) -> Page:
    """Show the form of a head, filled in."""
    kept = visit.workshop.head(visit.id("head_id"))
    return _page(kept, filled_fields(kept.head), write_head(kept.head))


def keep_new(visit: Visit) -> Answer:
    """Keep a new head."""
    return _keep(visit, None)


def keep_edit(visit: Visit) -> Answer:
    """Keep a head that was changed."""
    return _keep(visit, visit.workshop.head(visit.id("head_id")))


def _keep(visit: Visit, kept: KeptHead | None) -> Answer:
    as_file = visit.form.get("as") == "file"
    text = visit.form.get("toml", "") if as_file else _told(visit, kept)
    before = filled_fields(kept.head) if kept else dict.fromkeys(FIELDS, "")
    filled = before if as_file else {name: visit.form.get(name, "") for name in FIELDS}
    shown_text = text if as_file else (write_head(kept.head) if kept else "")
    if "draw" in visit.form:
        return _page(kept, filled, shown_text, as_file=as_file)
    try:
        if kept and not as_file and not form_holds(kept.head):
            raise FaultsFound([Fault("", FILE_ONLY)])
        now = visit.workshop.keep_head(text, kept.id if kept else None)
    except FaultsFound as error:
        return _page(kept, filled, shown_text, error if as_file else without_lines(error), as_file)
    except Mendable as error:
        return _page(kept, filled, shown_text, error, as_file)
    return GoTo(f"/heads/{now.id}", head_object(now))


def _told(visit: Visit, kept: KeptHead | None) -> str:
    return with_calibrations(head_toml(visit.form), kept.head if kept else None)


def _page(
    kept: KeptHead | None,
    filled: Mapping[str, str],
    toml: str,
    error: Mendable | None = None,
    as_file: bool = False,
) -> Page:
    faults = error.faults if isinstance(error, FaultsFound) else ()
    told = Fault.told if as_file else told_at_its_field
    sentences = [told(fault) for fault in faults] if faults else [str(error)] if error else []
    file_only = kept is not None and not form_holds(kept.head)
    as_file = as_file or file_only
    drawn = drawing({"as": "file", "toml": toml} if as_file else filled)
    values = {
        "kept": kept,
        "filled": filled,
        "size_groups": SIZE_GROUPS,
        "toml": toml,
        "as_file": as_file,
        "file_only": FILE_ONLY if file_only else "",
        "sentences": sentences,
        "wrong": {} if as_file else {field_of(fault.place): fault.message for fault in faults},
        # What is wrong is told above the form already.
        "drawing": replace(drawn, sentences=()) if sentences else drawn,
    }
    return Page("head_form.html", values, {"head": head_object(kept) if kept else None}, error=error)
