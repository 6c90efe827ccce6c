"""Runs the host: listens, tells the network, renews, answers (knows uvicorn)."""

from __future__ import annotations

import contextlib
import ipaddress
import resource
import socket
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import uvicorn

from binder.output.host import announce, snapshot
from binder.output.host.access import AccessControl
from binder.output.host.app import Site, SiteState, application
from binder.output.host.connections import CHECK_EVERY_S, Connections, Limits, limited
from binder.output.host.watch import keep_renewing
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.output.host.app import Application
    from binder.output.host.watch import Rebuild, Tell

ALL_INTERFACES = "0.0.0.0"  # noqa: S104 -- phones on the farm's network are the purpose
_BACKLOG = 256  # connections that wait to be accepted: our choice
_OTHER_FILES = 200  # open files besides connections, with room: our choice


@dataclass(frozen=True, slots=True)
class ServeOptions:
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

    @property
    def site_host(self) -> str:
        """Return the host name in the printed address, empty without one."""
        return urlsplit(self.site_address).hostname or ""

    @property
    def names(self) -> frozenset[str]:
        """Return the names that this host answers to."""
        own = {self.site_host, announce.local_name(self.title, self.site_host)}
        return frozenset(own - {""}) | announce.computer_names()


def serve(
    folder: Path,
    built: Path,
    rebuild: Rebuild,
    options: ServeOptions,
    tell: Tell,
    opened: Callable[[str], None],
) -> None:
    """Serve a build until somebody stops the program.

    Args:
        folder: the farm folder, watched for changes.
        built: the output folder of the build to begin with.
        rebuild: builds anew and returns the output folder.
        options: how to serve.
        tell: prints a line.
        opened: told the address once it listens.

    Raises:
        ProblemsError: the port is taken or may not be opened.
    """
    state = SiteState(snapshot.take(built))
    site = Site(state, AccessControl(options.passphrase), options.names)
    server = http_server(application(site), Connections(_affordable(Limits())))
    with _listening(options) as listener, _renewed(folder, state, rebuild, tell):
        port = int(listener.getsockname()[1])
        address = announce.LOOPBACK if options.only_this_machine else announce.own_address()
        opened(f"http://{address}:{port}/")
        tell(readers(options, address))
        with _announced(options, address, port, tell):
            server.run(sockets=[listener])


def http_server(app: Application, connections: Connections) -> uvicorn.Server:
    """Return the server that answers with `app`, its connections within limits."""
    return uvicorn.Server(
        uvicorn.Config(
            app, http=limited(connections), lifespan="off", ws="none", log_config=None,
            access_log=False, server_header=False, backlog=_BACKLOG,
            timeout_graceful_shutdown=3, callback_notify=connections.close_late_ones,
            timeout_notify=CHECK_EVERY_S,
        )
    )  # fmt: skip


def listening_socket(host: str, port: int) -> socket.socket:
    """Return a socket that listens on `host` and `port`, and sends small answers at once.

    Without TCP_NODELAY the second part of an answer waits until the first is acknowledged,
    which phones put off by some 40 ms (RFC 1122, 4.2.3.2 and 4.2.3.4).

    Raises:
        OSError: it cannot be opened.
        OverflowError: there is no such port.
    """
    listener = socket.create_server((host, port), backlog=_BACKLOG)
    listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)  # accepted ones inherit it
    return listener


def readers(options: ServeOptions, address: str) -> str:
    """Return who can read the site, in one line."""
    if options.only_this_machine or address == announce.LOOPBACK:
        return "Who can read it: people at this computer, nobody else."
    where = "on this network"
    if ipaddress.ip_address(address).is_global:
        where = "on the whole internet, where no firewall stops them,"
    if options.passphrase:
        return (
            f"Who can read it: everybody {where} who knows the passphrase. Nothing is"
            " encrypted: who listens on the network can read along."
        )
    return (
        f"Who can read it: everybody {where}, guests too."
        " With --ask-passphrase only those who know a passphrase."
    )


def _affordable(limits: Limits) -> Limits:
    """Return limits that fit the number of files the system lets this process open."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    # Twice the backlog: so many may be open at the moment when others are about to be closed.
    besides = 2 * _BACKLOG + _OTHER_FILES
    wanted = limits.total + besides
    if soft != resource.RLIM_INFINITY and soft < wanted:
        most = wanted if hard == resource.RLIM_INFINITY else min(wanted, hard)
        with contextlib.suppress(OSError, ValueError):
            resource.setrlimit(resource.RLIMIT_NOFILE, (most, hard))
        soft = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
        return replace(limits, total=max(64, min(limits.total, soft - besides)))
    return limits


@contextlib.contextmanager
def _listening(options: ServeOptions) -> Iterator[socket.socket]:
    """Yield a listening socket.

    Raises:
        ProblemsError: it cannot be opened.
    """
    host = announce.LOOPBACK if options.only_this_machine else ALL_INTERFACES
    try:
        listener = listening_socket(host, options.port)
    except (OSError, OverflowError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        message = f"cannot be opened ({reason}); choose another with --port"
        raise ProblemsError([Problem(Place(f"port {options.port}"), "", message)]) from error
    with listener:
        yield listener


@contextlib.contextmanager
def _renewed(folder: Path, state: SiteState, rebuild: Rebuild, tell: Tell) -> Iterator[None]:
    stop = threading.Event()
    arguments = (folder, state, rebuild, tell, stop)
    watcher = threading.Thread(target=keep_renewing, args=arguments, daemon=True)
    watcher.start()
    try:
        yield
    finally:
        stop.set()
        watcher.join(timeout=10)


@contextlib.contextmanager
def _announced(options: ServeOptions, address: str, port: int, tell: Tell) -> Iterator[None]:
    """Announce the host by name, unless nobody else may come."""
    if options.only_this_machine or address == announce.LOOPBACK:
        yield
        return
    name = announce.local_name(options.title, options.site_host)
    with announce.announced(options.title, name, address, port, tell) as trouble:
        tell(trouble or f"Also: http://{name}:{port}/")
        if not trouble and options.site_address and _port(options.site_address) != port:
            tell(f"The printed cover says {options.site_address}: use that port, or change it.")
        yield


def _port(address: str) -> int:
    parts = urlsplit(address)
    return parts.port or (443 if parts.scheme == "https" else 80)
