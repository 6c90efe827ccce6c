"""The passphrase: compared in constant time, and few guesses a minute from one address."""

from __future__ import annotations

import asyncio
import base64
import binascii
import hashlib
import hmac
import time
from collections.abc import Awaitable, Callable
from enum import Enum

# Our choices: a person mistypes less often, a program that guesses more.
FREE_GUESSES = 8  # wrong answers from one address that are looked at at once
SECONDS_A_GUESS = 3.0  # each later answer waits until one more is allowed
MOST_WAITING = (
    10  # answers of one address that wait; so nobody waits longer than ten such turns
)
_MOST_ADDRESSES = 1000  # remembered at once, so that memory stays small
_LONGEST_HEADER = 1024  # characters of an `Authorization` header that are looked at


class Decision(Enum):
    """What becomes of a request: read, give the passphrase first, come again later."""

    ALLOWED = "allowed"
    UNAUTHORIZED = "unauthorized"
    TOO_MANY = "too many"


class AccessControl:
    """Lets those read who know the passphrase; without one, everybody.

    Wrong answers slow an address down, right ones do not. Somebody who shares the address of a
    guesser waits for a turn, and is then let in: the right passphrase is never refused for what
    came before it.
    """

    def __init__(
        self,
        passphrase: str = "",
        clock: Callable[[], float] = time.monotonic,
        sleep: Callable[[float], Awaitable[object]] = asyncio.sleep,
    ) -> None:
        """Ask for `passphrase`; `clock` tells seconds and `sleep` waits for some."""
        self._digest = _digest(passphrase) if passphrase else b""
        self._clock = clock
        self._sleep = sleep
        # Per address: the moment at which all its guesses so far are paid off.
        self._paid_off: dict[str, float] = {}

    async def decide(self, address: str, authorization: str) -> Decision:
        """Return whether a request may read; an answer after many wrong ones waits its turn.

        Args:
            address: where the request comes from.
            authorization: its `Authorization` header, empty without one.
        """
        if not self._digest:
            return Decision.ALLOWED
        if not authorization:
            return Decision.UNAUTHORIZED
        wait_s = self._wait_s(address)
        if wait_s > MOST_WAITING * SECONDS_A_GUESS:
            return Decision.TOO_MANY
        self._charge(address)
        if wait_s > 0:
            await self._sleep(wait_s)
        if not hmac.compare_digest(_digest(_passphrase(authorization)), self._digest):
            return Decision.UNAUTHORIZED
        self._refund(address)
        return Decision.ALLOWED

    def _wait_s(self, address: str) -> float:
        """Return how long an answer from an address waits until it is looked at [s]."""
        owed = self._paid_off.get(address, 0.0) - self._clock()
        return max(0.0, owed - (FREE_GUESSES - 1) * SECONDS_A_GUESS)

    def _charge(self, address: str) -> None:
        paid_off = max(self._paid_off.pop(address, 0.0), self._clock()) + SECONDS_A_GUESS
        self._paid_off[address] = paid_off
        while len(self._paid_off) > _MOST_ADDRESSES:
            del self._paid_off[next(iter(self._paid_off))]

    def _refund(self, address: str) -> None:
        if address in self._paid_off:
            self._paid_off[address] -= SECONDS_A_GUESS


def _digest(passphrase: str) -> bytes:
    # Hashed first, so that a comparison takes as long for a short guess as for a long one.
    return hashlib.sha256(passphrase.encode("utf-8", "surrogatepass")).digest()


def _passphrase(authorization: str) -> str:
    """Return the passphrase of an HTTP Basic answer (RFC 7617), whatever the name before it."""
    scheme, _, encoded = authorization[:_LONGEST_HEADER].partition(" ")
    if scheme.lower() != "basic":
        return ""
    try:
        credentials = base64.b64decode(encoded.strip(), validate=True).decode("utf-8")
    except (binascii.Error, ValueError):
        return ""
    return credentials.partition(":")[2]
