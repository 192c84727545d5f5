"""Let phones on the shop's network in: a code that is good once, then a cookie."""

import hmac
import secrets
import threading
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from crankwise.errors import Mendable
from crankwise.store.phones import Phones, read_phones, write_phones

GOOD_FOR = 600.0
"""Seconds that a code is good for: long enough to fetch the phone from the bench."""

SHOWN_FOR = 300.0
"""Seconds after which the computer shows a fresh code, so that the one on its screen is always good."""

MOST_CODES = 50


USED = "this code has let a phone in and is used up"
TOO_OLD = "this code is too old, and lets nobody in any more"
USED_OR_TOO_OLD = "this code is used or too old, and lets nobody in"
NEXT = "{why}; scan the one that the workshop's computer shows now"


class NotLetIn(Mendable):
    """A code that lets nobody in: used, too old, or never ours."""


class Joining:
    """The door for phones. Any number of threads may use it at once.

    folder  where the store lies; the key and the open codes are kept beside it
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock = threading.Lock()
        self._phones = read_phones(folder) or Phones(secrets.token_hex(32))
        self._shown: tuple[str, float] | None = None
        self._used: dict[str, float] = {}

    @property
    def address(self) -> str:
        """The address of this computer where phones last found it; empty before the first time."""
        return self._phones.address

    @property
    def port(self) -> int:
        """The port where phones last found it; 0 before the first time."""
        return self._phones.port

    @property
    def host(self) -> str:
        """The address as it stands in a browser's line: one with colons in brackets."""
        return f"[{self.address}]" if ":" in self.address else self.address

    @property
    def site(self) -> str:
        """What a phone's browser opens."""
        return f"http://{self.host}:{self.port}"

    def found_at(self, address: str, port: int) -> None:
        """Keep where phones find the workshop, so that it is sought there again. Raises StoreTrouble."""
        with self._lock:
            self._keep(replace(self._phones, address=address, port=port))

    def code(self, now: float) -> str:
        """Return a code to show on the computer's screen, good for one phone. Raises StoreTrouble.

        now  seconds since 1970
        """
        with self._lock:
            if (
                self._shown
                and now - self._shown[1] < SHOWN_FOR
                and _digest(self._shown[0]) in self._phones.codes
            ):
                return self._shown[0]
            code = secrets.token_urlsafe(16)
            good = {digest: ends for digest, ends in self._phones.codes.items() if ends > now}
            newest = dict(list(good.items())[-MOST_CODES + 1 :])
            self._keep(replace(self._phones, codes=newest | {_digest(code): now + GOOD_FOR}))
            self._shown = (code, now)
            return code

    def look_at(self, code: str, now: float) -> None:
        """Raise NotLetIn when a code would let nobody in. Looking uses nothing up."""
        with self._lock:
            self._check(code, now)

    def join(self, code: str, now: float) -> str:
        """Use a code up and return the cookie of the phone that had it. Raises NotLetIn, StoreTrouble."""
        with self._lock:
            self._check(code, now)
            codes = dict(self._phones.codes)
            ends = codes.pop(_digest(code))
            self._keep(replace(self._phones, codes=codes))  # used up before anybody is let in
            newest = dict(list(self._used.items())[-MOST_CODES + 1 :])
            self._used = newest | {_digest(code): ends}
            phone = secrets.token_urlsafe(9)
            return f"{phone}.{self._signed(phone)}"

    def knows(self, cookie: str) -> bool:
        """Return whether a cookie is that of a phone which has joined."""
        phone, _, signature = cookie.partition(".")
        return hmac.compare_digest(signature.encode(), self._signed(phone).encode())

    def shut_all_out(self) -> None:
        """Make every phone join again. Raises StoreTrouble."""
        with self._lock:
            self._keep(replace(self._phones, key=secrets.token_hex(32), codes={}))
            self._shown = None

    def _check(self, code: str, now: float) -> None:
        digest = _digest(code)
        ends = self._phones.codes.get(digest)
        if ends is None or ends <= now:
            why = USED if digest in self._used else USED_OR_TOO_OLD if ends is None else TOO_OLD
            raise NotLetIn(NEXT.format(why=why))

    def _signed(self, phone: str) -> str:
        return hmac.new(self._phones.key.encode(), phone.encode(), sha256).hexdigest()

    def _keep(self, phones: Phones) -> None:
        write_phones(self._folder, phones)
        self._phones = phones


def _digest(code: str) -> str:
    return sha256(code.encode()).hexdigest()
