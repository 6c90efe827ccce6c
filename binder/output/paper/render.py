"""Turns one sheet's HTML into a tagged PDF; runs in a process of its own (weasyprint's gate).

Run by `workers` only where a sheet has to be drawn: the library alone takes half a second to
load. A page that WeasyPrint has anything to complain about is not printed: on a farm a missing
picture or an unknown rule is a missing instruction.
"""

from __future__ import annotations

import contextlib
import gc
import logging
import pickle
import sys
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from binder.letters import OWN_FILES, SPARE_FILES
from binder.output.paper import quick
from binder.output.paper.fit import fitted
from binder.output.paper.quick import weasyprint
from binder.output.paper.quick.matching import Rules
from binder.output.paper.quick.sheet import Sheet, TooLongError
from binder.output.paper.workers import Drawn, PrintJob

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

quick.install()
letters, urls = weasyprint.text.fonts, weasyprint.urls

_FONTS = {path.name: path for path in (*OWN_FILES.values(), *SPARE_FILES.values())}
FONT_SCHEME, PICTURE_SCHEME = "font:", "picture:"
_TIDIED = 4  # our choice: sheets whose boxes are kept a while, some 40 MB
_LOG = logging.getLogger("weasyprint")


def draw(job: PrintJob) -> Drawn:
    """Return the sheet as a tagged PDF, or its faults, so that all sheets' come together."""
    try:
        with _complaints() as complaints:
            document = layout(job.html, job.css, job.pictures)
            finish = _Finish(job.name)
            # No identifier: the library would pack every part twice to work one out, and the
            # file that the sheet is joined into has its own.
            pdf = document.write_pdf(finisher=finish, pdf_tags=True, pdf_version="1.7")
    except urls.FatalURLFetchingError as error:
        return Drawn(b"", 0, (str(error),))
    faults = (*complaints, *finish.faults)
    return Drawn(b"" if faults else pdf, len(document.pages), faults)


def layout(html: str, css: str, pictures: Mapping[str, bytes]) -> Any:
    """Return a sheet laid out on as few pages as fit: the document of the printing library.

    Raises:
        FatalURLFetchingError: the sheet asks for something outside the book.
    """
    style, fonts = _stylesheet(css)
    source = Sheet(html, base_url="sheet:", url_fetcher=_Fetcher(pictures))
    source.own_style = f"{css}{html}"

    def lay_out(step: str, most: int) -> Any:
        source.begin(step, most)
        try:
            document = source.render(font_config=fonts, stylesheets=[source.held(style)])
        except TooLongError:
            return None
        return None if most and len(document.pages) > most else document

    return fitted(html, lay_out)


class _Fetcher(urls.URLFetcher):  # type: ignore[misc, name-defined] # it ships no types
    """Serves pictures and fonts held in memory; anything else stops the sheet."""

    def __init__(self, pictures: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols=("data",), allow_redirects=False)
        self._pictures = pictures

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> Any:
        """Return what `url` names.

        Raises:
            FatalURLFetchingError: an address outside the book, or a picture that it lacks.
        """
        if url.startswith("data:"):
            return super().fetch(url, headers)
        if url.startswith(FONT_SCHEME):
            path = _FONTS[url.removeprefix(FONT_SCHEME)]
            return urls.URLFetcherResponse(url, path.read_bytes(), {"Content-Type": "font/ttf"})
        name = url.removeprefix(PICTURE_SCHEME)
        if url.startswith(PICTURE_SCHEME) and name in self._pictures:
            kind = "image/png" if name.endswith(".png") else "image/jpeg"
            return urls.URLFetcherResponse(url, self._pictures[name], {"Content-Type": kind})
        message = f"wants {url}, which is neither a picture of this binder nor part of the page"
        raise urls.FatalURLFetchingError(message)


@lru_cache(maxsize=4)
def _stylesheet(css: str) -> tuple[Any, Any]:
    """Return the parsed style and its fonts: read once in a process, used for every sheet."""
    fonts = letters.FontConfiguration()
    style = weasyprint.CSS(
        string=css,
        base_url="sheet:",
        font_config=fonts,
        url_fetcher=_Fetcher({}),
        matcher=Rules(),
    )
    return style, fonts


