"""Where the program's own words, tables and templates lie: in a checkout or in the wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _root() -> Path:
    """Return the folder that holds `content/` and `templates/`.

    In a checkout they stand beside the package; the wheel carries them in `binder/_data`.
    """
    carried = _PACKAGE / "_data"
    return carried if carried.is_dir() else _PACKAGE.parent


CONTENT = _root() / "content"
TEMPLATES = _root() / "templates"
