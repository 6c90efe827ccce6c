"""Runs the host: opens the door, tells the network, renews, answers (knows uvicorn)."""

from __future__ import annotations

import contextlib
import re
import socket
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import uvicorn

from binder.output.host import announce, shelf
from binder.output.host.app import House, Shown, application
from binder.output.host.gate import Gate
from binder.output.host.watch import keep_renewing
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.output.host.watch import Rebuild, Tell

EVERYWHERE = "0.0.0.0"  # noqa: S104 -- phones on the farm's network are the purpose
_MOST_AT_ONCE = 400  # requests; more get "try again", so that memory stays small: our choice


@dataclass(frozen=True, slots=True)
class Wishes:
    """How to serve.

    Attributes:
        port: where to listen; 0 for any free one.
        only_this_machine: answer nobody else.
        passphrase: what visitors must know; empty for nothing.
        title: the farm's name.
        site_address: where the printed cover says that the site is, or empty.
    """

    port: int = 8000
    only_this_machine: bool = False
    passphrase: str = ""
    title: str = "binder"
    site_address: str = ""


def serve(
    folder: Path,
    built: Path,
    rebuild: Rebuild,
    wishes: Wishes,
    tell: Tell,
    opened: Callable[[str], None],
) -> None:
    """Serve a build until somebody stops the program.

    Args:
        folder: the farm folder, watched for changes.
        built: the output folder of the build to begin with.
        rebuild: builds anew and returns the output folder.
        wishes: how to serve.
        tell: prints a line.
        opened: told the address once the door is open.

    Raises:
        ProblemsError: the port is taken or may not be opened.
    """
    shown = Shown(shelf.read(built))
    named = urlsplit(wishes.site_address).hostname or ""
    names = frozenset({named} if named else ())
    app = application(House(shown, Gate(wishes.passphrase), names))
    server = uvicorn.Server(
        uvicorn.Config(
            app, lifespan="off", ws="none", log_config=None, access_log=False,
            server_header=False, limit_concurrency=_MOST_AT_ONCE, timeout_keep_alive=15,
            timeout_graceful_shutdown=3,
        )
    )  # fmt: skip
    with _door(wishes) as door, _renewed(folder, shown, rebuild, tell):
        port = int(door.getsockname()[1])
        address = announce.LOOPBACK if wishes.only_this_machine else announce.own_address()
        opened(f"http://{address}:{port}/")
        with _named(wishes, named, address, port, tell):
            server.run(sockets=[door])


@contextlib.contextmanager
def _door(wishes: Wishes) -> Iterator[socket.socket]:
    """Yield a listening socket.

    Raises:
        ProblemsError: it cannot be opened.
    """
    host = announce.LOOPBACK if wishes.only_this_machine else EVERYWHERE
    try:
        door = socket.create_server((host, wishes.port), backlog=512)
    except (OSError, OverflowError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        message = f"cannot be opened ({reason}); choose another with --port"
        raise ProblemsError([Problem(Place(f"port {wishes.port}"), "", message)]) from error
    with door:
        yield door


@contextlib.contextmanager
def _renewed(folder: Path, shown: Shown, rebuild: Rebuild, tell: Tell) -> Iterator[None]:
    stop = threading.Event()
    arguments = (folder, shown, rebuild, tell, stop)
    watcher = threading.Thread(target=keep_renewing, args=arguments, daemon=True)
    watcher.start()
    try:
        yield
    finally:
        stop.set()
        watcher.join(timeout=10)


@contextlib.contextmanager
def _named(wishes: Wishes, named: str, address: str, port: int, tell: Tell) -> Iterator[None]:
    """Announce the host by name, unless nobody else may come."""
    if wishes.only_this_machine or address == announce.LOOPBACK:
        yield
        return
    name = named if named.endswith(".local") else f"{_host_name(wishes.title)}.local"
    with announce.announced(wishes.title, name, address, port) as trouble:
        tell(trouble or f"Also: http://{name}:{port}/")
        if not trouble and wishes.site_address and _port(wishes.site_address) != port:
            tell(f"The printed cover says {wishes.site_address}: use that port, or change it.")
        yield


def _port(address: str) -> int:
    parts = urlsplit(address)
    return parts.port or (443 if parts.scheme == "https" else 80)


def _host_name(title: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")[:40] or "binder"
