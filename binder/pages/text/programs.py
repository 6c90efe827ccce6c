"""Compiled templates, kept between builds: compiling all takes as long as filling them in.

What is kept is run, so it is taken only from a file that nobody but the user can have written;
so are the compiled modules of Python itself.
"""

from __future__ import annotations

import marshal
import sys
from functools import cache
from pathlib import Path
from types import CodeType

from binder.cache import key_of, texts


@cache
def made_by() -> str:
    """Return a name for the code that turns a protocol's text into HTML: this folder's."""
    modules = sorted(Path(__file__).parent.glob("*.py"))
    return key_of(*(path.read_bytes() for path in modules))


def get(*parts: str | bytes) -> CodeType | None:
    """Return the program that was made of `parts`, None where it must be made anew."""
    raw = texts().get(_key(parts), alone=True)
    if raw is None:
        return None
    try:
        # The seal holds, and no other user can have written it.
        found = marshal.loads(raw)  # noqa: S302
    except (EOFError, TypeError, ValueError):
        return None
    return found if isinstance(found, CodeType) else None


def put(program: CodeType, *parts: str | bytes) -> None:
    """Keep the program that was made of `parts`."""
    texts().put(_key(parts), marshal.dumps(program))


def _key(parts: tuple[str | bytes, ...]) -> str:
    return key_of("program", made_by(), sys.version, *parts)
