"""Lets phones find the host: its address, and its name by mDNS (knows zeroconf)."""

from __future__ import annotations

import contextlib
import ipaddress
import socket
from typing import TYPE_CHECKING

from zeroconf import Error as ZeroconfError
from zeroconf import IPVersion, ServiceInfo, Zeroconf

if TYPE_CHECKING:
    from collections.abc import Iterator

_KIND = "_http._tcp.local."
# From a block that is kept for examples (RFC 5737): naming it sends nothing, it only makes the
# system choose the network that it would use.
_ANYWHERE = ("192.0.2.1", 9)
LOOPBACK = "127.0.0.1"


def own_address() -> str:
    """Return this computer's address on its network; the loopback one where it has none."""
    with contextlib.closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        try:
            probe.connect(_ANYWHERE)
        except OSError:
            return LOOPBACK
        return str(probe.getsockname()[0])


@contextlib.contextmanager
def announced(title: str, name: str, address: str, port: int) -> Iterator[str]:
    """Tell the network of the host while the block runs; yield what went wrong, or nothing.

    Args:
        title: what lists of services show, such as the farm's name.
        name: host name to answer to, ending in `.local`.
        address: this computer's address on the network.
        port: where it listens.
    """
    try:
        speaker = Zeroconf(ip_version=IPVersion.V4Only)
    except OSError as error:
        yield f"The name {name} is not announced on the network ({error})."
        return
    try:
        yield _register(speaker, title, name, address, port)
    finally:
        speaker.unregister_all_services()
        speaker.close()


def _register(speaker: Zeroconf, title: str, name: str, address: str, port: int) -> str:
    label = title.replace(".", " ").encode()[:60].decode(errors="ignore").strip() or "binder"
    try:
        speaker.register_service(
            ServiceInfo(
                _KIND,
                f"{label}.{_KIND}",
                addresses=[ipaddress.ip_address(address).packed],
                port=port,
                properties={"path": "/"},
                server=f"{name}.",
            ),
            allow_name_change=True,
        )
    except (OSError, ZeroconfError, ValueError) as error:
        reason = str(error) or type(error).__name__
        return f"The name {name} is not announced on the network ({reason})."
    return ""
