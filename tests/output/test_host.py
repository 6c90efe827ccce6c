"""The host: what it serves, whom it lets in, and what no request, however written, gets out."""

from __future__ import annotations

import asyncio
import base64
import contextlib
import gzip
import json
import os
import re
import socket
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING

import httpx
import pytest
import uvicorn
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from binder.output.host import announce, shelf, watch
from binder.output.host.app import House, Shown, application
from binder.output.host.gate import MOST_GUESSES, WINDOW_S, Gate, Verdict
from binder.output.host.serve import Wishes, serve
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

SECRET = "the word of the farm"  # noqa: S105 -- invented
HIDDEN = "nobody may read this"


@pytest.fixture
def build(tmp_path: Path) -> Path:
    """Return an output folder with a small site, a phone file, and what must not be served."""
    site = tmp_path / "build" / "site"
    (site / "pictures").mkdir(parents=True)
    (tmp_path / "build" / "phone").mkdir()
    (site / "index.html").write_text(
        '<!doctype html>\n<html lang="en"><title>Front</title><p>' + "Front " * 200,
        encoding="utf-8",
    )
    (site / "find.html").write_text("<html lang='en'>Find", encoding="utf-8")
    (site / "site.js").write_text("1;", encoding="utf-8")
    (site / "pictures" / "a b.png").write_bytes(b"\x89PNG picture")
    (site / "notes.yaml").write_text(HIDDEN, encoding="utf-8")
    (tmp_path / "secret.html").write_text(HIDDEN, encoding="utf-8")
    (site / "link.html").symlink_to(tmp_path / "secret.html")
    (site / "elsewhere").symlink_to(tmp_path, target_is_directory=True)
    (tmp_path / "build" / "phone" / "binder.html").write_text(
        '<html lang="en"><style></style>', encoding="utf-8"
    )
    return tmp_path / "build"


@pytest.fixture
def shown(build: Path) -> Shown:
    """Return that build as shown."""
    return Shown(shelf.read(build))


class Asker:
    """Somebody on the farm's network who asks the application, without any network."""

    def __init__(self, house: House) -> None:
        """Ask what serves `house`."""
        self._line = httpx.ASGITransport(application(house), client=("192.0.2.50", 40000))

    def request(
        self, method: str, path: str, headers: Mapping[str, str] | None = None
    ) -> httpx.Response:
        """Return the answer."""

        async def ask() -> httpx.Response:
            base = "http://192.0.2.7:8000"
            async with httpx.AsyncClient(transport=self._line, base_url=base) as line:
                return await line.request(method, path, headers=headers)

        return asyncio.run(ask())

    def get(self, path: str, headers: Mapping[str, str] | None = None) -> httpx.Response:
        """Return the answer to GET."""
        return self.request("GET", path, headers)


def client(shown: Shown, gate: Gate | None = None, *names: str) -> Asker:
    """Return somebody who asks by an address on the farm's network."""
    return Asker(House(shown, gate or Gate(), frozenset(names)))


# --- what is served --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/index.html", "text/html; charset=utf-8"),
        ("/site.js", "text/javascript; charset=utf-8"),
        ("/pictures/a%20b.png", "image/png"),
        ("/phone/binder.html", "text/html; charset=utf-8"),
        ("/now.json", "application/json"),
    ],
)
def test_what_a_build_wrote_is_served(shown: Shown, path: str, kind: str) -> None:
    """By GET with its body, by HEAD without."""
    asks = client(shown)
    answer = asks.get(path)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == kind
    assert answer.content
    head = asks.request("HEAD", path)
    assert head.status_code == 200
    assert head.content == b""


def test_pages_know_their_version(shown: Shown) -> None:
    """The version in a page is that of the news; the phone file, kept elsewhere, has none."""
    asks = client(shown)
    version = asks.get("/now.json").json()["version"]
    assert f'data-version="{version}"' in asks.get("/index.html").text
    assert "data-version" not in asks.get("/phone/binder.html").text


def test_a_page_that_is_the_same_is_not_sent_again(shown: Shown) -> None:
    """304 to whoever has it already (RFC 9110, 13.1.2)."""
    asks = client(shown)
    etag = asks.get("/index.html").headers["etag"]
    again = asks.get("/index.html", headers={"if-none-match": f'"old", {etag}'})
    assert again.status_code == 304
    assert again.content == b""


