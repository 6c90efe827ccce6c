"""Ready for a second language: what is complete is told by the texts themselves.

The second language here is made from the English words: every word is a third longer.
What is still English on a page then came from code, or from the farm's owner.
"""

from __future__ import annotations

import datetime as dt
import html
import re
import shutil
from typing import TYPE_CHECKING

import pytest

from binder import data, display, languages
from binder.build import composed
from binder.data import CONTENT
from binder.figures.bands.band_rule import Band
from binder.pages.book import plan
from binder.pages.text import words
from tests.print.cells import complaints

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from binder.pages.page import Page

PSEUDO = "qps"
DAY = dt.date(2026, 7, 12)
KEPT = re.compile(
    r"\{\{.*?\}\}|\{%.*?%\}|\{[^{}]*\}|\[\[|\]\]|\|\||\\u[0-9a-f]{4}|\\N\{[^}]*\}|https?://\S+",
    re.DOTALL,
)
WORD = re.compile(r"[A-Za-z][A-Za-z']*")
MARK = "ø"  # in the print font


def changed(text: str) -> str:
    """Return a text whose words are a third longer; names, code and numbers stay."""
    parts, at = [], 0
    for kept in KEPT.finditer(text):
        parts += [longer(text[at : kept.start()]), kept[0]]
        at = kept.end()
    return "".join([*parts, longer(text[at:])])


