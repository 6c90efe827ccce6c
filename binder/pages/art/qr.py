"""QR codes as inline drawings (the only module that knows segno)."""

from __future__ import annotations

import io
from importlib.metadata import version
from pathlib import Path

from binder.cache import kept


def qr_svg(address: str) -> str:
    """Return `address` as a QR code in SVG that survives a copier (error level Q).

    It is kept from the last time: the library loads all of HTTP.
    """
    code = f"segno {version('segno')} q"
    return kept(code, (Path(__file__).read_bytes(), address), lambda: _drawn(address))


def _drawn(address: str) -> str:
    import segno  # noqa: PLC0415 -- only where it is not kept

    stream = io.BytesIO()
    segno.make(address, error="q", micro=False).save(
        stream, kind="svg", xmldecl=False, svgns=True, scale=3, border=2, title=address,
        svgclass="qr", lineclass=None,
    )  # fmt: skip
    return stream.getvalue().decode("utf-8")


def qr_terminal(address: str) -> str:
    """Return `address` as a QR code of half blocks, to be shown in a terminal."""
    import segno  # noqa: PLC0415 -- as above

    stream = io.StringIO()
    segno.make(address, error="m", micro=False).terminal(out=stream, border=2, compact=True)
    return stream.getvalue()