def test_pages_travel_pressed(shown: Shown) -> None:
    """By gzip to those who take it, plain to others; and caches are told of both."""
    asks = client(shown)
    plain = asks.get("/index.html", headers={"accept-encoding": "identity"})
    pressed = asks.get("/index.html", headers={"accept-encoding": "gzip"})
    assert "content-encoding" not in plain.headers
    assert pressed.headers["content-encoding"] == "gzip"
    assert pressed.content == plain.content
    assert plain.headers["vary"] == "accept-encoding"
    item = shown.shelf.items["index.html"]
    assert gzip.decompress(item.pressed) == item.content


# --- what is not -----------------------------------------------------------------------------


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_only_reading_is_allowed(shown: Shown, method: str) -> None:
    """405, and which methods would do (RFC 9110, 15.5.6)."""
    answer = client(shown).request(method, "/index.html")
    assert answer.status_code == 405
    assert set(re.split(", ?", answer.headers["allow"])) == {"GET", "HEAD"}


@pytest.mark.parametrize(
    "path",
    [
        "/pictures", "/pictures/", "/phone", "/phone/", "/notes.yaml", "/link.html",
        "/elsewhere/secret.html", "/site/index.html", "/index.html/",
        "/.written-by-binder", "/index", "/INDEX.HTML", "/index.html%00",
        "/index.html%0d%0aX:1",
    ],
)  # fmt: skip
def test_nothing_else_is_there(shown: Shown, path: str) -> None:
    """No list of a folder, no link out of it, no file that no build writes."""
    answer = client(shown).get(path)
    assert answer.status_code == 404
    assert HIDDEN not in answer.text


def test_every_answer_is_guarded(shown: Shown) -> None:
    """Found, not found, refused: no outside request, no guessed types, no frame, no trace."""
    asks = client(shown)
    for answer in (
        asks.get("/"),
        asks.get("/nowhere"),
        asks.request("POST", "/"),
        asks.get("/now.json"),
    ):
        policy = answer.headers["content-security-policy"]
        assert policy.startswith("default-src 'none'; script-src 'self'; style-src 'self'")
        assert "frame-ancestors 'none'" in policy
        assert "http" not in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"
        assert answer.headers["x-robots-tag"] == "noindex, nofollow, noarchive"
        assert "server" not in answer.headers


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("192.0.2.7:8000", 200),
        ("[2001:db8::7]:8000", 200),
        ("localhost", 200),
        ("NineBark.local:8000", 200),
        ("binder", 200),
        ("farm.example.org", 200),  # as the owner wrote it in farm.yaml
        ("evil.example.org", 400),
        ("192.0.2.7.evil.example.org", 400),
        ("a b", 400),
        ("x:y:z", 400),
    ],
)
def test_a_borrowed_name_is_refused(shown: Shown, host: str, status: int) -> None:
    """A page elsewhere cannot give this computer its own name and read along."""
    asks = client(shown, None, "farm.example.org")
    assert asks.get("/", headers={"host": host}).status_code == status


# --- the passphrase --------------------------------------------------------------------------


def answer_of(text: str, name: str = "") -> str:
    """Return the header of HTTP Basic (RFC 7617, 2)."""
    return "Basic " + base64.b64encode(f"{name}:{text}".encode()).decode()


def test_the_passphrase_opens(shown: Shown) -> None:
    """Whatever the name; without it every address says 401 and nothing else."""
    asks = client(shown, Gate(SECRET))
    for path in ("/", "/now.json", "/nowhere"):
        refused = asks.get(path)
        assert refused.status_code == 401
        assert refused.headers["www-authenticate"].startswith("Basic ")
        assert "Front" not in refused.text
    for name in ("", "sitter", "a"):
        header = {"authorization": answer_of(SECRET, name)}
        assert asks.get("/", headers=header).status_code == 200


@pytest.mark.parametrize(
    "wrong",
    [
        answer_of(""),
        answer_of("the word"),
        answer_of(f"{SECRET} "),
        answer_of(SECRET).replace("Basic", "Bearer"),
        "Basic",
        "Basic !!!",
        "Basic " + base64.b64encode(b"\xff\xfe:x").decode(),
        "Basic " + "A" * 5000,
    ],
)
def test_a_wrong_answer_does_not(wrong: str) -> None:
    """Near misses, other schemes and rubbish are all the same: no."""
    assert Gate(SECRET).judge("192.0.2.9", wrong) is Verdict.ASK


