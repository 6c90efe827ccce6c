"""What the host serves, and what it does not: whatever the request, nothing else gets out."""

from __future__ import annotations

import gzip
import json
import os
import re
from typing import TYPE_CHECKING

import pytest

from binder.output.host import snapshot
from tests.output.host.asking import HIDDEN, client

if TYPE_CHECKING:
    from pathlib import Path

    from binder.output.host.app import SiteState


@pytest.mark.parametrize(
    ("path", "media_type"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/index.html", "text/html; charset=utf-8"),
        ("/site.js", "text/javascript; charset=utf-8"),
        ("/pictures/a%20b.png", "image/png"),
        ("/phone/binder.html", "text/html; charset=utf-8"),
        ("/now.json", "application/json"),
    ],
)
def test_what_a_build_wrote_is_served(state: SiteState, path: str, media_type: str) -> None:
    """By GET with its body, by HEAD without."""
    asks = client(state)
    answer = asks.get(path)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == media_type
    assert answer.content
    head = asks.request("HEAD", path)
    assert head.status_code == 200
    assert head.content == b""


def test_pages_know_their_version(state: SiteState) -> None:
    """The version in a page is that of the news; the phone file, kept elsewhere, has none."""
    asks = client(state)
    version = asks.get("/now.json").json()["version"]
    assert f'data-version="{version}"' in asks.get("/index.html").text
    assert "data-version" not in asks.get("/phone/binder.html").text


def test_a_page_that_is_the_same_is_not_sent_again(state: SiteState) -> None:
    """304 to whoever has it already (RFC 9110, 13.1.2)."""
    asks = client(state)
    etag = asks.get("/index.html").headers["etag"]
    again = asks.get("/index.html", headers={"if-none-match": f'"old", {etag}'})
    assert again.status_code == 304
    assert again.content == b""


def test_pages_travel_pressed(state: SiteState) -> None:
    """By gzip to those who take it, plain to others; and caches are told of both."""
    asks = client(state)
    plain = asks.get("/index.html", headers={"accept-encoding": "identity"})
    pressed = asks.get("/index.html", headers={"accept-encoding": "gzip"})
    assert "content-encoding" not in plain.headers
    assert pressed.headers["content-encoding"] == "gzip"
    assert pressed.content == plain.content
    assert plain.headers["vary"] == "accept-encoding"
    file = state.snapshot.files["index.html"]
    assert gzip.decompress(file.gzipped) == file.content


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_only_reading_is_allowed(state: SiteState, method: str) -> None:
    """405, and which methods would do (RFC 9110, 15.5.6)."""
    answer = client(state).request(method, "/index.html")
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
def test_nothing_else_is_there(state: SiteState, path: str) -> None:
    """No list of a folder, no link out of it, no file that no build writes."""
    answer = client(state).get(path)
    assert answer.status_code == 404
    assert HIDDEN not in answer.text


def test_every_answer_is_guarded(state: SiteState) -> None:
    """Found, not found, refused: no outside request, no guessed types, no frame, no trace."""
    asks = client(state)
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
        ("Quiet-Acre.local:8000", 200),  # its own name on the network
        ("quiet-acre.local.", 200),
        ("other.local:8000", 400),
        ("binder", 400),
        ("farm.example.org", 200),  # as the owner wrote it in farm.yaml
        ("evil.example.org", 400),
        ("192.0.2.7.evil.example.org", 400),
        ("a b", 400),
        ("x:y:z", 400),
    ],
)
def test_a_borrowed_name_is_refused(state: SiteState, host: str, status: int) -> None:
    """A page elsewhere cannot give this computer its own name and read along."""
    asks = client(state, None, "farm.example.org", "quiet-acre.local")
    assert asks.get("/", headers={"host": host}).status_code == status


def test_news_is_small_and_plain(state: SiteState) -> None:
    """What every open page asks for every few seconds fits in one packet."""
    answer = client(state).get("/now.json")
    assert len(answer.content) < 100
    assert set(json.loads(answer.content)) == {"version", "failed"}
    assert answer.headers["cache-control"] == "no-store"


def test_links_out_of_the_folder_are_never_read(build: Path) -> None:
    """Neither a linked file nor a linked folder is in the snapshot."""
    names = set(snapshot.take(build).files)
    assert names == {
        "", "index.html", "find.html", "site.js", "pictures/a b.png", "phone/binder.html",
    }  # fmt: skip
    assert os.path.islink(build / "site" / "link.html")  # noqa: PTH114 -- it was there
