"""How a phone joins: the code on the computer's page, and what the phone opens by it."""

import time

from crankwise.draw.code import code_picture
from crankwise.errors import UnknownThing
from crankwise.web.answers import GoTo, Page
from crankwise.web.guard import COOKIE
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
    return Page("join.html", {"code": visit.query.get("code", "")}, {})


def join(visit: Visit) -> GoTo:
    """Let the phone in, by a code that is then used up."""
    if visit.joining is None:
        raise UnknownThing("join: phones cannot join here; start the workshop with  crankwise serve --lan")
    return GoTo("/", {"joined": True}, {COOKIE: visit.joining.join(visit.typed("code"), time.time())})
