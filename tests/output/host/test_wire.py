"""On the wire: requests that no well-behaved client sends."""

from __future__ import annotations

import contextlib
import threading
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from binder.output.host import snapshot
from binder.output.host.app import Site, SiteState, application
from binder.output.host.connections import Connections
from binder.output.host.serve import http_server, listening_socket
from tests.output.host.asking import HIDDEN, send, status

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(scope="module")
def wire(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """Return the port of a real server on this machine."""
    folder = tmp_path_factory.mktemp("wire")
    (folder / "build" / "site").mkdir(parents=True)
    (folder / "build" / "site" / "index.html").write_text("<html lang='en'>Front", "utf-8")
    (folder / "secret.html").write_text(HIDDEN, encoding="utf-8")
    with served(folder / "build", Connections()) as port:
        yield port


@contextlib.contextmanager
def served(build: Path, connections: Connections) -> Iterator[int]:
    """Serve a build on this machine while the block runs; yield the port."""
    app = application(Site(SiteState(snapshot.take(build))))
    server = http_server(app, connections)
    with listening_socket("127.0.0.1", 0) as listener:
        thread = threading.Thread(
            target=server.run, kwargs={"sockets": [listener]}, daemon=True
        )
        thread.start()
        yield int(listener.getsockname()[1])
        server.should_exit = True
        thread.join(timeout=10)


TARGETS = [
    b"/../secret.html", b"/../../etc/passwd", b"/%2e%2e/secret.html", b"/..%2fsecret.html",
    b"/%252e%252e/secret.html", b"/..%5csecret.html", b"/..\\secret.html", b"/./index.html",
    b"/%c0%ae%c0%ae/secret.html", b"/index.html%00.png", b"/\xff\xfe", b"/index.html;x",
    b"/static/../../secret.html", b"//etc/passwd", b"//index.html", b"/%2fetc%2fpasswd",
    b"/" + b"a" * 9000,
    b"/.%00./secret.html", b"/file:///etc/passwd", b"http://evil.example/index.html",
    b"/index.html%20", b"/%69ndex.html%2f..", b"*", b"/pictures/%2e%2e/%2e%2e/secret.html",
]  # fmt: skip


@pytest.mark.parametrize("target", TARGETS, ids=lambda raw: ascii(raw[:40]))
def test_no_path_leads_out(wire: int, target: bytes) -> None:
    """Steps up, encoded, doubled, cut off or absolute: 400 or 404, never a file."""
    answer = send(wire, b"GET " + target + b" HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
    assert status(answer) in (400, 404)
    assert HIDDEN.encode() not in answer
    assert b"root:" not in answer


ODD_REQUESTS = {
    "no host": b"GET / HTTP/1.1\r\n\r\n",
    "two hosts": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: evil.example\r\n\r\n",
    "folded": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n evil.example\r\n\r\n",
    "space before colon": b"GET / HTTP/1.1\r\nHost : 127.0.0.1\r\n\r\n",
    "bare lf in a header": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\nX: 1\r\nHost: b\r\n\r\n",
    "nul in a header": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: a\x00b\r\n\r\n",
    "long header": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: " + b"a" * 3_000_000 + b"\r\n\r\n",
    "two lengths": b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 1\r\n"
    b"Content-Length: 2\r\n\r\n",
    "chunks and length": b"GET / HTTP/1.1\r\nHost: b.example\r\nContent-Length: 5\r\n"
    b"Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
    "not http": b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
}


@pytest.mark.parametrize("raw", ODD_REQUESTS.values(), ids=ODD_REQUESTS.keys())
def test_odd_requests_get_nothing(wire: int, raw: bytes) -> None:
    """Headers twice, folded, cut or endless: refused, and the server lives on."""
    answer = send(wire, raw)
    assert status(answer) in (0, 400, 404, 413, 431, 505)
    assert b"Front" not in answer
    assert status(send(wire, b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")) == 200


@pytest.mark.parametrize("name", ["X-Original-URL", "X-Rewrite-URL", "X-Forwarded-Host"])
def test_headers_do_not_change_what_is_read(wire: int, name: str) -> None:
    """The path alone says what is read."""
    raw = f"GET /nowhere HTTP/1.1\r\nHost: 127.0.0.1\r\n{name}: /index.html\r\n\r\n"
    assert status(send(wire, raw.encode())) == 404


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(path=st.binary(max_size=60), host=st.binary(max_size=30))
def test_any_bytes_get_an_answer_or_none(wire: int, path: bytes, host: bytes) -> None:
    """Whatever is sent, nothing but the front page is ever read, and never an error 500."""
    answer = send(wire, b"GET /" + path + b" HTTP/1.1\r\nHost: " + host + b"\r\n\r\n")
    assert status(answer) != 500
    assert HIDDEN.encode() not in answer
    assert b"root:" not in answer
