"""Which door a visitor came in by."""

from urllib.parse import urlsplit

from starlette.types import Scope

COOKIE = "crankwise_phone"
"""What a phone that has joined carries."""

_THIS_COMPUTER = ("127.0.0.1", "::1", "localhost")


def is_at_computer(scope: Scope) -> bool:
    """Return whether a visitor came in by this computer's own address, which nobody else can reach."""
    host = (scope.get("server") or ("",))[0]
    return host in _THIS_COMPUTER


def is_loopback(site: str) -> bool:
    """Return whether an address means the computer that opens it, and so leads a phone nowhere."""
    return urlsplit(site).hostname in _THIS_COMPUTER
