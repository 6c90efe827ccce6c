"""Keeps the current folder off Python's path: nobody runs what lies beside a farm's notes.

Farm folders come from others by mail and stick, and `binder build .` is typed while standing in
one. A file there that is named like a library must not be taken for it.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

_OWN = Path(__file__).resolve().parent.parent  # where the program itself comes from
_PYTHONS = Path(os.__file__).parent.parent  # where Python's own library lies


def leave_out_current_folder() -> None:
    """Take the current folder off `sys.path`, where it stands before Python's own library.

    It stands there after `python -m` and after an empty entry in `PYTHONPATH`. It stays where
    the program itself comes from it: then it is a checkout and no farm folder.
    """
    try:
        here = Path.cwd().resolve()
    except OSError:  # the folder was deleted: nothing can be imported from it
        return
    if here == _OWN:
        return
    first = next((at for at, entry in enumerate(sys.path) if _is_pythons(entry)), len(sys.path))
    sys.path[:first] = [
        entry for entry in sys.path[:first] if entry and Path(entry).resolve() != here
    ]


def _is_pythons(entry: str) -> bool:
    return bool(entry) and Path(entry).is_relative_to(_PYTHONS)


def environment() -> Mapping[str, str]:
    """Return the environment for a Python that we start: it imports from whole paths alone."""
    given = dict(os.environ)
    entries = given.pop("PYTHONPATH", "").split(os.pathsep)
    whole = [entry for entry in entries if Path(entry).is_absolute()]
    return given | ({"PYTHONPATH": os.pathsep.join(whole)} if whole else {})
