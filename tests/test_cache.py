"""The cache: it may vanish, rot or be another's at any time and never tells a lie."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from binder import cache as cache_module
from binder.cache import Cache, kept, key_of
from binder.data import CONTENT
from binder.pages.text import programs

POSIX = pytest.mark.skipif(os.name == "nt", reason="Windows keeps others out of the folder")


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    """Return an empty cache."""
    return Cache(tmp_path / "cache")


@pytest.fixture
def texts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Cache:
    """Return the empty cache of texts that the program uses."""
    store = Cache(tmp_path / "texts")
    monkeypatch.setattr(cache_module, "texts", lambda: store)
    monkeypatch.setattr(programs, "texts", lambda: store)
    return store


def test_what_is_put_comes_back(cache: Cache) -> None:
    """An entry is found under its name and no other."""
    cache.put(key_of("a"), b"drawn")
    assert cache.get(key_of("a")) == b"drawn"
    assert cache.get(key_of("b")) is None


def test_parts_of_a_name_do_not_run_together() -> None:
    """HTML that ends where the CSS begins is not the same sheet as one cut elsewhere."""
    assert key_of("ab", "c") != key_of("a", "bc")
    assert key_of("a") == key_of(b"a")


@pytest.mark.parametrize("damage", [b"", b"short", b"x" * 200])
def test_a_damaged_entry_counts_as_absent(cache: Cache, damage: bytes) -> None:
    """A cut or changed file is not served."""
    cache.put(key_of("a"), b"drawn")
    (entry,) = cache.folder.glob("*/*")
    entry.write_bytes(damage)
    assert cache.get(key_of("a")) is None
    cache.put(key_of("a"), b"drawn")
    assert cache.get(key_of("a")) == b"drawn"


def test_it_stays_within_its_bounds(tmp_path: Path) -> None:
    """The longest unused entries go first."""
    cache = Cache(tmp_path / "cache", largest=350)
    for at, name in enumerate("abc"):
        cache.put(key_of(name), b"x" * 100)  # 132 bytes with the seal
        path = next(p for p in cache.folder.glob("*/*") if p.name == key_of(name))
        os.utime(path, ns=(at, at))
    assert cache.get(key_of("a")) is not None  # used now
    cache.trim()
    assert [cache.get(key_of(name)) is not None for name in "abc"] == [True, False, True]


def test_a_folder_that_cannot_be_written_costs_only_time(tmp_path: Path) -> None:
    """Where the cache cannot be, sheets are drawn each time and nothing fails."""
    (tmp_path / "file").write_text("x", encoding="utf-8")
    cache = Cache(tmp_path / "file" / "cache")
    cache.put(key_of("a"), b"drawn")
    assert cache.get(key_of("a")) is None
    cache.trim()


def test_an_entry_under_another_name_counts_as_absent(cache: Cache) -> None:
    """Whoever moves entries about cannot make one sheet stand for another."""
    cache.put(key_of("a"), b"drawn")
    (entry,) = cache.folder.glob("*/*")
    other = cache.folder / key_of("b")[:2] / key_of("b")
    other.parent.mkdir(exist_ok=True)
    entry.rename(other)
    assert cache.get(key_of("b")) is None


@POSIX
def test_what_another_user_wrote_counts_as_absent(
    cache: Cache, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The seal is no secret, so who wrote a file counts."""
    cache.put(key_of("a"), b"drawn")
    other = os.geteuid() + 1
    monkeypatch.setattr(os, "geteuid", lambda: other)
    assert cache.get(key_of("a")) is None


def test_a_text_is_made_once(texts: Cache) -> None:
    """It is made anew where what it is made from changed, or what is kept is no JSON."""
    made: list[int] = []

    def make() -> list[str]:
        made.append(1)
        return ["gate", "\N{DEGREE SIGN}"]

    for _ in range(2):
        assert kept("code", ("a",), make) == ["gate", "\N{DEGREE SIGN}"]
    assert len(made) == 1
    kept("code", ("b",), make)
    kept("other code", ("a",), make)
    assert len(made) == 3
    texts.put(key_of("code", "a"), b"{not json")
    assert kept("code", ("a",), make) == ["gate", "\N{DEGREE SIGN}"]
    assert len(made) == 4


def test_what_is_kept_stays_within_its_bounds_by_itself(tmp_path: Path) -> None:
    """`check` draws nothing, so nobody trims for it: one entry in 256 does."""
    store = Cache(tmp_path / "cache", largest=2_000, sweeps=True)
    for at in range(2_000):
        store.put(key_of(str(at)), b"x" * 68)  # 100 bytes with the seal
    assert sum(path.stat().st_size for path in store.folder.glob("*/*")) < 200_000 / 2


def test_a_program_comes_back(texts: Cache) -> None:
    """It runs as it did; one made of another text is another."""
    programs.put(compile("found = 6 * 7", "<template>", "exec"), "text")
    known: dict[str, int] = {}
    program = programs.get("text")
    assert program is not None
    exec(program, known)  # noqa: S102 -- compiled three lines above
    assert known["found"] == 42
    assert programs.get("another text") is None
    assert list(texts.folder.glob("*/*"))


@POSIX
@pytest.mark.parametrize("mode", [0o620, 0o602, 0o666])
def test_a_program_that_others_may_write_is_not_run(texts: Cache, mode: int) -> None:
    """What is kept as data is read from such a file; what would be run is not."""
    programs.put(compile("found = 6 * 7", "<template>", "exec"), "text")
    (entry,) = texts.folder.glob("*/*")
    entry.chmod(mode)
    assert programs.get("text") is None
    assert texts.get(entry.name) is not None


@pytest.mark.parametrize("damage", [b"", b"\x00", b"i\x07\x00\x00\x00", b"junk" * 50])
def test_what_is_no_program_is_not_run(texts: Cache, damage: bytes) -> None:
    """Cut, junk, and a number where a program should be: made anew."""
    programs.put(compile("1", "<template>", "exec"), "text")
    (entry,) = texts.folder.glob("*/*")
    texts.put(entry.name, damage)
    assert programs.get("text") is None


def test_a_cold_a_warm_a_rotten_and_no_cache_make_one_site(tmp_path: Path) -> None:
    """Each byte is the same, and nothing is written beside the cache's own folder."""
    home = tmp_path / "home"
    cold = _site(tmp_path / "cold", home)
    texts = home / "binder" / "texts"
    assert len(list(texts.glob("*/*"))) > 100  # protocols, programs and words
    warm = _site(tmp_path / "warm", home)
    for entry in (home / "binder").glob("*/*/*"):
        entry.write_bytes(entry.read_bytes()[:32] + b'"rotten"')
    rotten = _site(tmp_path / "rotten", home)
    assert [path.name for path in home.iterdir()] == ["binder"]
    (tmp_path / "file").write_text("x", encoding="utf-8")
    none = _site(tmp_path / "none", tmp_path / "file")
    assert len(cold) > 30
    assert cold == warm == rotten == none


def _site(to: Path, caches: Path) -> dict[str, bytes]:
    """Return every file of the starter farm's site and phone file, made by another process."""
    command = [sys.executable, "-m", "binder", "build", str(CONTENT / "starter-farm")]
    command += ["--site-only", "--date", "2026-06-01", "--to", str(to)]
    subprocess.run(
        command, check=True, capture_output=True,
        env=os.environ | {"XDG_CACHE_HOME": str(caches)},
    )  # fmt: skip
    return {
        str(path.relative_to(to)): path.read_bytes() for path in to.rglob("*") if path.is_file()
    }
