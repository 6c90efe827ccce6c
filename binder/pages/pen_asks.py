"""What each number asks in a pen: a line for every kind of animal that lives there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.bands.band_charts import chart_of
from binder.figures.bands.band_rule import is_banded
from binder.figures.bands.farm_bands import Band
from binder.figures.herd.breeding import EXPECTED
from binder.figures.rounds.round_tasks import has_hose
from binder.pages.text import listing
from binder.pages.views import AskView

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from binder.farm.model import Pen
    from binder.figures.herd.groups import Group
    from binder.pages.context import Context

    Said = Mapping[str, tuple[str, ...]]  # sentences by kind of animal, which is its chart


def asks(
    context: Context, pen: Pen, groups: Sequence[Group], intervals: Mapping[str, str]
) -> tuple[AskView, ...]:
    """Return what each number asks: what it asks of all, then of each kind of animal by name.

    Args:
        context: what composing knows.
        pen: the pen.
        groups: who lives in it.
        intervals: how soon to be back, in words, by band.
    """
    kinds = _kinds(context, groups)
    instead = _instead(context, pen, groups)
    own: dict[Band, Said] = {
        band: {kind: _sentences(context, kind, band, instead) for kind in kinds}
        for band in Band
    }
    return tuple(
        AskView(
            band=int(band),
            word=context.w(f"band.{band.key}"),
            at="",
            back_in=intervals[band.key],
            do=_told(kinds, own[band]) or context.w("pen.no_asks"),
            above=_told(kinds, _above(context, own, band)),
        )
        for band in Band
    )


def _kinds(context: Context, groups: Iterable[Group]) -> Mapping[str, str]:
    """Return the charts whose lines a pen needs, each with the name of who they are for."""
    members: dict[str, list[Group]] = {}
    for group in groups:
        if is_banded(group.cls):
            members.setdefault(chart_of(group.cls), []).append(group)
    return {
        kind: here[0].animal.called if len(here) == 1 else context.w(f"asks.head.{kind}")
        for kind, here in members.items()
    }


def _instead(context: Context, pen: Pen, groups: Sequence[Group]) -> Mapping[str, str]:
    """Return what is said instead of sentences about what a pen has none of."""
    there = {
        "fan": bool(pen.fans),
        "litter": any(group.litter or _due(group) for group in groups),
        "hose": has_hose(pen),
        "boar": any(group.cls == "boar" for group in groups),
    }
    found: dict[str, str] = {}
    for what, is_there in there.items():
        if not is_there:
            found |= context.words.section(f"asks.without.{what}")
    return found


def _due(group: Group) -> bool:
    """Return whether young are expected of a group: what is said of them stands ready."""
    return any(event in EXPECTED for event, _, _ in group.dates)


def _sentences(
    context: Context, kind: str, band: Band, instead: Mapping[str, str]
) -> tuple[str, ...]:
    said = listing.sentences(context.w(f"asks.do.{kind}.{band.key}"))
    return tuple(dict.fromkeys(filter(None, (instead.get(part, part) for part in said))))


def _above(context: Context, own: Mapping[Band, Said], band: Band) -> Said:
    """Return what the milder numbers ask that still holds at one, the nearest row first."""
    found: dict[str, tuple[str, ...]] = {}
    for kind, now in own[band].items():
        said = dict.fromkeys(now)
        for lower in sorted((one for one in Band if one < band), reverse=True):
            for sentence in own[lower][kind]:
                if not _outdone(context, sentence, said):
                    said[sentence] = None
        found[kind] = tuple(sentence for sentence in said if sentence not in now)
    return found


def _outdone(context: Context, sentence: str, said: Iterable[str]) -> bool:
    """Return whether something said already asks for the same, and more of it."""
    more = context.words.section("asks.outdone").get(sentence, ())
    return any(one in more for one in said)


def _told(kinds: Mapping[str, str], said: Said) -> str:
    """Return sentences in a row: those for all first, then each kind's own with its name."""
    if not said:
        return ""
    for_all = [
        sentence
        for sentence in next(iter(said.values()))
        if all(sentence in each for each in said.values())
    ]
    parts = list(for_all)
    for kind, each in said.items():
        rest = [sentence for sentence in each if sentence not in for_all]
        if rest:
            name = f"{kinds[kind]}: " if len(kinds) > 1 else ""
            parts.append(name + " ".join(rest))
    return " ".join(parts)
