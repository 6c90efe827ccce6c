"""Connections within limits: too slow, too large or too many, and they are closed.

uvicorn limits how long a connection may rest after an answer, not how long a request may take
to arrive, nor who holds how many connections. Somebody who opens a thousand and says nothing
would keep everybody else out.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Protocol

from uvicorn.protocols.http.auto import AutoHTTPProtocol

if TYPE_CHECKING:
    import asyncio

CHECK_EVERY_S = 1
_TOO_LARGE = (
    b"HTTP/1.1 431 Request Header Fields Too Large\r\n"
    b"content-length: 0\r\nconnection: close\r\n\r\n"
)


class Closable(Protocol):
    """What can be counted and closed."""

    address: str

    def drop(self) -> None:
        """Close at once."""


@dataclass(frozen=True, slots=True)
class Limits:
    """How much one may ask of the host: all our choice.

    Attributes:
        total: connections at once.
        per_address: connections at once from one address; a browser opens six, and a router
            may hide a household of them behind one address.
        request_s: how long a request may take to arrive, from the opening of the connection or
            from the last answer [s]; a resting connection ends by it too.
        answer_s: how long an answer may take until it is handed over [s]: a phone file on a
            weak signal.
        request_bytes: how long a request may be.
    """

    total: int = 1000
    per_address: int = 64
    request_s: float = 15.0
    answer_s: float = 180.0
    request_bytes: int = 32_768


@dataclass(slots=True)
class _Held:
    """The connections of one address: since when each waits for a request, or is answered."""

    waiting: dict[Closable, float] = field(default_factory=dict)
    answering: dict[Closable, float] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self.waiting) + len(self.answering)


class Connections:
    """All open connections. Where there are too many, the longest at rest is closed.

    So whoever asks is let in, and whoever only holds connections loses them.
    """

    def __init__(
        self, limits: Limits | None = None, clock: Callable[[], float] = time.monotonic
    ) -> None:
        """Keep within `limits`; `clock` tells seconds."""
        self.limits = limits or Limits()
        self._clock = clock
        self._by_address: dict[str, _Held] = {}
        self._waiting: dict[Closable, None] = {}  # of all addresses, the longest first
        self._open = 0

    def __len__(self) -> int:
        """Return how many are open."""
        return self._open

    def opened(self, connection: Closable) -> None:
        """Count a connection; if it is too many, close the longest at rest, else this one."""
        held = self._by_address.get(connection.address, _Held())
        surplus: Closable | None = None
        if len(held) >= self.limits.per_address:
            surplus = next(iter(held.waiting), connection)
        elif self._open >= self.limits.total:
            surplus = next(iter(self._waiting), connection)
        if surplus is not None:
            self._drop(surplus)
        if surplus is not connection:
            held = self._by_address.setdefault(connection.address, _Held())
            held.waiting[connection] = self._clock()
            self._waiting[connection] = None
            self._open += 1

    def closed(self, connection: Closable) -> None:
        """Forget a connection, also one that is forgotten already."""
        held = self._by_address.get(connection.address)
        if held is None:
            return
        before = len(held)
        for group in (held.waiting, held.answering, self._waiting):
            group.pop(connection, None)
        self._open -= before - len(held)
        if not len(held):
            del self._by_address[connection.address]

    def asked(self, connection: Closable) -> None:
        """Note that a request has arrived and is being answered."""
        held = self._by_address.get(connection.address)
        if held is not None and held.waiting.pop(connection, None) is not None:
            del self._waiting[connection]
            held.answering[connection] = self._clock()

    def answered(self, connection: Closable) -> None:
        """Note that an answer was handed over, and the next request is waited for."""
        held = self._by_address.get(connection.address)
        if held is not None and held.answering.pop(connection, None) is not None:
            self._waiting[connection] = None
            held.waiting[connection] = self._clock()

    async def close_late_ones(self) -> None:
        """Close what has waited, or has been answered, for too long."""
        now = self._clock()
        request_s, answer_s = self.limits.request_s, self.limits.answer_s
        late: list[Closable] = []
        for held in self._by_address.values():
            for group, most_s in ((held.waiting, request_s), (held.answering, answer_s)):
                late += (open_ for open_, since in group.items() if now - since > most_s)
        for connection in late:
            self._drop(connection)

    def _drop(self, connection: Closable) -> None:
        connection.drop()
        self.closed(connection)


class _Connection(AutoHTTPProtocol):  # type: ignore[misc, valid-type]
    """One connection of uvicorn, counted and kept within the limits."""

    counted: ClassVar[Connections]
    address = ""
    _received = 0  # bytes since the last answer

    def connection_made(self, transport: asyncio.Transport) -> None:
        super().connection_made(transport)
        self.address = self.client[0] if self.client else ""
        self.counted.opened(self)

    def connection_lost(self, exc: Exception | None) -> None:
        self.counted.closed(self)
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        self._received += len(data)
        if self._received > self.counted.limits.request_bytes:
            self.transport.write(_TOO_LARGE)
            self.transport.close()
            return
        super().data_received(data)
        self._note_request()

    def on_url(self, url: bytes) -> None:
        """Take in a part of the target, as httptools reads it.

        Raises:
            ValueError: it begins with a scheme, which only a proxy is asked; answered by 400.
        """
        if not (self.url or url.startswith(b"/")):
            raise ValueError(url)
        super().on_url(url)

    def on_response_complete(self) -> None:
        self._received = 0
        self.counted.answered(self)
        super().on_response_complete()
        self._note_request()  # the next one may have arrived along with the last

    def _note_request(self) -> None:
        if self.cycle is not None and not self.cycle.response_complete:
            self.counted.asked(self)

    def drop(self) -> None:
        self.transport.abort()


def limited(connections: Connections) -> type[asyncio.Protocol]:
    """Return uvicorn's HTTP protocol, counted among `connections` and within their limits."""
    return type("Connection", (_Connection,), {"counted": connections})
