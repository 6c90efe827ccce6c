"""Every word the reader sees that is not a protocol: `content/words/en/*.yaml`, merged.

Two files may not define the same top-level key. A missing word stops the build: a blank on a
farm page is a missing instruction. A measure that is part of the words is written in both
systems, `[[12 in|30 cm]]`, and prints as the reader needs it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from binder import places, units, yamlfile
from binder.data import CONTENT, plain
from binder.display import MARKS, Marks, System
from binder.figures.limits import limits
from binder.pages.text.country import british, pumped, terms
from binder.pages.text.filler import Filler
from binder.problems import Place, Problem, ProblemsError, did_you_mean
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.figure import Figure, Step
    from binder.places import Pack


@dataclass(frozen=True)
class Words:
    """The words of one language, filled in for one system of units.

    Attributes:
        tree: the words by key.
        system: whose units come first, or stand alone.
        language: the folder they were read from.
        limits: published amounts that any words may name, `{gate}`, without being given them.
        terms: what things are called in the country, that any words may name too.
        marks: how numbers are written there.
        clock_24: clocks count to 24 there.
        respell: gives a text of ours the spelling of the country.
    """

    tree: Mapping[str, Any]
    system: System = "us"
    language: str = "en"
    limits: Mapping[str, Amount] = field(default_factory=dict)
    terms: Mapping[str, str] = field(default_factory=dict)
    marks: Marks = MARKS
    clock_24: bool = False
    respell: Callable[[str], str] = str

    @cached_property
    def _always(self) -> Mapping[str, object]:
        """Return what any words may name."""
        return {**self.limits, **self.terms}

    def ours(self, text: str) -> str:
        """Return a maintained text in the reader's measures and spelling."""
        return self.respell(in_measures(text, self.system, self.marks))

    def text(self, key: str, **values: object) -> str:
        """Return the words at `key` (`pen.title`), its `{names}` filled in.

        Raises:
            ProblemsError: no such words, or a name that is not given.
        """
        return self._fill(key, values)

    def get(self, key: str, otherwise: str) -> str:
        """Return the plain words at `key`, or `otherwise` where there are none."""
        found = self._look(key)
        return found if isinstance(found, str) else otherwise

    def with_limits(self, pattern: str, **values: object) -> str:
        """Return a text out of a list of words, its {names} filled in, limits among them.

        Raises:
            ProblemsError: it names what is no limit and is not given.
        """
        return self._put(pattern, pattern, {**self._always, **values})

    def of_emergency(self, what: str, number: str) -> str:
        """Return words that name the emergency number, or do without where it is empty."""
        key = f"country.emergency.{what}{'' if number else '_none'}"
        return self.text(key, emergency=number)

    def has(self, key: str) -> bool:
        """Return whether there are words at `key`."""
        return isinstance(self._look(key), str)

    def many(self, key: str) -> tuple[str, ...]:
        """Return a list of words at `key`.

        Raises:
            ProblemsError: no such list.
        """
        found = self._look(key)
        if not isinstance(found, list):
            raise self._missing(key)
        return tuple(str(item) for item in found)

    def items(self, key: str) -> tuple[Mapping[str, Any], ...]:
        """Return a list of mappings at `key`.

        Raises:
            ProblemsError: no such list.
        """
        found = self._look(key)
        if not isinstance(found, list):
            raise self._missing(key)
        return tuple(item for item in found if isinstance(item, dict))

    def section(self, key: str) -> Mapping[str, Any]:
        """Return the mapping at `key`.

        Raises:
            ProblemsError: no such mapping.
        """
        found = self._look(key)
        if not isinstance(found, dict):
            raise self._missing(key)
        return found

    def title(self, figure: Figure) -> str:
        """Return the figure's heading."""
        return self.text(f"{figure.name}.title")

    def measured(self, figure: Figure) -> str:
        """Return the figure's value as a sheet prints it: so that one can measure it out."""
        if isinstance(figure.value, Amount):
            return units.measure(figure.value, self.system, self.marks)
        return self.value(figure)

    def value(self, figure: Figure) -> str:
        """Return the figure's value to the digits that it is known to."""
        if isinstance(figure.value, Amount):
            return units.show(figure.value, self.system, self.marks)
        if isinstance(figure.value, str):
            return figure.value
        return ", ".join(units.show(amount, self.system, self.marks) for amount in figure.value)

    def working(self, figure: Figure) -> tuple[str, ...]:
        """Return the lines of working with the numbers put in."""
        return tuple(self._step(figure.name, line) for line in figure.working)

    def cautions(self, figure: Figure) -> tuple[str, ...]:
        """Return the figure's cautions."""
        return tuple(self.text(f"{figure.name}.cautions.{key}") for key in figure.cautions)

    def _step(self, name: str, line: Step) -> str:
        return self._fill(f"{name}.working.{line.key}", dict(line.values), exact=True)

    def _fill(self, key: str, values: Mapping[str, object], *, exact: bool = False) -> str:
        return self._put(key, self._at(key), {**self._always, **values}, exact=exact)

    def _put(
        self, key: str, pattern: str, values: Mapping[str, object], *, exact: bool = False
    ) -> str:
        try:
            return Filler(self.system, self.marks, exact=exact).vformat(pattern, (), values)
        except (KeyError, IndexError, ValueError) as error:
            message = f"the words need {error}, which is not given here"
            raise ProblemsError([Problem(self._place(), key, message)]) from error

    def _at(self, key: str) -> str:
        found = self._look(key)
        if not isinstance(found, str):
            raise self._missing(key)
        return found

    def _look(self, key: str) -> object:
        here: object = self.tree
        for part in key.split("."):
            if not isinstance(here, dict) or part not in here:
                return None
            here = here[part]
        return here

    def _missing(self, key: str) -> ProblemsError:
        head, _, last = key.rpartition(".")
        beside = self._look(head) if head else self.tree
        names: Sequence[str] = list(beside) if isinstance(beside, dict) else ()
        message = f"has no words{did_you_mean(last, names)}"
        return ProblemsError([Problem(self._place(), key, message)])

    def _place(self) -> Place:
        return Place(f"content/words/{self.language}")


