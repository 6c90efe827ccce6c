"""Parts of the maintained instructions that stand on a page of a pack, word for word."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.book.assemble import page_of_protocol
from binder.pages.sheet import Raw
from binder.pages.text.protocol import plain_text
from binder.problems import Place, Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.pages.context import Context
    from binder.pages.text.protocol_file import Protocol

_PART = re.compile(r'<section class="part"><h2>(.*?)</h2>.*?</section>', re.DOTALL)
_HEADING = re.compile(r"(?m)^## +(.+?) *$")


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
        for some of them, by another name: `which`. One whose table holds nothing for this farm
        is left out. An owner's own version may have other headings: then all of it stands.

        Raises:
            ProblemsError: a maintained instruction has no such heading.
        """
        one = self.protocols.get(slug)
        if one is None:
            return []
        key = f"pack.parts.{which or slug}"
        wanted = self.context.words.many(key)
        page = page_of_protocol(self.context, one, self.known)
        found = {plain_text(part[1]): part[0] for part in _PART.finditer(page.body)}
        lacking = [heading for heading in wanted if heading not in self._headings(one)]
        if lacking and not one.owner_version:
            raise _renamed(one, key, lacking, self._headings(one))
        return [
            Raw(Markup(found[heading]))  # noqa: S704 -- as page_of_protocol made it
            for heading in (found if lacking else wanted)
            if heading in found
        ]

    def _headings(self, one: Protocol) -> tuple[str, ...]:
        """Return the headings of an instruction as it is written."""
        text = one.text if one.owner_version else self.context.words.ours(one.text)
        return tuple(_HEADING.findall(text))


def _renamed(
    one: Protocol, key: str, lacking: Sequence[str], headings: Sequence[str]
) -> ProblemsError:
    where = Place(one.file, one.line_of("## "), 1)
    return ProblemsError(
        [
            Problem(
                where,
                "",
                f'has no heading "{heading}", which a sitter\'s pack shows ({key})'
                f"{did_you_mean(heading, headings)}",
            )
            for heading in lacking
        ]
    )
