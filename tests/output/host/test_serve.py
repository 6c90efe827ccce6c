"""Opening: the port, the name on the network, and who can read the site."""

from __future__ import annotations

import re
import socket
import threading
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, NamedTuple

import httpx
import pytest

from binder.output.host import announce
from binder.output.host.serve import ServeOptions, readers, serve
from binder.problems import ProblemsError
from tests.output.host.asking import SECRET, wait_for

if TYPE_CHECKING:
    from pathlib import Path


def test_a_taken_port_is_a_clear_sentence(build: Path, tmp_path: Path) -> None:
    """Which port, and what to do."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = int(taken.getsockname()[1])
        with pytest.raises(ProblemsError, match=rf"port {port}.*choose another with --port"):
            serve(
                tmp_path,
                build,
                lambda: build,
                ServeOptions(port, only_this_machine=True),
                print,
                print,
            )


def test_it_serves_and_tells_where(build: Path, tmp_path: Path) -> None:
    """The whole host, on a free port of this machine alone, by a thread."""
    addresses: list[str] = []
    told: list[str] = []
    farm = tmp_path / "farm"
    farm.mkdir()
    options = ServeOptions(0, only_this_machine=True)
    threading.Thread(
        target=serve,
        args=(farm, build, lambda: build, options, told.append, addresses.append),
        daemon=True,
    ).start()
    wait_for(lambda: addresses)
    assert addresses[0].startswith("http://127.0.0.1:")
    wait_for(lambda: _answers(addresses[0]))
    assert "Front" in httpx.get(addresses[0], trust_env=False).text
    assert told == ["Who can read it: people at this computer, nobody else."]


def _answers(address: str) -> bool:
    try:
        return httpx.get(address, trust_env=False).status_code == 200
    except httpx.TransportError:
        return False


def test_a_network_without_names_is_a_clear_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where names cannot be announced, one sentence says so and the block runs."""

    def refused(**_: object) -> None:
        raise OSError(19, "No such device")

    monkeypatch.setattr(announce, "Zeroconf", refused)
    with announce.announced("Farm", "farm.local", "192.0.2.7", 8000, print) as trouble:
        assert trouble.startswith("The name farm.local is not announced")
        assert "No such device" in trouble


def test_own_address_is_an_address() -> None:
    """Four numbers, also where there is no network."""
    assert re.fullmatch(r"\d+\.\d+\.\d+\.\d+", announce.own_address())


# --- who can read it ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("options", "address", "wanted"),
    [
        (ServeOptions(only_this_machine=True), "127.0.0.1", "nobody else"),
        (ServeOptions(), "127.0.0.1", "nobody else"),  # there is no network
        (ServeOptions(), "192.168.1.7", "everybody on this network, guests too"),
        (ServeOptions(passphrase=SECRET), "192.168.1.7", "who knows the passphrase"),
        (ServeOptions(), "10.1.2.3", "everybody on this network, guests too"),
        # An address that the whole internet can reach (RFC 1918 lists those it cannot).
        (ServeOptions(), "8.8.8.8", "everybody on the whole internet"),
    ],
)
def test_it_says_who_can_read_the_site(
    options: ServeOptions, address: str, wanted: str
) -> None:
    """In one line; never the passphrase itself."""
    line = readers(options, address)
    assert line.startswith("Who can read it: ")
    assert wanted in line
    assert "\n" not in line
    assert SECRET not in line


# --- the name on the network ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("title", "site_address", "name"),
    [
        ("Quiet Acre", "", "quiet-acre.local"),
        ("Quiet Acre", "http://barn.local:8000", "barn.local"),
        ("Quiet Acre", "https://farm.example.org", "quiet-acre.local"),
        ("???", "", "binder.local"),
    ],
)
def test_it_answers_to_its_own_names(title: str, site_address: str, name: str) -> None:
    """That of the printed address, that of the farm, and what the system calls the computer."""
    options = ServeOptions(title=title, site_address=site_address)
    assert name in options.names
    assert announce.computer_names() <= options.names
    assert "other.local" not in options.names
    assert "" not in options.names


class Update(NamedTuple):
    """What zeroconf hands over: the new record of a name."""

    new: SimpleNamespace


def record(name: str, **fields: bytes) -> Any:
    """Return an answer of mDNS."""
    return Update(SimpleNamespace(name=name, **fields))


def test_a_rival_name_is_reported_once() -> None:
    """Another computer that answers to our name; not ourselves, not other names."""
    told: list[str] = []
    listener = announce.RivalListener("farm.local", frozenset({"192.0.2.7"}), told.append)
    rival = record("Farm.local.", address=bytes([192, 0, 2, 9]))
    others = [
        record("farm.local.", address=bytes([192, 0, 2, 7])),
        record("barn.local.", address=bytes([192, 0, 2, 8])),
        record("farm.local.", address=bytes(16)),
        record("farm.local."),
    ]
    zeroconf: Any = None  # not looked at
    listener.async_update_records(zeroconf, 0.0, others)
    assert told == []
    for _ in range(3):
        listener.async_update_records(zeroconf, 0.0, [rival])
    assert len(told) == 1
    assert "192.0.2.9" in told[0]
    assert "farm.local" in told[0]
