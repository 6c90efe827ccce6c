"""Joins drawn sheets into one tagged file with bookmarks and working links (pikepdf's gate).

What a reader's software needs is merged by hand, as the PDF standard lays it out: one structure
tree (ISO 32000-1, 14.7), one tree of bookmarks (12.3.3), one set of page labels (12.4.2).
"""

from __future__ import annotations

import contextlib
import io
from bisect import bisect_right
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from binder.letters import BOLD
from binder.output.paper.page_numbers import number_pages
from binder.pages.page import working_anchor

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

SHEET, WORKING = "sheet:", "working:"


class Numbered(Enum):
    """Whether the pages of a file are numbered, and on how many sides of a leaf they print."""

    NO, ONE_SIDED, TWO_SIDED = range(3)


@dataclass(frozen=True, slots=True)
class Piece:
    """One drawn sheet on its way into the file.

    Attributes:
        slug: what `sheet:SLUG` links point to.
        label: the sheet's id, shown by readers as the page's number.
        title: its bookmark.
        group: the bookmark above it, or empty.
        pdf: the drawn pages.
        blank_after: whether an empty page follows (the back of the last leaf).
    """

    slug: str
    label: str
    title: str
    group: str
    pdf: bytes
    blank_after: bool = False


@dataclass(frozen=True, slots=True)
class Joined:
    """The file, and where in it each sheet begins [page, from 1]."""

    pdf: bytes
    pages: int
    starts: Mapping[str, int]


def join(
    pieces: Sequence[Piece],
    *,
    title: str,
    language: str,
    date: str,
    fonts: Mapping[str, bytes] | None = None,
    numbered: Numbered = Numbered.NO,
) -> Joined:
    """Return one file of all `pieces`, the same bytes for the same input.

    Args:
        pieces: in the order of the binder.
        title: of the file, as readers show it.
        language: of the text, like `en`.
        date: the day it was made for, `2026-06-01`; no clock is read.
        fonts: name in the PDF -> whole font file, to store once for all sheets.
        numbered: whether the foot says which page of the file each is.
    """
    with contextlib.ExitStack() as stack:
        out = stack.enter_context(pikepdf.new())
        tree = _Tree(out)
        starts: dict[str, int] = {}
        for piece in pieces:
            starts[piece.slug] = len(out.pages) + 1
            source = stack.enter_context(pikepdf.open(io.BytesIO(piece.pdf)))
            tree.add(piece, source)
        tree.mend_links(starts, pieces)
        tree.close()
        _add_bookmarks(out, pieces, starts)
        _add_labels(out, pieces, starts)
        shared = _share_fonts(out, fonts or {})
        if numbered is not Numbered.NO and BOLD in (fonts or {}):
            letters = shared.get(BOLD) or _whole_font(out, (fonts or {})[BOLD])
            number_pages(out, letters, two_sided=numbered is Numbered.TWO_SIDED)
        _describe(out, title, language, date)
        made = io.BytesIO()
        modern = pikepdf.ObjectStreamMode.generate
        out.save(made, deterministic_id=True, min_version="1.7", object_stream_mode=modern)
        return Joined(made.getvalue(), len(out.pages), starts)


