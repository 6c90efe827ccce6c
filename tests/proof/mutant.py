"""What a mutant is: the example farm with something wrong, odd or extreme about it."""

from __future__ import annotations

import datetime as dt
import os
import shutil
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

import yaml

from binder import yamlfile
from binder.data import CONTENT
from binder.farm.load import FILES

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from binder.yamlfile import Plain

EXAMPLE = CONTENT / "example-farm"
DAY = dt.date(2026, 6, 1)


@dataclass(frozen=True, slots=True)
class Link:
    """A symbolic link in the place of a file."""

    target: str


@dataclass(frozen=True, slots=True)
class Odd:
    """Something that is no plain file: `folder`, `pipe` or `locked` (nobody may read it)."""

    sort: str


Content = bytes | Link | Odd | None


@dataclass(frozen=True, slots=True)
class Mutant:
    """A farm folder to try.

    Attributes:
        family: which generator made it.
        note: what is odd about it, for the report.
        files: path in the folder -> what stands there; None takes the file away.
        day: the day the binder is made for.
        shown: text of the owner's that must come out on a page just as written.
        hidden: text of the owner's that may stand in print only, never on a screen.
        must_fail: whether the only right answer is a list of problems.
    """

    family: str
    note: str
    files: Mapping[str, Content] = field(default_factory=dict)
    day: dt.date = DAY
    shown: str = ""
    hidden: str = ""
    must_fail: bool = False


def write(mutant: Mutant, folder: Path) -> None:
    """Put the mutant's farm folder in the place of whatever `folder` held."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name, text in texts().items():
        if name not in mutant.files:
            (folder / name).write_text(text, encoding="utf-8")
    if "pictures" not in mutant.files and (EXAMPLE / "pictures").is_dir():
        shutil.copytree(EXAMPLE / "pictures", folder / "pictures")
    for name, content in mutant.files.items():
        _put(folder / name, content)


def _put(path: Path, content: Content) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    if isinstance(content, bytes):
        path.write_bytes(content)
    elif isinstance(content, Link):
        path.symlink_to(content.target)
    elif content == Odd("folder"):
        path.mkdir()
    elif content == Odd("pipe"):
        os.mkfifo(path)
    elif content == Odd("locked"):
        path.write_text("name: Locked\n", encoding="utf-8")
        path.chmod(0)


@lru_cache(maxsize=1)
def texts() -> Mapping[str, str]:
    """Return the example farm's files, name to text."""
    return {
        name: (EXAMPLE / name).read_text("utf-8") for name in FILES if (EXAMPLE / name).exists()
    }


def plain(name: str) -> Plain:
    """Return a fresh copy of an example file as plain values."""
    return yamlfile.parse(texts()[name], name).data


class _Dumper(yaml.SafeDumper):
    """Writes an empty value as nothing and never an anchor."""

    def ignore_aliases(self, data: object) -> bool:
        """Write every value out."""
        del data
        return True


_Dumper.add_representer(
    type(None), lambda dumper, _: dumper.represent_scalar("tag:yaml.org,2002:null", "")
)


def dumped(data: Plain) -> bytes:
    """Return plain values as the bytes of a YAML file."""
    text = yaml.dump(data, Dumper=_Dumper, allow_unicode=True, sort_keys=False, width=90)
    return str(text).encode("utf-8", "surrogatepass")
