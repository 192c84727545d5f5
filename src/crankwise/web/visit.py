"""What a visitor asked, read once: a page sees texts, never the wire."""

from collections.abc import Mapping
from dataclasses import dataclass

from starlette.datastructures import UploadFile
from starlette.requests import Request

from crankwise.errors import UnknownThing
from crankwise.tasks.joining import Joining
from crankwise.tasks.workshop import Workshop
from crankwise.web.door import COOKIE, is_at_computer, is_loopback
from crankwise.web.preferences import Preferences, read_preferences

_MOST_DIGITS = 15


@dataclass(frozen=True, slots=True)
class Visit:
    """One request.

    address      its path
    ids          the numbers in its path, by name
    query, form  what was asked and sent, as texts; the last of a name that comes twice
    upload       the bytes of the file that was sent with the form, and its name
    sent_json    the body, where JSON was sent in place of a form
    joining      how phones on the network come in; None where they do not
    has_joined   whether the visitor is a phone that has joined
    is_at_computer  whether the visitor sits at the workshop's own computer
    site         the address that the visitor's browser opened, as http://shed.local:8127
    wants_json   whether the answer is for a program
    is_fragment  whether only the changing part of the page is wanted, by our own script
    seen         the mark of the answer that the visitor has already (If-None-Match)
    """

    workshop: Workshop
    address: str
    ids: Mapping[str, int]
    query: Mapping[str, str]
    form: Mapping[str, str]
    preferences: Preferences
    wants_json: bool = False
    is_fragment: bool = False
    seen: str = ""
    upload: bytes | None = None
    upload_name: str = ""
    sent_json: bytes | None = None
    joining: Joining | None = None
    has_joined: bool = False
    is_at_computer: bool = True
    site: str = ""

    def id(self, name: str) -> int:
        """Return the number of a thing named in the address."""
        return self.ids[name]

    @property
    def phone_site(self) -> str:
        """Where a phone finds the workshop; empty where it only answers this computer."""
        if self.joining is not None:
            return self.joining.site
        return "" if is_loopback(self.site) else self.site

    def typed(self, name: str) -> str:
        """Return what was typed in a field, without the space round it."""
        return self.form.get(name, "").strip()


def wants_json(request: Request) -> bool:
    """Return whether the answer is for a program: ?json, an address in .json, or JSON accepted and HTML not."""
    if request.url.path.endswith(".json"):
        return True
    accepted = request.headers.get("accept", "")
    return "json" in request.query_params or ("application/json" in accepted and "text/html" not in accepted)


async def read_visit(request: Request) -> Visit:
    """Return the visit that a request makes, its body read. Raises UnknownThing, HTTPException."""
    form: dict[str, str] = {}
    upload: bytes | None = None
    upload_name = ""
    sent_json: bytes | None = None
    if request.method == "POST" and request.headers.get("content-type", "").startswith("application/json"):
        sent_json = await request.body()
    elif request.method == "POST":
        async with request.form(max_files=1, max_fields=100) as sent:
            for name, value in sent.multi_items():
                if isinstance(value, UploadFile):
                    upload, upload_name = await value.read(), value.filename or ""
                else:
                    form[name] = value
    joining = request.app.state.joining
    return Visit(
        workshop=request.app.state.workshop,
        address=request.url.path,
        ids={name: number_of(name, text) for name, text in request.path_params.items()},
        query=dict(request.query_params),
        form=form,
        preferences=read_preferences(request.cookies),
        wants_json=wants_json(request),
        is_fragment="x-fragment" in request.headers,
        seen=request.headers.get("if-none-match", ""),
        upload=upload,
        upload_name=upload_name,
        sent_json=sent_json,
        joining=joining,
        has_joined=joining is not None and joining.knows(request.cookies.get(COOKIE, "")),
        is_at_computer=is_at_computer(request.scope),
        site=f"{request.url.scheme}://{request.url.netloc}",
    )


def number_of(name: str, text: str) -> int:
    """Return the number in an address; one that no store could hold is simply not there."""
    if not text.isascii() or not text.isdecimal() or len(text) > _MOST_DIGITS:
        raise UnknownThing(
            f"{name.removesuffix('_id')} {text[:40]!r}: there is no such {name.removesuffix('_id')}"
        )
    return int(text)
