"""Answers requests for what is on the shelf, and for nothing else (knows starlette)."""

from __future__ import annotations

import ipaddress
import json
import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from binder.output.host.gate import WINDOW_S, Gate, Verdict
from binder.output.host.shelf import EMPTY, Shelf

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from binder.output.host.shelf import Item

NEWS = "now.json"
_OWN_ONLY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
# The phone file holds its style and scripts inside and names them in a policy of its own.
_INSIDE_ONLY = (
    "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; "
    "font-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_ALWAYS = {
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
    "x-robots-tag": "noindex, nofollow, noarchive",
    "cache-control": "no-cache",
}
_NAME = re.compile(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.local)?\.?")


@dataclass(slots=True)
class Shown:
    """What is shown right now. The one thing here that changes, by whole assignments only.

    Attributes:
        shelf: the last good build.
        failed: whether a later build failed.
    """

    shelf: Shelf = EMPTY
    failed: bool = False


@dataclass(frozen=True, slots=True)
class House:
    """How the host behaves.

    Attributes:
        shown: what it shows.
        gate: who may see it.
        names: host names it answers to, besides plain addresses and names without a dot or in
            `.local`; a page elsewhere cannot then borrow another name for this computer.
    """

    shown: Shown
    gate: Gate = field(default_factory=Gate)
    names: frozenset[str] = frozenset()


def application(house: House) -> ASGIApp:
    """Return the application that serves a house."""

    async def answer(request: Request) -> Response:
        return _answer(house, request)

    routes = [Route("/{path:path}", answer, methods=["GET"])]
    return _with_headers(Starlette(routes=routes))


def _answer(house: House, request: Request) -> Response:
    if not _known(request.headers.getlist("host"), house.names):
        return PlainTextResponse("This computer has no such name.\n", 400)
    client = request.client.host if request.client else ""
    verdict = house.gate.judge(client, request.headers.get("authorization", ""))
    if verdict is Verdict.WAIT:
        wait = {"retry-after": str(int(WINDOW_S))}
        return PlainTextResponse("Too many guesses. Wait a minute.\n", 429, headers=wait)
    if verdict is Verdict.ASK:
        ask = {"www-authenticate": 'Basic realm="binder", charset="UTF-8"'}
        return PlainTextResponse("The passphrase, please.\n", 401, headers=ask)
    path = request.scope["path"].removeprefix("/")
    if path == NEWS:
        return _news(house.shown)
    item = house.shown.shelf.items.get(path)
    if item is None:
        return PlainTextResponse("There is no such page.\n", 404)
    return _file(item, request)


def _news(shown: Shown) -> Response:
    text = json.dumps({"version": shown.shelf.version, "failed": shown.failed})
    never_kept = {"cache-control": "no-store"}
    return Response(text, media_type="application/json", headers=never_kept)


def _file(item: Item, request: Request) -> Response:
    headers = {
        "etag": item.etag,
        "content-security-policy": _INSIDE_ONLY if item.whole_page else _OWN_ONLY,
        "vary": "accept-encoding",
    }
    if item.etag in [
        tag.strip() for tag in request.headers.get("if-none-match", "").split(",")
    ]:
        return Response(status_code=304, headers=headers)
    content = item.content
    if item.pressed and "gzip" in request.headers.get("accept-encoding", ""):
        content = item.pressed
        headers["content-encoding"] = "gzip"
    return Response(content, headers=headers, media_type=item.kind)


def _known(hosts: list[str], names: frozenset[str]) -> bool:
    """Return whether a request names this computer: by address, local or given name."""
    if len(hosts) != 1:
        return False
    name = _host_name(hosts[0])
    if name in names or _NAME.fullmatch(name):
        return True
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True


def _host_name(host: str) -> str:
    """Return a `Host` header without its port."""
    found = re.fullmatch(r"(\[[0-9A-Fa-f:.]+\]|[^:\[\]]+)(?::\d{1,5})?", host)
    return found[1].lower() if found else ""


def _with_headers(inner: ASGIApp) -> ASGIApp:
    """Return the application with the headers that every answer carries, also a refusal."""

    async def outer(scope: Scope, receive: Receive, send: Send) -> None:
        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = {name for name, _ in message["headers"]}
                more = [
                    (name.encode(), value.encode())
                    for name, value in {**_ALWAYS, "content-security-policy": _OWN_ONLY}.items()
                    if name.encode() not in given
                ]
                message["headers"] = [*message["headers"], *more]
            await send(message)

        await inner(scope, receive, sending)

    return outer
