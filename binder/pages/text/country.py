"""What a country's pack says, in words: its terms, its law, its spelling."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.farm.model import Farm
    from binder.places import Pack

# Term -> the fact of the pack that chooses its words.
_BY_FACT = {"shock_switch": "shock_switch", "shock_outlet": "shock_switch"}
# Terms whose words go by the country itself.
_BY_CODE = (
    "local_rules", "local_rules_first", "official_vet", "advice_office", "carcass_rules",
)  # fmt: skip
_OTHERWISE = "any"


def terms(pack: Pack, words: Mapping[str, Any], limits: Mapping[str, str]) -> Mapping[str, str]:
    """Return the terms of a country by their names; none where the language has no words.

    Args:
        pack: the country's.
        words: the section `country` of a language.
        limits: published amounts by their names, as they print.
    """
    if not words:
        return {}
    found = {
        term: _choose(words[term], pack.said(fact, _OTHERWISE))
        for term, fact in _BY_FACT.items()
    }
    found |= {term: _choose(words[term], pack.code) for term in _BY_CODE}
    found["report_law"] = _law(pack, "report", words)
    found["dig_first"] = _law(pack, "dig", words)
    found["bleach_sold"] = _law(pack, "bleach", words).format_map(limits)
    return found


def pumped(farm: Farm) -> bool:
    """Return whether the farm's water hangs on a pump of its own; so where nothing is known."""
    sources = farm.equipment.water_sources
    if any(source.kind == "well" or source.pump_w for source in sources):
        return True
    return not any(source.kind == "mains" for source in sources)


def _choose(words: Mapping[str, str], wanted: str) -> str:
    return words.get(wanted, words[_OTHERWISE])


def _law(pack: Pack, fact: str, words: Mapping[str, Any]) -> str:
    """Return the sentence of a law, with the body and the number that the pack names."""
    found = pack.facts.get(fact)
    sentence = _choose(words[fact], found.law if found else _OTHERWISE)
    if found is None:
        return sentence
    body = " ".join(part for part in (found.who, found.said) if part)
    return sentence.format(said=found.said, body=body, number=pack.marks.put(found.said))


def british(spelling: Mapping[str, str]) -> Callable[[str], str]:
    """Return what spells a text as in Britain; placeholders and code in braces stay."""
    words = {**spelling, **{key.capitalize(): to.capitalize() for key, to in spelling.items()}}
    either = "|".join(map(re.escape, sorted(words, key=len, reverse=True)))
    one = re.compile(rf"({_BRACES})|\b({either})\b", re.DOTALL)

    def respell(text: str) -> str:
        return one.sub(lambda found: found[1] or words[found[2]], text)

    return respell if words else str


_BRACES = r"\{\{.*?\}\}|\{%.*?%\}|\{[^{}]*\}"
