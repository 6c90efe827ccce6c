"""Connections within limits: slow, idle and many ones, and that nobody else is kept out."""

from __future__ import annotations

import contextlib
import socket
import statistics
import threading
import time
from typing import TYPE_CHECKING

import pytest

from binder.output.host import snapshot
from binder.output.host.app import Site, SiteState, application
from binder.output.host.connections import Connections, Limits
from binder.output.host.serve import http_server, listening_socket
from tests.output.host.asking import run, send, status, wait_for

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

REQUEST = b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"
HALF = b"GET / HTTP/1.1\r\nHost: 127"
# On this machine every 127.x.y.z is an address of its own (RFC 1122, 3.2.1.3).
SLOW, PHONE = "127.0.0.2", "127.0.0.3"


# --- counting -------------------------------------------------------------------------------


class Fake:
    """A connection that only remembers whether it was closed."""

    def __init__(self, address: str) -> None:
        """Come from an address."""
        self.address = address
        self.dropped = False

    def drop(self) -> None:
        """Close."""
        self.dropped = True


def opened(connections: Connections, address: str, count: int) -> list[Fake]:
    """Open some connections from an address."""
    fakes = [Fake(address) for _ in range(count)]
    for fake in fakes:
        connections.opened(fake)
    return fakes


def test_an_address_keeps_only_its_latest_connections() -> None:
    """Those that have waited longest are closed, and nobody else's."""
    connections = Connections(Limits(per_address=5))
    phone = opened(connections, "a", 3)
    slow = opened(connections, "b", 20)
    assert [fake.dropped for fake in slow] == [True] * 15 + [False] * 5
    assert not any(fake.dropped for fake in phone)
    assert len(connections) == 8


def test_a_connection_that_is_answered_is_not_closed_for_another() -> None:
    """Where all of an address are answered, the newcomer goes."""
    connections = Connections(Limits(per_address=2))
    busy = opened(connections, "a", 2)
    for fake in busy:
        connections.asked(fake)
    (late,) = opened(connections, "a", 1)
    assert late.dropped
    assert not any(fake.dropped for fake in busy)
    connections.answered(busy[1])
    opened(connections, "a", 1)
    assert [fake.dropped for fake in busy] == [False, True]
    assert len(connections) == 2


def test_in_all_there_are_only_so_many() -> None:
    """From however many addresses: the longest at rest goes."""
    connections = Connections(Limits(total=10, per_address=5))
    fakes = [*opened(connections, "a", 5), *opened(connections, "b", 5)]
    opened(connections, "c", 1)
    assert [fake.dropped for fake in fakes] == [True] + [False] * 9
    assert len(connections) == 10


def test_late_ones_are_closed() -> None:
    """A request must arrive, and an answer be taken, within its time."""
    now = [100.0]
    connections = Connections(Limits(request_s=15, answer_s=180), lambda: now[0])
    waiting, answering, fresh = opened(connections, "a", 3)
    connections.asked(answering)
    now[0] += 14.9
    connections.asked(fresh)
    connections.answered(fresh)
    now[0] += 0.2
    run(connections.close_late_ones())
    assert [waiting.dropped, answering.dropped, fresh.dropped] == [True, False, False]
    now[0] += 179.9
    run(connections.close_late_ones())
    assert answering.dropped
    assert fresh.dropped
    assert len(connections) == 0


def test_what_is_closed_is_forgotten() -> None:
    """Twice over makes no difference, and no address is kept."""
    connections = Connections()
    for fake in opened(connections, "a", 3):
        connections.closed(fake)
        connections.closed(fake)
        connections.asked(fake)
        connections.answered(fake)
    assert len(connections) == 0
    assert connections._by_address == {}
    assert connections._waiting == {}


# --- on the wire ----------------------------------------------------------------------------


