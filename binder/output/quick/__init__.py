"""The printing library's slowest inner parts, done again so that they take less time.

Each part puts a function of ours in the place of one of the library's that gives the very same
answer: with and without them a sheet is the same file to the byte (`tests/print/test_quick.py`
draws it both ways), pictures behind boxes aside, which only look the same. They lean on the
library's insides, so they are used only with the releases for which that was tried; with any
other the library does its work alone, slower and as well.
"""

from __future__ import annotations

from importlib.metadata import version

TRIED_WITH = {"weasyprint": "70.0", "pydyf": "0.13.0", "cssselect2": "0.10.1"}


def install() -> bool:
    """Use the quick parts, or say that these releases of the libraries are not known."""
    if any(version(name) != tried for name, tried in TRIED_WITH.items()):
        return False
    _same_to_the_byte()
    _same_to_the_eye()
    return True


def _same_to_the_byte() -> None:
    from binder.output.quick import boxes, matching, pdf, sheet, styles, text  # noqa: PLC0415

    for part in (styles, boxes, text, pdf, matching, sheet):
        part.install()


def _same_to_the_eye() -> None:
    from binder.output.quick import pictures  # noqa: PLC0415

    pictures.install()
