"""Remembers what was made of a thing, for what several sheets ask for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

Made = TypeVar("Made")


class Once:
    """What is made of this and of other things is made when first asked for."""

    def once(self, make: Callable[..., Made], *of: object) -> Made:
        """Return what `make` makes of this and of `of`, the very same things."""
        key = (make, *map(id, of))
        if key not in self._made:
            self._made[key] = (make(self, *of), of)  # held, so that no other thing has its id
        made: Made = self._made[key][0]
        return made

    @cached_property
    def _made(self) -> dict[tuple[object, ...], Any]:
        return {}