class _Tree:
    """The structure tree of the joined file, grown sheet by sheet."""

    def __init__(self, out: pikepdf.Pdf) -> None:
        self.out = out
        self.document = out.make_indirect(
            Dictionary(Type=Name.StructElem, S=Name.Document, K=Array())
        )
        self.rows: dict[int, Any] = {}
        self.ids: dict[str, Any] = {}
        self.next_key = 0
        self.anchors: dict[str, tuple[int, float]] = {}

    def add(self, piece: Piece, source: pikepdf.Pdf) -> None:
        """Append the pages of a sheet and hang its tree under the document."""
        first = len(self.out.pages)
        self._note_anchors(source, first)
        self.out.pages.extend(source.pages)
        root = self.out.copy_foreign(source.Root.StructTreeRoot)
        part = root.K[0]
        part.S, part.P = Name.Sect, self.document
        part.T = String(f"{piece.label} {piece.title}".strip())
        self.document.K.append(part)
        self._renumber(root, first)
        names = list(root.get("/IDTree", Dictionary(Names=Array())).Names)
        self.ids |= {str(key): cell for key, cell in zip(names[::2], names[1::2], strict=True)}
        if piece.blank_after:
            self._add_blank()

    def close(self) -> None:
        """Write the tree into the file."""
        flat = Array([each for row in sorted(self.rows.items()) for each in row])
        root = self.out.make_indirect(
            Dictionary(
                Type=Name.StructTreeRoot,
                K=Array([self.document]),
                ParentTree=self.out.make_indirect(Dictionary(Nums=flat)),
                ParentTreeNextKey=self.next_key,
            )
        )
        if self.ids:
            names = [part for key in sorted(self.ids) for part in (String(key), self.ids[key])]
            root.IDTree = self.out.make_indirect(Dictionary(Names=Array(names)))
        self.document.P = root
        self.out.Root.StructTreeRoot = root

    def mend_links(self, starts: Mapping[str, int], pieces: Sequence[Piece]) -> None:
        """Turn `sheet:` and `working:` addresses into jumps within the file.

        A sheet that is not in this file (another edition, a change set) keeps its text and
        loses its link: the reader has it on paper, or has no use for it.
        """
        firsts = [starts[piece.slug] - 1 for piece in pieces]
        for page in self.out.pages:
            kept = []
            for link in page.obj.get("/Annots", Array()):
                address = str(link.A.URI) if "/A" in link and "/URI" in link.A else ""
                if not address.startswith((SHEET, WORKING)):
                    kept.append(link)
                elif (jump := _jump(address, self.anchors, starts)) is None:
                    self._unlink(link)
                else:
                    number, height = jump
                    target = self.out.pages[number]
                    top = float(target.mediabox[3]) if height is None else height
                    link.Dest = Array([target.obj, Name.XYZ, 0, top, 0])
                    piece = pieces[bisect_right(firsts, number) - 1]
                    link.Contents = String(f"{piece.label} {piece.title}".strip())
                    del link["/A"]
                    kept.append(link)
            if "/Annots" in page.obj:
                page.obj.Annots = Array(kept)

    def _unlink(self, link: Any) -> None:
        """Take a link out of the tree; its words stay as plain text."""
        element = self.rows.pop(int(link.StructParent))
        element.S = Name.Span
        element.K = Array(
            kid for kid in element.K if not (isinstance(kid, Dictionary) and "/Obj" in kid)
        )

    def _note_anchors(self, source: pikepdf.Pdf, first: int) -> None:
        """Remember where each named place of the sheet stands: page and height."""
        numbers = {page.obj.objgen: at for at, page in enumerate(source.pages)}
        dests = source.Root.get("/Names", Dictionary()).get("/Dests", Dictionary())
        listed = list(dests.get("/Names", Array()))
        for name, place in zip(listed[::2], listed[1::2], strict=True):
            page = numbers[place[0].objgen]
            self.anchors.setdefault(str(name), (first + page, float(place[3])))

    def _renumber(self, root: pikepdf.Object, first: int) -> None:
        """Shift the keys that lead from pages and links to the tree, and take over the list."""
        shift = self.next_key
        for page in list(self.out.pages)[first:]:
            page.obj.StructParents = int(page.obj.StructParents) + shift
            for link in page.obj.get("/Annots", Array()):
                if "/StructParent" in link:
                    link.StructParent = int(link.StructParent) + shift
        listed = list(root.ParentTree.Nums)
        for key, value in zip(listed[::2], listed[1::2], strict=True):
            self.rows[int(key) + shift] = value
        self.next_key = max(self.rows, default=-1) + 1

    def _add_blank(self) -> None:
        """Add the empty back of a leaf: nothing to read, so nothing in the tree."""
        box = self.out.pages[-1].mediabox
        self.out.add_blank_page(page_size=(float(box[2]), float(box[3])))


