"""Lets phones find the host: its address, and its name by mDNS (knows zeroconf)."""

from __future__ import annotations

import contextlib
import ipaddress
import re
import socket
from collections.abc import Callable
from typing import TYPE_CHECKING

# Left out of its `__all__`, documented all the same.
from zeroconf import (  # type: ignore[attr-defined]
    AddressResolverIPv4,
    IPVersion,
    RecordUpdateListener,
    ServiceInfo,
    Zeroconf,
    get_all_addresses,
)
from zeroconf import Error as ZeroconfError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from zeroconf import RecordUpdate

Tell = Callable[[str], None]
_SERVICE = "_http._tcp.local."
# From a block that is kept for examples (RFC 5737): naming it sends nothing, it only makes the
# system choose the network that it would use.
_ANYWHERE = ("192.0.2.1", 9)
LOOPBACK = "127.0.0.1"
LOCAL = ".local"
_RIVAL_MS = 750  # how long others are given to say that they have the name: our choice


def own_address() -> str:
    """Return this computer's address on its network; the loopback one where it has none."""
    with contextlib.closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        try:
            probe.connect(_ANYWHERE)
        except OSError:
            return LOOPBACK
        return str(probe.getsockname()[0])


def local_name(title: str, site_host: str = "") -> str:
    """Return the `.local` name to answer to: that of the site's address, else of the farm."""
    if site_host.endswith(LOCAL):
        return site_host
    label = re.sub(r"[^a-z0-9]+", "-", title.lower())[:40].strip("-")
    return f"{label or 'binder'}{LOCAL}"


def computer_names() -> frozenset[str]:
    """Return what the system itself calls this computer, with and without `.local`."""
    name = socket.gethostname().lower().removesuffix(LOCAL)
    return frozenset({name, f"{name}{LOCAL}"} if name else ())


@contextlib.contextmanager
def announced(title: str, name: str, address: str, port: int, tell: Tell) -> Iterator[str]:
    """Tell the network of the host while the block runs; yield what went wrong, or nothing.

    Args:
        title: what lists of services show, such as the farm's name.
        name: host name to answer to, ending in `.local`.
        address: this computer's address on the network.
        port: where it listens.
        tell: told of each other computer that answers to the name, once.
    """
    try:
        responder = Zeroconf(ip_version=IPVersion.V4Only)
    except OSError as error:
        yield f"The name {name} is not announced on the network ({error})."
        return
    try:
        responder.add_listener(RivalListener(name, own_addresses(address), tell), None)
        # Whoever has the name answers this, and the listener hears it.
        AddressResolverIPv4(f"{name}.").request(responder, _RIVAL_MS)
        yield _register(responder, title, name, address, port)
    finally:
        responder.unregister_all_services()
        responder.close()


def own_addresses(address: str) -> frozenset[str]:
    """Return every address of this computer: under each of them the name is its own."""
    return frozenset({address, LOOPBACK, *get_all_addresses()})


class RivalListener(RecordUpdateListener):
    """Hears who else on the network answers to a name."""

    def __init__(self, name: str, own: frozenset[str], tell: Tell) -> None:
        """Listen for `name` under any address but our `own`; `tell` of each once."""
        super().__init__()
        self._name = f"{name}.".lower()
        self._tell = tell
        self._known = set(own)

    def async_update_records(
        self, zc: Zeroconf, now: float, records: Sequence[RecordUpdate]
    ) -> None:
        """Look through what came in by mDNS; called by zeroconf."""
        del zc, now
        for update in records:
            packed = getattr(update.new, "address", b"")
            if update.new.name.lower() != self._name or len(packed) != 4:
                continue
            rival = str(ipaddress.ip_address(packed))
            if rival not in self._known:
                self._known.add(rival)
                self._tell(
                    f"Another computer, {rival}, also answers to {self._name.rstrip('.')}:"
                    " phones may get its pages under that name. Use the address in numbers."
                )


def _register(responder: Zeroconf, title: str, name: str, address: str, port: int) -> str:
    label = title.replace(".", " ").encode()[:60].decode(errors="ignore").strip() or "binder"
    try:
        responder.register_service(
            ServiceInfo(
                _SERVICE,
                f"{label}.{_SERVICE}",
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
