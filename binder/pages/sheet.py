"""The parts of a computed sheet: an answer, then headings, tables, steps, cautions, drawing.

A part that states an amount, a time or an interval carries its claims, but for numbers that
lead to their working: those say themselves what they are.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

    from binder.pages.claims.claim import Claim
    from binder.pages.text.rich import Text


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside the sheet."""

    text: str
    block: str = "heading"


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Plain lines of text; `small` for working, notes and disagreements."""

    text: Text
    small: bool = False
    block: str = "paragraph"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A table with real header cells; the first cell of a row heads it.

    `kind` is `facts`, `tasks`, `log` or `wide` (smaller type); `amounts` are the columns,
    counted from 0, that hold numbers.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[Text, ...], ...]
    kind: str = "facts"
    amounts: tuple[int, ...] = ()
    block: str = "table"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """Numbered steps: what to do, and a smaller line of detail (empty for none)."""

    items: tuple[tuple[Text, Text], ...]
    block: str = "steps"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Points:
    """A plain list."""

    items: tuple[Text, ...]
    block: str = "points"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution with its signal word: danger, warning, caution or notice."""

    signal: str
    text: Text
    block: str = "caution"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawing:
    """A chart or drawing of our own; `caption` may be empty, the alternative text may not."""

    html: Markup
    caption: Text = ""
    block: str = "drawing"
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Raw:
    """HTML of our own vocabulary that no other block makes: a grid of bands, workings."""

    html: Markup
    block: str = "raw"
    claims: tuple[Claim, ...] = ()


Block = Raw | Heading | Paragraph | Table | Steps | Points | Caution | Drawing


@dataclass(frozen=True, slots=True)
class Sheet:
    """A computed sheet before it is HTML. What it is called and for whom, the registry says.

    `claims` are those of its title and answer.
    """

    title: str
    answer: tuple[Text, ...]
    blocks: tuple[Block, ...]
    summary: str
    sources: tuple[str, ...] = ()
    words: str = ""
    kind: str = "figures"
    claims: tuple[Claim, ...] = ()

    @property
    def stated(self) -> tuple[Claim, ...]:
        """Return the claims of the whole sheet."""
        blocks = (block for block in self.blocks if not isinstance(block, Heading))
        return (*self.claims, *(one for block in blocks for one in block.claims))


@dataclass(frozen=True, slots=True)
class Filled:
    """A sheet with a template of its own, filled in: HTML already, head and all."""

    title: str
    body: str
    summary: str
    kind: str
    words: str = ""
    claims: tuple[Claim, ...] = ()

    @property
    def stated(self) -> tuple[Claim, ...]:
        """Return the claims of the whole sheet."""
        return self.claims
