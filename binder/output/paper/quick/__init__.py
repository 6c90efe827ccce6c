"""The printing library's slowest inner parts, done again so that they take less time.

Each part puts a function of ours in the place of one of the library's that gives the very same
answer: with and without them a sheet is the same file to the byte (`tests/print/test_quick.py`
draws it both ways), pictures behind boxes aside, which only look the same. They lean on the
library's insides, so they are used only with the releases for which that was tried; with any
other the library does its work alone, slower and as well.
"""

from __future__ import annotations

import sys
from ctypes import util
from importlib.metadata import version

_find_library = util.find_library
if sys.platform == "linux":
    # The library asks for those in C by four names each, and Python starts a compiler to look
    # for each that is not there: half the time of loading. Linux has them under the last name.
    util.find_library = lambda name: None  # noqa: ARG005 -- called by its name
try:
    import weasyprint
except OSError:  # not here: let it look as it does elsewhere
    util.find_library = _find_library
    import weasyprint
finally:
    util.find_library = _find_library

__all__ = ["install", "weasyprint"]
TRIED_WITH = {"weasyprint": "70.0", "pydyf": "0.13.0", "cssselect2": "0.10.1"}


def install() -> bool:
    """Use the quick parts, or say that these releases of the libraries are not known."""
    if any(version(name) != tried for name, tried in TRIED_WITH.items()):
        return False
    _same_to_the_byte()
    _same_to_the_eye()
    return True


def _same_to_the_byte() -> None:
    from binder.output.paper.quick import boxes, matching, pdf, sheet, styles, text  # noqa: PLC0415

    for part in (styles, boxes, text, pdf, matching, sheet):
        part.install()


def _same_to_the_eye() -> None:
    from binder.output.paper.quick import pictures  # noqa: PLC0415

    pictures.install()
