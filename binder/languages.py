"""Which languages a binder can be made in: those whose words and protocols are all there.

A language is a folder of its name in `content/words` and in `content/protocols`. One that lacks
a text, names other amounts or has other sheets than the English is refused: a sheet half in
another language is no help to anybody.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from binder import data, yamlfile

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.yamlfile import Plain

ENGLISH = "en"
OWN = frozenset({"british"})  # words that only English has
_NAMED = re.compile(r"\{[^{}]*\}")
_CODE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}", re.DOTALL)
_STEP = re.compile(r"^\d+\. ", re.MULTILINE)
_WARNING = re.compile(r"^!!! (\w+)", re.MULTILINE)
_SAME = ("sheet", "kind", "for", "needs", "sources")  # front matter that no language changes
_TOLD = 5  # mistakes named of each language: our choice


@lru_cache(maxsize=8)
def lacking(language: str) -> tuple[str, ...]:
    """Return what a language lacks beside the English, a line each; nothing where complete."""
    if language == ENGLISH:
        return ()
    words = data.CONTENT / "words"
    if not (words / language).is_dir():
        return (f"there are no words in content/words/{language}",)
    return (*_words(words / ENGLISH, words / language), *_protocols(language))


def refusal(language: str) -> str:
    """Return why a binder cannot be made in a language, empty where it can."""
    found = lacking(language)
    if not found:
        return ""
    more = f", and {len(found) - _TOLD} more" if len(found) > _TOLD else ""
    complete = ", ".join(known())
    return f"is not complete: {'; '.join(found[:_TOLD])}{more}; write {complete}"


def known() -> tuple[str, ...]:
    """Return the languages that are complete."""
    folders = sorted(path.name for path in (data.CONTENT / "words").iterdir() if path.is_dir())
    return tuple(one for one in folders if not lacking(one))


def _words(english: Path, other: Path) -> Iterator[str]:
    ours, theirs = _leaves_of(english), _leaves_of(other)
    yield from (f"words {key} are missing" for key in ours if key not in theirs)
    yield from (f"words {key} are not in English" for key in theirs if key not in ours)
    for key in ours.keys() & theirs.keys():
        if _names(_NAMED, ours[key]) != _names(_NAMED, theirs[key]):
            yield f"words {key} name something else"


def _leaves_of(folder: Path) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for path in sorted(folder.glob("*.yaml")):
        tree = yamlfile.read(path, path.name).data
        if isinstance(tree, dict):
            found |= {
                key: text for key, text in _leaves(tree) if key.partition(".")[0] not in OWN
            }
    return found


def _leaves(tree: Plain, key: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(tree, dict):
        for name, part in tree.items():
            yield from _leaves(part, f"{key}.{name}" if key else name)
    elif isinstance(tree, list):
        for at, part in enumerate(tree):
            yield from _leaves(part, f"{key}.{at}")
    else:
        yield key, tree or ""


def _names(pattern: re.Pattern[str], text: str) -> list[str]:
    return sorted(pattern.findall(text))


def _protocols(language: str) -> Iterator[str]:
    folder = data.CONTENT / "protocols"
    ours = {path.name for path in (folder / ENGLISH).glob("*.md")}
    theirs = {path.name for path in (folder / language).glob("*.md")}
    yield from (f"{name} is missing" for name in sorted(ours - theirs))
    yield from (f"{name} is not in English" for name in sorted(theirs - ours))
    for name in sorted(ours & theirs):
        one, other = _parts(folder / ENGLISH / name), _parts(folder / language / name)
        yield from (f"{name} has another {what}" for what in _differ(one, other))


def _parts(path: Path) -> tuple[Mapping[str, Plain], str]:
    _, head, body = path.read_text(encoding="utf-8").split("---\n", 2)
    fields = yamlfile.parse(head, path.name).data
    return (fields if isinstance(fields, dict) else {}), body


def _differ(
    one: tuple[Mapping[str, Plain], str], other: tuple[Mapping[str, Plain], str]
) -> Iterator[str]:
    (head, text), (its_head, its_text) = one, other
    yield from (field for field in _SAME if head.get(field) != its_head.get(field))
    if str(its_head.get("reviewed")) < str(head.get("reviewed")):
        yield "review, older than the English"
    for what, pattern in (("name in it", _CODE), ("count of steps", _STEP)):
        if _names(pattern, text) != _names(pattern, its_text):
            yield what
    if _WARNING.findall(text) != _WARNING.findall(its_text):
        yield "row of warnings"
