"""Numbers and words as PDF writes them: a sheet has a hundred thousand."""

from __future__ import annotations

from typing import Any

from weasyprint.pdf import pydyf

_to_bytes = pydyf._to_bytes


def to_bytes(item: Any) -> Any:
    """Return what stands for `item` in a file."""
    kind = type(item)
    if kind is bytes:
        return item
    if kind is str:
        return item.encode("ascii")
    if kind is float:
        return _number(item)
    if kind is int:
        return b"%d" % item
    return _to_bytes(item)


def _number(item: float) -> bytes:
    return b"%d" % item if item.is_integer() else (b"%f" % item).rstrip(b"0")


def install() -> None:
    """Use them."""
    pydyf._to_bytes = to_bytes