def longer(text: str) -> str:
    """Return plain text with each word marked."""
    return WORD.sub(lambda found: found[0] + MARK * (len(found[0]) // 3 + 1), text)


def write_words(source: Path, to: Path) -> None:
    """Write the words of the second language: values are changed, keys are not."""
    import yaml  # noqa: PLC0415 -- a test may write YAML; the program only reads it

    to.mkdir(parents=True)
    for path in source.glob("*.yaml"):
        tree = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)  # noqa: S506 -- our own text
        tree.pop("british", None)
        (to / path.name).write_text(yaml.dump(through(tree), allow_unicode=True), "utf-8")


def through(tree: object) -> object:
    """Return words with every text changed."""
    if isinstance(tree, dict):
        return {key: through(part) for key, part in tree.items()}
    if isinstance(tree, list):
        return [through(part) for part in tree]
    return changed(str(tree))


def write_protocols(source: Path, to: Path) -> None:
    """Write the protocols of the second language: what the reader sees is changed."""
    to.mkdir(parents=True)
    for path in source.glob("*.md"):
        _, head, body = path.read_text("utf-8").split("---\n", 2)
        told = re.sub(
            r"(?m)^(title|summary|when|words): (.*)$",
            lambda found: f"{found[1]}: {changed(found[2])}",
            head,
        )
        lines = [line if line.startswith("!!!") else changed(line) for line in body.split("\n")]
        (to / path.name).write_text(f"---\n{told}---\n" + "\n".join(lines), "utf-8")


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Return the content with a second language in it, which the program reads."""
    folder = tmp_path_factory.mktemp("languages") / "content"
    shutil.copytree(CONTENT, folder)
    write_words(CONTENT / "words" / "en", folder / "words" / PSEUDO)
    write_protocols(CONTENT / "protocols" / "en", folder / "protocols" / PSEUDO)
    with pytest.MonkeyPatch.context() as patch:
        for module in (data, words, plan):
            patch.setattr(module, "CONTENT", folder)
        forget()
        yield folder
    forget()


def forget() -> None:
    """Forget what was read of words."""
    languages.lacking.cache_clear()
    words.load.cache_clear()


def test_english_alone_is_complete() -> None:
    """A farm in another language is refused, with what is missing."""
    assert languages.known() == ("en",)
    assert "there are no words in content/words/es" in languages.refusal("es")


def test_a_language_made_of_all_texts_is_complete(content: Path) -> None:
    """Same keys, names, sheets, steps, warnings and sources."""
    assert content.is_dir()
    assert languages.lacking(PSEUDO) == ()


def without_a_word(folder: Path) -> None:
    """Take one text away."""
    path = folder / "words" / PSEUDO / "site.yaml"
    text = path.read_text("utf-8")
    path.write_text(re.sub(r"(?m)^  menu:.*\n", "", text), "utf-8")


def without_a_step(folder: Path) -> None:
    """Take a step of an emergency away."""
    path = folder / "protocols" / PSEUDO / "e07-no-water-now.md"
    text = path.read_text("utf-8")
    path.write_text(re.sub(r"(?m)^6\. .*$", "", text, count=1), "utf-8")


def with_an_older_review(folder: Path) -> None:
    """Let the English be changed after the translation."""
    path = folder / "protocols" / PSEUDO / "e01-pig-in-heat-trouble.md"
    text = path.read_text("utf-8")
    path.write_text(re.sub(r"(?m)^reviewed: .*$", "reviewed: 2020-01-01", text), "utf-8")


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (without_a_word, "words site.menu are missing"),
        (without_a_step, "e07-no-water-now.md has another count of steps"),
        (with_an_older_review, "e01-pig-in-heat-trouble.md has another review, older"),
    ],
)
def test_a_language_with_a_gap_is_refused(
    content: Path, spoil: Callable[[Path], None], said: str, tmp_path: Path
) -> None:
    """One text, one step, one review that is older."""
    spoiled = tmp_path / "content"
    for part in ("words", "protocols"):
        shutil.copytree(content / part, spoiled / part)
    spoil(spoiled)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(data, "CONTENT", spoiled)
        languages.lacking.cache_clear()
        assert said in languages.refusal(PSEUDO)
    languages.lacking.cache_clear()


def english(content: Path) -> frozenset[str]:
    """Return the longer words of all English texts, in small letters."""
    texts = [
        path.read_text("utf-8")
        for part in ("words", "protocols")
        for path in (content / part / "en").iterdir()
    ]
    return frozenset(
        found[0].lower() for text in texts for found in WORD.finditer(KEPT.sub(" ", text))
    )


# Ids of sources, and the name of a service that pack and page both have as it is.
NAMES = re.compile(
    r"\b(?:heat|water|wallow|husbandry|extra)-\d+|our-choice|from-memory|common-practice"
    r"|US Poison Help"
)
TITLES = "sources"  # stand there as their publishers wrote them


@pytest.mark.parametrize("farm", ["example-finca", "example-farm"])
def test_no_english_is_left_but_what_the_owner_wrote(content: Path, farm: str) -> None:
    """Words of ours are marked; what is not marked is the owner's or a unit."""
    book = composed(content / farm, DAY, PSEUDO).book
    assert book.language == PSEUDO
    owners = " ".join(path.read_text("utf-8") for path in (content / farm).glob("*.yaml"))
    own = {found[0].lower() for found in WORD.finditer(owners)}
    known = english(content) - own
    marked = changed("(our choice)")
    sitters = [page for page in book.pages if "sitter" in page.editions]
    assert [page.sheet for page in sitters if marked in page.body] == []
    left: dict[str, set[str]] = {}
    for page in book.pages:
        if page.slug == TITLES:
            continue
        found_by = page.words.rpartition(" ")[
            0
        ]  # what leads to a protocol is cut in the middle
        said = f"{page.title} {page.body} {page.summary} {found_by}"
        text = html.unescape(re.sub(r"<[^>]+>", " ", said))
        unmarked = re.findall(rf"[A-Za-z']+(?![A-Za-z'{MARK}])", NAMES.sub(" ", text))
        found = {one for one in unmarked if len(one) > 3 and one.lower() in known}
        if found:
            left[page.sheet] = found
    assert left == {}
    said = " ".join(book.labels.values())
    unmarked = re.findall(rf"[A-Za-z]{{4,}}(?![A-Za-z{MARK}])", re.sub(r"\{[^{}]*\}", "", said))
    assert {one for one in unmarked if one.lower() in known} == set()


# Besides the first sheet of each kind: tables with many columns, which run over soonest.
WIDE = frozenset({"H13", "H31", "R20", "W2", "L10"})


@pytest.mark.slow
@pytest.mark.parametrize("farm", ["example-finca", "example-farm"])
def test_longer_words_keep_to_their_paper(content: Path, farm: str) -> None:
    """Words a third longer leave no page, no column, and no column of one word a line."""
    book = composed(content / farm, DAY, PSEUDO).book
    first: dict[str, Page] = {}
    for page in book.pages:
        first.setdefault(page.kind, page)
    wide = [page for page in book.pages if page.sheet in WIDE]
    assert len(first) > 14
    assert len(wide) >= len(WIDE) - 1
    printed = {page.slug: page for page in (*first.values(), *wide)}
    left = {page.sheet: found for page in printed.values() if (found := complaints(page, book))}
    assert left == {}


def test_every_unit_that_is_no_symbol_has_a_word() -> None:
    """Each part of a unit's name stands in the words, or is an SI symbol, the same everywhere.

    Symbols: SI Brochure (9th edition), tables 2 to 8; from memory.
    """
    symbols = {
        "L",
        "mL",
        "m",
        "km",
        "mm",
        "cm",
        "m²",
        "m³",
        "kg",
        "g",
        "kPa",
        "bar",
        "W",
        "A",
        "V",
        "h",
        "min",
        "s",
    }
    symbols |= {"\u00b0F", "\u00b0C", "%", "kcal", "mm\u00b2", ""}
    names = {
        shown.symbol for by_system in display.DISPLAY.values() for shown in by_system.values()
    }
    for table in (display.SAID, display.MEASURED, display.ALONE):
        names |= {
            name for rows in table.values() for row in rows for name in (row.one, row.many)
        }
    parts = {part for name in names for part in name.partition(" a day")[0].split("/")}
    assert parts - symbols == set(words.load().section("units")) - {"a day"}


def test_workings_have_a_name_for_every_class_and_band() -> None:
    """In English a table's row keeps its name, as `binder figure` says it."""
    named = words.load().section("table_names")
    assert set(words.load().section("class_one")) <= set(named)
    assert {band.word for band in Band} <= set(named)
    later = {"typical", "new", "returning"}
    assert {key: name for key, name in named.items() if key != name}.keys() == later
