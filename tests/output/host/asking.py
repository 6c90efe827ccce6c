"""Somebody on the farm's network who asks the host, with and without a network between."""

from __future__ import annotations

import asyncio
import base64
import contextlib
import re
import socket
import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, TypeVar

import httpx

from binder.output.host.access import AccessControl
from binder.output.host.app import Site, application

if TYPE_CHECKING:
    from collections.abc import Callable, Coroutine, Mapping

    from binder.output.host.app import SiteState

T = TypeVar("T")

SECRET = "the word of the farm"  # noqa: S105 -- invented
HIDDEN = "nobody may read this"


def run(asked: Coroutine[object, object, T]) -> T:
    """Return what a coroutine returns, run apart: a browser test may have a loop here."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(asyncio.run, asked).result()


class Client:
    """Asks the application, without any network."""

    def __init__(self, site: Site) -> None:
        """Ask what serves `site`."""
        self._transport = httpx.ASGITransport(application(site), client=("192.0.2.50", 40000))

    def request(
        self, method: str, path: str, headers: Mapping[str, str] | None = None
    ) -> httpx.Response:
        """Return the answer."""

        async def ask() -> httpx.Response:
            base = "http://192.0.2.7:8000"
            async with httpx.AsyncClient(transport=self._transport, base_url=base) as http:
                return await http.request(method, path, headers=headers)

        return run(ask())

    def get(self, path: str, headers: Mapping[str, str] | None = None) -> httpx.Response:
        """Return the answer to GET."""
        return self.request("GET", path, headers)


def client(state: SiteState, access: AccessControl | None = None, *names: str) -> Client:
    """Return somebody who asks by an address on the farm's network."""
    return Client(Site(state, access or AccessControl(), frozenset(names)))


def basic(passphrase: str, name: str = "") -> str:
    """Return the header of HTTP Basic (RFC 7617, 2)."""
    return "Basic " + base64.b64encode(f"{name}:{passphrase}".encode()).decode()


def send(port: int, raw: bytes) -> bytes:
    """Send bytes as they are; return everything that comes back."""
    with socket.create_connection(("127.0.0.1", port), timeout=10) as connection:
        answer = b""
        with contextlib.suppress(OSError):  # the host may hang up before it has read all
            connection.sendall(raw)
            connection.shutdown(socket.SHUT_WR)
        with contextlib.suppress(OSError):
            while piece := connection.recv(65536):
                answer += piece
        return answer


def status(answer: bytes) -> int:
    """Return the status of an answer, 0 where the connection was only closed."""
    match = re.match(rb"HTTP/1\.1 (\d{3})", answer)
    return int(match[1]) if match else 0


def wait_for(condition: Callable[[], object], seconds: float = 20.0) -> None:
    """Wait until a condition holds.

    Raises:
        TimeoutError: it does not in time.
    """
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if condition():
            return
        time.sleep(0.05)
    raise TimeoutError
