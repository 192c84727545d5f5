"""How a phone joins: the code on the computer's page, and what the phone opens by it."""

import time
from typing import Any

from crankwise.draw.code import code_picture
from crankwise.errors import UnknownThing
from crankwise.tasks.joining import Joining, NotLetIn
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.door import COOKIE
from crankwise.web.visit import Visit


def phones(visit: Visit) -> Page:
    """Show the code to scan; only on the computer itself, or whoever is in could let others in."""
    joining = visit.joining
    if joining is None or not visit.is_at_computer:
        return Page("phones.html", {"site": "", "here_only": joining is not None}, {"site": None})
    link = f"{joining.site}/join?code={joining.code(time.time())}"
    values = {
        "site": joining.site,
        "link": link,
        "here_only": False,
        "picture": code_picture(link, f"A code for a phone's camera: {joining.site}"),
    }
    return Page("phones.html", values, {"site": joining.site, "link": link})


def shut_all_out(visit: Visit) -> GoTo:
    """Make every phone join again."""
    if visit.joining is None or not visit.is_at_computer:
        raise UnknownThing("phones: only the workshop's computer can shut phones out")
    visit.joining.shut_all_out()
    return GoTo("/phones", {"joined": 0})


def show(visit: Visit) -> Page:
    """Show the phone what it is about to join. Looking uses nothing up: cameras look at links by themselves."""
    joining = _joining(visit)
    code = visit.query.get("code", "")
    if visit.has_joined:
        return Page("join.html", _shown(has_joined=True), {"joined": True})
    try:
        joining.look_at(code, time.time())
    except NotLetIn as error:
        return _refused(error)
    return Page("join.html", _shown(code), {"joined": False})


def join(visit: Visit) -> Answer:
    """Let the phone in, by a code that is then used up; one that is in stays in, and uses nothing up."""
    joining = _joining(visit)
    if visit.has_joined:
        return GoTo("/", {"joined": True})
    try:
        cookie = joining.join(visit.typed("code"), time.time())
    except NotLetIn as error:
        return _refused(error)
    return GoTo("/", {"joined": True}, {COOKIE: cookie})


def _joining(visit: Visit) -> Joining:
    if visit.joining is None:
        raise UnknownThing("join: phones cannot join here; start the workshop with  crankwise serve --lan")
    return visit.joining


def _refused(error: NotLetIn) -> Page:
    """Say what is wrong with the code and where the next one is, and nothing of the workshop."""
    sentence = str(error)
    return Page("join.html", _shown(wrong=f"{sentence[:1].upper()}{sentence[1:]}."), error=error)


def _shown(code: str = "", wrong: str = "", has_joined: bool = False) -> dict[str, Any]:
    return {"code": code, "wrong": wrong, "has_joined": has_joined}
