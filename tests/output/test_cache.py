"""The cache of drawn sheets: it may vanish or rot at any time and never tells a lie."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from binder.output.cache import Cache, key_of

if TYPE_CHECKING:
    from pathlib import Path


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