@contextlib.contextmanager
def _complaints() -> Iterator[list[str]]:
    """Yield a list that fills with whatever WeasyPrint logs above info."""
    found: list[str] = []

    class Keeper(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            found.append(record.getMessage())

    keeper = Keeper(logging.WARNING)
    _LOG.addHandler(keeper)
    try:
        yield found
    finally:
        _LOG.removeHandler(keeper)


class _Finish:
    """Mends the tags of a PDF about to be written and looks at the fonts it came to use.

    WeasyPrint 70 tags the foot and the tab index as text that stands nowhere in the tree;
    PDF/UA (ISO 14289-1, 7.1 and 7.8) wants such text marked as an artifact. It also leaves out
    which way a header cell points (7.5).
    """

    def __init__(self, name: str) -> None:
        self.name = name
        self.faults: tuple[str, ...] = ()

    def __call__(self, document: Any, pdf: Any) -> None:
        """Do it; WeasyPrint calls this last."""
        self.faults = tuple(_strange_letters(document.fonts))
        elements: dict[int, Any] = {
            each.number: each for each in pdf.objects if _is(each, "/StructElem")
        }
        root = next(number for number, each in elements.items() if each["S"] == "/Document")
        reached: set[int] = set()
        _walk(root, elements, reached, "")
        _name_cells(pdf, [elements[number] for number in reached], self.name)
        strays = [each for number, each in elements.items() if number not in reached]
        _make_artifacts(pdf, strays)


def _walk(number: int, elements: Mapping[int, Any], reached: set[int], part: str) -> None:
    """Note all below `number`; header cells in a table's head point down, others right."""
    reached.add(number)
    element = elements[number]
    kind = element["S"]
    if kind == "/TH":
        element["A"]["Scope"] = "/Column" if part == "/THead" else "/Row"
    for child in element["K"]:
        if isinstance(child, bytes) and (below := int(child.split()[0])) in elements:
            _walk(below, elements, reached, kind if kind in _TABLE_PARTS else part)


def _name_cells(pdf: Any, elements: list[Any], name: str) -> None:
    """Make the ids of header cells unlike those of any other sheet, and list them."""
    ids: dict[str, Any] = {}

    def renamed(old: Any) -> Any:
        return type(old)(f"{name} {old.string}")

    for element in elements:
        if "ID" in element:
            element["ID"] = renamed(element["ID"])
            ids[element["ID"].string] = element
        if "Headers" in element.get("A", {}):
            headers = element["A"]["Headers"]
            headers[:] = [renamed(each) for each in headers]
    root = next(each for each in pdf.objects if _is(each, "/StructTreeRoot"))
    pairs = [part for key in sorted(ids) for part in (ids[key]["ID"], ids[key].reference)]
    if pairs:
        root["IDTree"] = type(root)({"Names": type(root["K"])(pairs)})


_TABLE_PARTS = frozenset({"/THead", "/TBody", "/TFoot"})


def _make_artifacts(pdf: Any, strays: list[Any]) -> None:
    """Turn the text of elements outside the tree into page artifacts."""
    by_page: dict[bytes, set[int]] = {}
    for element in strays:
        numbers = {kid for kid in element["K"] if isinstance(kid, int)}
        by_page.setdefault(element["Pg"], set()).update(numbers)
    streams = {each.reference: each for each in pdf.objects if hasattr(each, "stream")}
    for reference, numbers in by_page.items():
        page = pdf.objects[int(reference.split()[0])]
        operations = streams[page["Contents"]].stream
        for at, operation in enumerate(operations):
            if isinstance(operation, dict) and operation.get("MCID") in numbers:
                operations[at - 1] = "/Artifact"
                operations[at] = type(operation)({"Type": "/Pagination"})
    _forget(pdf, {each.reference for each in strays})


def _forget(pdf: Any, references: set[bytes]) -> None:
    """Take elements out of the list that leads from text on a page back to the tree."""
    root = next(each for each in pdf.objects if _is(each, "/StructTreeRoot"))
    parents = pdf.objects[int(root["ParentTree"].split()[0])]["Nums"]
    for row in parents:
        if isinstance(row, list):
            row[:] = [b"null" if each in references else each for each in row]


def _is(thing: object, kind: str) -> bool:
    return isinstance(thing, dict) and thing.get("Type") == kind


def _strange_letters(fonts: Mapping[object, Any]) -> Iterator[str]:
    """Yield a fault for every font that is not the binder's own: a letter it lacks was used."""
    for font in fonts.values():
        if font.to_unicode and letters.get_hb_object_data(font.hb_face) not in _our_fonts():
            used = " ".join(sorted({text for text in font.to_unicode.values() if text}))
            yield f"has letters that only {font.family} has, not the print font: {used}"


@lru_cache(maxsize=1)
def _our_fonts() -> frozenset[bytes]:
    return frozenset(path.read_bytes() for path in _FONTS.values())


def main() -> None:
    """Draw what comes in on one pipe, answer on the other, until the first is closed."""
    jobs, answers = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr  # whatever a library prints must not come between the answers
    # A sheet's boxes all live until it is drawn: looking among them for rubbish all the while
    # takes a seventh of the time. They are thrown away after every few sheets; what is kept
    # for the next ones (rules, measured lines) is not looked through again.
    gc.freeze()
    gc.disable()
    drawn = 0
    while True:
        try:
            job = pickle.load(jobs)  # noqa: S301 -- from the process that started this one
        except EOFError:
            return
        pickle.dump(draw(job), answers)
        answers.flush()
        drawn += 1
        if drawn % _TIDIED == 0:
            gc.collect()
            gc.freeze()


if __name__ == "__main__":
    main()