_BOTH = re.compile(r"\[\[([^|\]]+)\|([^|\]]+)\]\]")
_EITHER = re.compile(r"\[\[((?:(?!\|\||\]\]).)+)\|\|((?:(?!\]\]).)+)\]\]")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)+")
_COLUMN = "\N{BROKEN BAR}"  # parts the cells of a table inside such brackets


def in_measures(text: str, system: System, marks: Marks = MARKS) -> str:
    """Return a text of ours with the measures that the reader needs.

    `[[12 in|30 cm]]` is `12 in (30 cm)` where US measures lead, `30 cm` alone where metric ones
    do; `[[cup||jug]]` is the one or the other.
    """
    if "[[" not in text:
        return text
    if system == "us":
        text = _EITHER.sub(lambda found: found[1].replace(_COLUMN, "|"), text)
        return _BOTH.sub(r"\1 (\2)", text)
    text = _EITHER.sub(lambda found: _marked(found[2], marks).replace(_COLUMN, "|"), text)
    return _BOTH.sub(lambda found: _marked(found[2], marks), text)


def _marked(text: str, marks: Marks) -> str:
    return _NUMBER.sub(lambda found: marks.put(found[0]), text)


def _in_order(tree: Any, system: System, pack: Pack, respell: Callable[[str], str]) -> Any:
    """Return words in the reader's measures and spelling."""
    if isinstance(tree, dict):
        return {key: _in_order(value, system, pack, respell) for key, value in tree.items()}
    if isinstance(tree, list):
        return [_in_order(value, system, pack, respell) for value in tree]
    return respell(in_measures(tree, system, pack.marks)) if isinstance(tree, str) else tree


@lru_cache(maxsize=8)
def load(language: str = "en", system: System = "us", country: str = places.HOME) -> Words:
    """Return the words of `language` for a country, in its own or the owner's measures.

    Raises:
        ProblemsError: unreadable words, or a key defined by two files.
    """
    tree: dict[str, Any] = {}
    problems: list[Problem] = []
    for path in sorted((CONTENT / "words" / language).glob("*.yaml")):
        name = f"content/words/{language}/{path.name}"
        data = plain(path, name)
        if not isinstance(data, dict):
            continue
        for key, value in data.items():
            if key in tree:
                place = yamlfile.read(path, name).key_place((key,))
                problems.append(Problem(place, key, "stands in two files"))
            tree[key] = value
    if problems:
        raise ProblemsError(problems)
    pack = places.pack(country)
    respell = british(tree.pop("british", {})) if pack.british else str
    tree = _in_order(tree, system, pack, respell)
    marks = replace(pack.marks, units=tree.get("units", {}))
    printed = {name: units.show(amount, system, marks) for name, amount in limits().items()}
    return Words(
        tree, system, language, limits(), terms(pack, tree.get("country", {}), printed),
        marks, pack.clock_24, respell,
    )  # fmt: skip


def of(farm: Farm) -> Words:
    """Return the words for a farm: its measures, its country's, its way of getting water."""
    about = farm.about
    said = load(about.language, about.units, about.pack.code)
    stops = said.section(f"water_stops.{'pump' if pumped(farm) else 'mains'}")
    no_address = said.of_emergency("no_address", about.emergency)
    return replace(said, terms={**said.terms, **stops, "no_address": no_address})
