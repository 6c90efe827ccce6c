"""Parts of the maintained instructions that stand on a page of a pack, word for word."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.book.assemble import page_of_protocol
from binder.pages.sheet import Raw

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.context import Context
    from binder.pages.text.protocol_file import Protocol

_PART = re.compile(r'<section class="part"><h2>(.*?)</h2>.*?</section>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Told:
    """The instructions of the binder, to take parts from.

    Attributes:
        context: one that knows every sheet of the binder, as their other parts name them.
        protocols: by slug, those that this farm has.
        known: every name that they may use.
    """

    context: Context
    protocols: Mapping[str, Protocol]
    known: Mapping[str, object]

    def parts(self, slug: str, which: str = "") -> list[Raw]:
        """Return the parts of an instruction that a pack shows; none where the farm lacks it.

        Which they are, by their headings, is said under `pack: parts:`, by the slug or,
        for some of them, by another name: `which`.
        """
        one = self.protocols.get(slug)
        if one is None:
            return []
        wanted = self.context.words.many(f"pack.parts.{which or slug}")
        page = page_of_protocol(self.context, one, self.known)
        found = {part[1]: part[0] for part in _PART.finditer(page.body)}
        return [
            Raw(Markup(found[heading]))  # noqa: S704 -- as page_of_protocol made it
            for heading in wanted
            if heading in found
        ]