def _jump(
    address: str, anchors: Mapping[str, tuple[int, float]], starts: Mapping[str, int]
) -> tuple[int, float | None] | None:
    """Return page index and height (None: its top) of an address, None when it is absent."""
    kind, _, name = address.partition(":")
    slug, _, place = name.partition("#")
    if kind == "working":
        return anchors.get(working_anchor(name))
    if place and place in anchors:
        return anchors[place]
    # What a screen has on a page of its own may stand on a sheet with others.
    return (starts[slug] - 1, None) if slug in starts else anchors.get(slug)


def _add_bookmarks(
    out: pikepdf.Pdf, pieces: Sequence[Piece], starts: Mapping[str, int]
) -> None:
    """Write a bookmark for each tab and, below it, for each sheet."""
    with out.open_outline() as outline:
        groups: dict[str, pikepdf.OutlineItem] = {}
        for piece in pieces:
            page = starts[piece.slug] - 1
            item = pikepdf.OutlineItem(f"{piece.label}  {piece.title}".strip(), page, "XYZ")
            if not piece.group:
                outline.root.append(item)
                continue
            if piece.group not in groups:
                groups[piece.group] = pikepdf.OutlineItem(piece.group, page, "XYZ")
                groups[piece.group].is_closed = True
                outline.root.append(groups[piece.group])
            groups[piece.group].children.append(item)
    out.Root.PageMode = Name.UseOutlines


def _add_labels(out: pikepdf.Pdf, pieces: Sequence[Piece], starts: Mapping[str, int]) -> None:
    """Let readers show `E1` or `P2 page 1` as the page's number."""
    numbers: list[Any] = []
    ends = [*(starts[each.slug] for each in pieces), len(out.pages) + 1][1:]
    for piece, end in zip(pieces, ends, strict=True):
        start = starts[piece.slug]
        rule = Dictionary(P=String(piece.label or piece.title))
        if end - start > 1:
            rule = Dictionary(P=String(f"{piece.label or piece.title}."), S=Name.D, St=1)
        numbers += [start - 1, rule]
    out.Root.PageLabels = out.make_indirect(Dictionary(Nums=Array(numbers)))


def _whole_font(out: pikepdf.Pdf, raw: bytes) -> Any:
    return out.make_stream(raw, Length1=len(raw))


def _share_fonts(out: pikepdf.Pdf, fonts: Mapping[str, bytes]) -> dict[str, Any]:
    """Store each font once and whole, in place of every sheet's own selection of letters.

    A selection keeps the letters' numbers, so that the whole font serves all sheets alike.
    """
    shared: dict[str, Any] = {}
    for page in out.pages:
        for font in (
            page.obj.get("/Resources", Dictionary()).get("/Font", Dictionary()).values()
        ):
            below = font.DescendantFonts[0].FontDescriptor
            name = str(below.FontName).partition("+")[2]
            if name in fonts and name not in shared:
                shared[name] = _whole_font(out, fonts[name])
            if name in shared:
                below.FontFile2 = shared[name]
    return shared


def _describe(out: pikepdf.Pdf, title: str, language: str, date: str) -> None:
    """Write what PDF/UA-1 (ISO 14289-1, 5 and 7.1) asks of the file as a whole."""
    out.Root.Lang = String(language)
    out.Root.MarkInfo = Dictionary(Marked=True)
    out.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    with out.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        metadata["dc:title"] = title
        metadata["dc:language"] = [language]
        metadata["pdfuaid:part"] = "1"
        metadata["xmp:CreateDate"] = f"{date}T00:00:00Z"
    out.docinfo["/Title"] = title
    out.docinfo["/CreationDate"] = f"D:{date.replace('-', '')}000000Z"