def test_letters_of_every_script_may_be_in_it() -> None:
    """A passphrase with colon and accents opens too (RFC 7617, 2.1)."""
    word = "Kühe: früh & spät"
    assert Gate(word).judge("192.0.2.9", answer_of(word)) is Verdict.IN


def test_guessing_is_slow() -> None:
    """After some wrong answers in a minute even the right one waits; others are let in."""
    now = [0.0]
    gate = Gate(SECRET, lambda: now[0])
    for _ in range(MOST_GUESSES):
        assert gate.judge("192.0.2.9", answer_of("guess")) is Verdict.ASK
        now[0] += 1
    assert gate.judge("192.0.2.9", answer_of(SECRET)) is Verdict.WAIT
    assert gate.judge("192.0.2.10", answer_of(SECRET)) is Verdict.IN
    now[0] += WINDOW_S
    assert gate.judge("192.0.2.9", answer_of(SECRET)) is Verdict.IN


def test_asking_without_an_answer_is_no_guess() -> None:
    """A phone that first asks for many pages is not shut out."""
    gate = Gate(SECRET)
    for _ in range(100):
        assert gate.judge("192.0.2.9", "") is Verdict.ASK


def test_the_gate_forgets() -> None:
    """However many addresses guess, only the latest are remembered."""
    gate = Gate(SECRET, lambda: 0.0)
    for number in range(3000):
        gate.judge(f"2001:db8::{number:x}", answer_of("guess"))
    assert len(gate._misses) <= 1000


def test_too_many_guesses_are_told_to_wait(shown: Shown) -> None:
    """429 with a time to wait (RFC 6585, 4)."""
    asks = client(shown, Gate(SECRET))
    for _ in range(MOST_GUESSES):
        asks.get("/", headers={"authorization": answer_of("guess")})
    answer = asks.get("/", headers={"authorization": answer_of(SECRET)})
    assert answer.status_code == 429
    assert int(answer.headers["retry-after"]) > 0


# --- on the wire: requests that no well-behaved client sends ---------------------------------


