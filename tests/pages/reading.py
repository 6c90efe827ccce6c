"""A sheet as its reader takes it in: running text, steps, and how much a step asks for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html.parser import HTMLParser
from typing import Final

# Every word with which a step of ours asks for something. A step with none of them is no step,
# so a new verb shows itself by failing a test.
VERBS: Final = frozenset(
    re.findall(
        r"\w+",
        """
        act aim ask bring brush call carry change check choose clean close come compare cool
        count cover cut do double drain drink drive empty feel fill find fix follow freeze
        gather get give go hang hold keep lay leave let list listen load look make mark
        measure meet mix move multiply offer open paint pick plug point pour press print
        pull push put rake read report reset rinse run scrape scrub see seed set shut smell
        speak spread sprinkle stand start stay step stir stop store switch take tell test
        throw tick tie tip try turn unload use wait walk wash watch wear weigh wet wheel
        work write
        """,
    )
)
NO: Final = frozenset({"never", "no", "not", "nothing", "nobody"})
BLOCKS: Final = frozenset(
    {
        "p",
        "li",
        "h1",
        "h2",
        "h3",
        "td",
        "th",
        "tr",
        "table",
        "div",
        "section",
        "ul",
        "ol",
        "strong",
    }
)


@dataclass(frozen=True)
class Reading:
    """A sheet as a reader takes it in: its running text without tables, and its steps."""

    text: str
    steps: tuple[str, ...]


class _Reader(HTMLParser):
    """Cuts a sheet's body into blocks of text, each with the tags it stands in."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[tuple[str, str]] = []
        self.words: list[str] = []
        self.blocks: list[tuple[tuple[tuple[str, str], ...], str]] = []

    def flush(self) -> None:
        text = " ".join("".join(self.words).split())
        self.words = []
        if text:
            self.blocks.append((tuple(self.open), text))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in {"br", "hr", "img", "input"}:
            return
        if tag in BLOCKS:
            self.flush()
        self.open.append((tag, dict(attrs).get("class") or ""))

    def handle_endtag(self, tag: str) -> None:
        if tag in BLOCKS:
            self.flush()
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def reading(body: str) -> Reading:
    """Return what stands in a sheet's body."""
    reader = _Reader()
    reader.feed(body)
    reader.flush()
    text, steps = [], []
    for tags, words in reader.blocks:
        names = [name for name, _ in tags]
        classes = " ".join(some for _, some in tags).split()
        # Tables and drawings are left out, and so are titles and the small source line.
        if {"table", "svg"} & set(names) or names[-1] in {"h1", "h2", "h3", "strong"}:
            continue
        if {"eyebrow", "sources"} & set(classes):
            continue
        text.append(words if words[-1] in ".!?:" else f"{words}.")
        if ("ol", "steps") in tags and "more" not in classes:
            steps.append(words)
    return Reading(" ".join(text), tuple(steps))


def actions(step: str) -> int:
    """Return how many things a step asks for.

    Counted are the verbs that begin a sentence, or that follow a colon, a semicolon, "and" or
    "then". A sentence that begins with "never", "no" or "do not" says what not to do; alone it
    counts as one.
    """
    found, forbids = 0, False
    for sentence in re.split(r"(?<=[.!?])\s+", step):
        for part in re.split(r":\s+|;\s+|,?\s+and\s+|,?\s+then\s+", sentence):
            first, second, *_ = [*re.findall(r"[a-z']+", part.lower()), "", ""]
            if first in NO or (first == "do" and second in {"not", "only"}):
                forbids = True
                break
            found += first in VERBS
    return found or int(forbids)
