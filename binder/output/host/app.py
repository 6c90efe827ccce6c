"""The ASGI application: answers requests from the snapshot, and for nothing else."""

from __future__ import annotations

import ipaddress
import json
import re
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from dataclasses import dataclass, field
from typing import Any

from binder.output.host.access import SECONDS_A_GUESS, AccessControl, Decision
from binder.output.host.snapshot import EMPTY, Snapshot, StaticFile

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Application = Callable[[Scope, Receive, Send], Awaitable[None]]
Headers = tuple[tuple[bytes, bytes], ...]

NEWS = "now.json"
_PART = (
    65_536  # bytes handed over at once, so that a slow reader holds little memory: our choice
)
LOCALHOST = "localhost"
_TEXT = (b"content-type", b"text/plain; charset=utf-8")
_OWN_FILES_ONLY = (
    b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    b"font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    b"frame-ancestors 'none'"
)
# The phone file holds its style and scripts inside and names them in a policy of its own.
_INLINE_ONLY = (
    b"default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; "
    b"img-src data:; font-src data:; base-uri 'none'; form-action 'none'; "
    b"frame-ancestors 'none'"
)
_ALWAYS: Headers = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"camera=(), geolocation=(), microphone=()"),
    (b"x-robots-tag", b"noindex, nofollow, noarchive"),
)
_OWN_FILES: Headers = (*_ALWAYS, (b"content-security-policy", _OWN_FILES_ONLY))
_SELF_CONTAINED: Headers = (*_ALWAYS, (b"content-security-policy", _INLINE_ONLY))
_ASK_AGAIN = (b"cache-control", b"no-cache")
_NEVER_KEPT = (b"cache-control", b"no-store")


@dataclass(slots=True)
class SiteState:
    """What is served right now. The one thing here that changes, by whole assignments only.

    Attributes:
        snapshot: the last good build.
        rebuild_failed: whether a later build failed.
    """

    snapshot: Snapshot = EMPTY
    rebuild_failed: bool = False


@dataclass(frozen=True, slots=True)
class Site:
    """The site and how it is served.

    Attributes:
        state: what is served.
        access: who may read it.
        names: host names it answers to, besides plain addresses and `localhost`: a page
            elsewhere cannot then borrow another name for this computer.
    """

    state: SiteState
    access: AccessControl = field(default_factory=AccessControl)
    names: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Response:
    """An answer, complete."""

    status: int
    headers: Headers
    body: bytes = b""


def application(site: Site) -> Application:
    """Return the application that serves a site."""

    async def answer(scope: Scope, _receive: Receive, send: Send) -> None:
        response = await _response(site, scope)
        length = (b"content-length", str(len(response.body)).encode())
        # A 304 has no body, and its length would be that of the page (RFC 9110, 8.6).
        headers = response.headers if response.status == 304 else (*response.headers, length)
        await send(
            {
                "type": "http.response.start",
                "status": response.status,
                "headers": list(headers),
            }
        )
        body = b"" if scope["method"] == "HEAD" else response.body
        for start in range(0, len(body) or 1, _PART):
            part, more = body[start : start + _PART], start + _PART < len(body)
            await send({"type": "http.response.body", "body": part, "more_body": more})

    return answer


async def _response(site: Site, scope: Scope) -> Response:
    headers: Iterable[tuple[bytes, bytes]] = scope["headers"]
    if not _is_known(_values(headers, b"host"), site.names):
        return _refusal(400, "This computer has no such name.\n")
    address = scope["client"][0] if scope["client"] else ""
    authorization = next(iter(_values(headers, b"authorization")), "")
    decision = await site.access.decide(address, authorization)
    if decision is Decision.TOO_MANY:
        wait = (b"retry-after", str(int(SECONDS_A_GUESS)).encode())
        return _refusal(429, "Too many guesses at once. Wait a little.\n", wait)
    if decision is Decision.UNAUTHORIZED:
        ask = (b"www-authenticate", b'Basic realm="binder", charset="UTF-8"')
        return _refusal(401, "The passphrase, please.\n", ask)
    if scope["method"] not in ("GET", "HEAD"):
        return _refusal(405, "This site can only be read.\n", (b"allow", b"GET, HEAD"))
    return _page(site.state, scope["path"].removeprefix("/"), headers)


def _page(state: SiteState, path: str, headers: Iterable[tuple[bytes, bytes]]) -> Response:
    if path == NEWS:
        return _news(state)
    file = state.snapshot.files.get(path)
    if file is None:
        return _refusal(404, "There is no such page.\n")
    return _file(file, headers)


def _refusal(status: int, sentence: str, *more: tuple[bytes, bytes]) -> Response:
    return Response(status, (*_OWN_FILES, _ASK_AGAIN, _TEXT, *more), sentence.encode())


def _news(state: SiteState) -> Response:
    news = {"version": state.snapshot.version, "failed": state.rebuild_failed}
    kind = (b"content-type", b"application/json")
    return Response(200, (*_OWN_FILES, _NEVER_KEPT, kind), json.dumps(news).encode())


def _file(file: StaticFile, headers: Iterable[tuple[bytes, bytes]]) -> Response:
    own = (
        *(_SELF_CONTAINED if file.self_contained else _OWN_FILES),
        _ASK_AGAIN,
        (b"etag", file.etag.encode()),
        (b"vary", b"accept-encoding"),
    )
    had = ",".join(_values(headers, b"if-none-match")).split(",")
    if file.etag in (etag.strip() for etag in had):
        return Response(304, own)
    own = (*own, (b"content-type", file.media_type.encode()))
    if file.gzipped and any("gzip" in name for name in _values(headers, b"accept-encoding")):
        return Response(200, (*own, (b"content-encoding", b"gzip")), file.gzipped)
    return Response(200, own, file.content)


def _values(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> list[str]:
    """Return every value of one header."""
    return [value.decode("latin-1") for key, value in headers if key == name]


def _is_known(hosts: list[str], names: frozenset[str]) -> bool:
    """Return whether a request names this computer: by address, `localhost` or own name."""
    if len(hosts) != 1:
        return False
    name = _host_name(hosts[0])
    if name == LOCALHOST or name in names:
        return True
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True


def _host_name(host: str) -> str:
    """Return a `Host` header without its port and the dot that may end a full name."""
    match = re.fullmatch(r"(\[[0-9A-Fa-f:.]+\]|[^:\[\]]+)(?::\d{1,5})?", host)
    return match[1].lower().removesuffix(".") if match else ""