@pytest.fixture(scope="module")
def wire(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """Return the port of a real server on this machine."""
    folder = tmp_path_factory.mktemp("wire")
    (folder / "build" / "site").mkdir(parents=True)
    (folder / "build" / "site" / "index.html").write_text("<html lang='en'>Front", "utf-8")
    (folder / "secret.html").write_text(HIDDEN, encoding="utf-8")
    app = application(House(Shown(shelf.read(folder / "build"))))
    config = uvicorn.Config(
        app, lifespan="off", ws="none", log_config=None, server_header=False
    )
    server = uvicorn.Server(config)
    with socket.create_server(("127.0.0.1", 0)) as door:
        thread = threading.Thread(target=server.run, kwargs={"sockets": [door]}, daemon=True)
        thread.start()
        yield int(door.getsockname()[1])
        server.should_exit = True
        thread.join(timeout=10)


def send(port: int, raw: bytes) -> bytes:
    """Send bytes as they are; return everything that comes back."""
    with socket.create_connection(("127.0.0.1", port), timeout=10) as line:
        found = b""
        with contextlib.suppress(OSError):  # the host may hang up before it has read all
            line.sendall(raw)
            line.shutdown(socket.SHUT_WR)
        with contextlib.suppress(OSError):
            while piece := line.recv(65536):
                found += piece
        return found


def status(answer: bytes) -> int:
    """Return the status of an answer, 0 where the line was only closed."""
    found = re.match(rb"HTTP/1\.1 (\d{3})", answer)
    return int(found[1]) if found else 0


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


# --- renewing --------------------------------------------------------------------------------


def test_a_failed_rebuild_keeps_the_last_good_one(shown: Shown, build: Path) -> None:
    """What is wrong is told; the pages stay and say that they are old. Then all is well."""
    told: list[str] = []
    before = shown.shelf

    def fails() -> Path:
        raise ProblemsError([Problem(Place("pens.yaml", 3, 1), "", "is wrong")])

    watch.renew(shown, fails, told.append)
    assert shown.shelf is before
    assert client(shown).get("/now.json").json() == {"version": before.version, "failed": True}
    assert any("pens.yaml:3:1" in line for line in told)
    watch.renew(shown, lambda: build, told.append)
    assert client(shown).get("/now.json").json()["failed"] is False


def wait_for(condition: object, seconds: float = 20.0) -> None:
    """Wait until a condition holds.

    Raises:
        TimeoutError: it does not in time.
    """
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if condition():  # type: ignore[operator]
            return
        time.sleep(0.05)
    raise TimeoutError


def test_a_change_in_the_farm_is_seen(shown: Shown, build: Path, tmp_path: Path) -> None:
    """A file saved in the farm folder leads to one new build; stopped, the watching ends."""
    farm = tmp_path / "farm"
    farm.mkdir()
    told: list[str] = []
    stop = threading.Event()

    def rebuild() -> Path:
        (build / "site" / "index.html").write_text("<html lang='en'>Second", encoding="utf-8")
        return build

    watcher = threading.Thread(
        target=watch.keep_renewing, args=(farm, shown, rebuild, told.append, stop)
    )
    watcher.start()
    try:
        time.sleep(0.5)
        (farm / "pens.yaml").write_text("- id: a\n", encoding="utf-8")
        wait_for(lambda: "Second" in client(shown).get("/").text)
    finally:
        stop.set()
        watcher.join(timeout=15)
    assert not watcher.is_alive()
    assert shown.failed is False


def test_where_watching_ends_the_pages_say_so(
    shown: Shown, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A farm folder that can no longer be watched is told, on every page too."""
    monkeypatch.setattr(watch, "watch", lambda *_, **__: iter(()))
    told: list[str] = []
    watch.keep_renewing(tmp_path, shown, lambda: tmp_path, told.append, threading.Event())
    assert shown.failed is True
    assert "no longer watched" in told[-1]


# --- opening the door ------------------------------------------------------------------------


def test_a_taken_port_is_a_clear_sentence(build: Path, tmp_path: Path) -> None:
    """Which port, and what to do."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = int(taken.getsockname()[1])
        with pytest.raises(ProblemsError, match=rf"port {port}.*choose another with --port"):
            serve(
                tmp_path,
                build,
                lambda: build,
                Wishes(port, only_this_machine=True),
                print,
                print,
            )


def test_it_serves_and_tells_where(build: Path, tmp_path: Path) -> None:
    """The whole host, on a free port of this machine alone, by a thread."""
    addresses: list[str] = []
    farm = tmp_path / "farm"
    farm.mkdir()
    wishes = Wishes(0, only_this_machine=True)
    threading.Thread(
        target=serve,
        args=(farm, build, lambda: build, wishes, lambda _: None, addresses.append),
        daemon=True,
    ).start()
    wait_for(lambda: addresses)
    assert addresses[0].startswith("http://127.0.0.1:")
    wait_for(lambda: _answers(addresses[0]))
    assert "Front" in httpx.get(addresses[0], trust_env=False).text


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
    with announce.announced("Farm", "farm.local", "192.0.2.7", 8000) as trouble:
        assert trouble.startswith("The name farm.local is not announced")
        assert "No such device" in trouble


def test_own_address_is_an_address() -> None:
    """Four numbers, also where there is no network."""
    assert re.fullmatch(r"\d+\.\d+\.\d+\.\d+", announce.own_address())


def test_news_is_small_and_plain(shown: Shown) -> None:
    """What every open page asks for every few seconds fits in one packet."""
    answer = client(shown).get("/now.json")
    assert len(answer.content) < 100
    assert set(json.loads(answer.content)) == {"version", "failed"}
    assert answer.headers["cache-control"] == "no-store"


def test_links_out_of_the_folder_are_never_read(build: Path) -> None:
    """Neither a linked file nor a linked folder is on the shelf."""
    names = set(shelf.read(build).items)
    assert names == {
        "", "index.html", "find.html", "site.js", "pictures/a b.png", "phone/binder.html",
    }  # fmt: skip
    assert os.path.islink(build / "site" / "link.html")  # noqa: PTH114 -- it was there
