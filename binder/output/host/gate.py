"""The passphrase: compared in constant time, with few guesses a minute."""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import time
from collections.abc import Callable
from enum import Enum

MOST_GUESSES = (
    8  # a minute from one address: our choice; a person mistypes less, a program more
)
WINDOW_S = 60.0
_MOST_ADDRESSES = 1000  # remembered at once, so that memory stays small
_LONGEST = 1024  # signs of an answer that are looked at


class Verdict(Enum):
    """What the gate says: come in, who is there, wait."""

    IN = "in"
    ASK = "ask"
    WAIT = "wait"


class Gate:
    """Lets in whoever knows the passphrase; without one, everybody."""

    def __init__(
        self, passphrase: str = "", clock: Callable[[], float] = time.monotonic
    ) -> None:
        """Guard with `passphrase`; `clock` tells seconds."""
        self._seal = _seal(passphrase) if passphrase else b""
        self._clock = clock
        self._misses: dict[str, list[float]] = {}

    def judge(self, address: str, answer: str) -> Verdict:
        """Return whether a request may pass.

        Args:
            address: where it comes from.
            answer: its `Authorization` header, empty without one.
        """
        if not self._seal:
            return Verdict.IN
        if self.waits(address):
            return Verdict.WAIT
        if not answer:
            return Verdict.ASK
        if hmac.compare_digest(_seal(_passphrase(answer)), self._seal):
            return Verdict.IN
        self._miss(address)
        return Verdict.ASK

    def waits(self, address: str) -> bool:
        """Return whether an address has guessed too often."""
        return len(self._recent(address)) >= MOST_GUESSES

    def _recent(self, address: str) -> list[float]:
        since = self._clock() - WINDOW_S
        return [moment for moment in self._misses.get(address, ()) if moment > since]

    def _miss(self, address: str) -> None:
        recent = [*self._recent(address), self._clock()]
        self._misses.pop(address, None)
        self._misses[address] = recent
        while len(self._misses) > _MOST_ADDRESSES:
            del self._misses[next(iter(self._misses))]


def _seal(passphrase: str) -> bytes:
    # Sealed first, so that a comparison takes as long for a short guess as for a long one.
    return hashlib.sha256(passphrase.encode("utf-8", "surrogatepass")).digest()


def _passphrase(answer: str) -> str:
    """Return the passphrase of an HTTP Basic answer (RFC 7617), whatever the name before it."""
    scheme, _, coded = answer[:_LONGEST].partition(" ")
    if scheme.lower() != "basic":
        return ""
    try:
        text = base64.b64decode(coded.strip(), validate=True).decode("utf-8")
    except (binascii.Error, ValueError):
        return ""
    return text.partition(":")[2]
