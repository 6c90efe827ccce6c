"""Where the program's own words, tables and templates lie: in a checkout or in the wheel."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from binder import yamlfile
from binder.cache import kept

_PACKAGE = Path(__file__).resolve().parent


def _root() -> Path:
    """Return the folder that holds `content/` and `templates/`.

    In a checkout they stand beside the package; the wheel carries them in `binder/_data`.
    """
    carried = _PACKAGE / "_data"
    return carried if carried.is_dir() else _PACKAGE.parent


CONTENT = _root() / "content"
TEMPLATES = _root() / "templates"


def plain(path: Path, name: str) -> yamlfile.Plain:
    """Return what one of our own YAML files says, kept from the last time that it was read.

    Raises:
        ProblemsError: as `yamlfile.read`.
    """
    text = yamlfile.text_of(path, name)
    return kept(_reader(), (name, text), lambda: yamlfile.parse(text, name).data)


@cache
def _reader() -> bytes:
    return Path(yamlfile.__file__).read_bytes()