@contextlib.contextmanager
def served(build: Path, limits: Limits) -> Iterator[tuple[int, Connections]]:
    """Serve a build on this machine while the block runs; yield port and connections."""
    app = application(Site(SiteState(snapshot.take(build))))
    connections = Connections(limits)
    server = http_server(app, connections)
    with listening_socket("127.0.0.1", 0) as listener:
        thread = threading.Thread(
            target=server.run, kwargs={"sockets": [listener]}, daemon=True
        )
        thread.start()
        yield int(listener.getsockname()[1]), connections
        server.should_exit = True
        thread.join(timeout=10)


def connect(port: int, address: str) -> socket.socket:
    """Return a connection from an address."""
    return socket.create_connection(("127.0.0.1", port), 10, source_address=(address, 0))


def test_small_answers_are_sent_at_once() -> None:
    """TCP_NODELAY holds on what is accepted: no waiting for an acknowledgement (RFC 1122)."""
    with listening_socket("127.0.0.1", 0) as listener:
        port = listener.getsockname()[1]
        with connect(port, PHONE), listener.accept()[0] as accepted:
            assert accepted.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY)


@pytest.mark.parametrize(
    "sent", [b"", HALF, REQUEST, REQUEST + HALF], ids=["nothing", "half", "whole", "and half"]
)
def test_a_connection_that_rests_is_closed(build: Path, sent: bytes) -> None:
    """Whether nothing, half a request, or nothing after the first request arrives."""
    with (
        served(build, Limits(request_s=0.3)) as (port, connections),
        connect(port, SLOW) as connection,
    ):
        connection.sendall(sent)
        began = time.monotonic()
        with contextlib.suppress(ConnectionError):
            while connection.recv(65536):
                pass
        assert time.monotonic() - began < 8
        wait_for(lambda: len(connections) == 0)


def test_a_request_that_trickles_is_closed(build: Path) -> None:
    """A byte now and then does not lengthen the time that a request has."""
    with (
        served(build, Limits(request_s=0.3)) as (port, _),
        connect(port, SLOW) as connection,
        pytest.raises(ConnectionError),
    ):
        trickle(connection)


def trickle(connection: socket.socket) -> None:
    """Send a byte twenty times a second for ten seconds."""
    for _ in range(200):
        connection.sendall(b"G")
        time.sleep(0.05)


def test_a_request_without_end_is_closed(build: Path) -> None:
    """431 where it is too long (RFC 6585, 5), however it is cut."""
    with served(build, Limits(request_bytes=2000)) as (port, _):
        long = REQUEST[:-2] + b"X: " + b"a" * 3000 + b"\r\n\r\n"
        assert status(send(port, long)) in (0, 431)
        assert status(send(port, REQUEST)) == 200


def test_many_requests_on_one_connection_are_answered(build: Path) -> None:
    """Also where some arrive at once: the limit of length is for each."""
    with (
        served(build, Limits(request_bytes=2000)) as (port, connections),
        connect(port, PHONE) as phone,
    ):
        for _ in range(50):
            phone.sendall(REQUEST * 3)
            answers = b""
            while answers.count(b"HTTP/1.1 200 OK") < 3:
                answers += phone.recv(65536)
        assert len(connections) == 1


@pytest.mark.parametrize("slow_address", [SLOW, PHONE], ids=["elsewhere", "same address"])
def test_half_open_connections_lock_nobody_out(build: Path, slow_address: str) -> None:
    """With 450 of them held, and opened again when closed, phones are served all the same.

    Errors none; the time is only a guard against waiting for a time-out (our choice).
    """
    with served(build, Limits()) as (port, connections), contextlib.ExitStack() as held:
        for _ in range(450):
            slow = held.enter_context(connect(port, slow_address))
            slow.sendall(HALF)
        waits = []
        for number in range(40):
            began = time.perf_counter()
            with connect(port, PHONE) as phone:
                phone.sendall(REQUEST)
                assert status(phone.recv(65536)) == 200
            waits.append(time.perf_counter() - began)
            if number % 4 == 0:
                held.enter_context(connect(port, slow_address)).sendall(HALF)
        assert statistics.median(waits) < 1
        assert len(connections) <= Limits().per_address + 1
