"""What the tests of figures share: a farm written out, temperatures, what the words say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from binder import sources, units
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen, Stay
from binder.pages.text import words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.display import System
    from binder.figures.figure import Figure
    from binder.figures.finding import Finding

Written = Mapping[str, Any]  # as the owner would write it, of texts


def written_farm(
    *,
    animals: Iterable[Written | Animal] = (),
    pens: Iterable[Written] = (),
    equipment: Written | None = None,
    stays: Iterable[Written] = (),
    **about: Any,
) -> Farm:
    """Return a farm as its owner would write it; a pen is a run where it does not say."""
    return Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}, **about}),
        animals=tuple(map(Animal.model_validate, animals)),
        pens=tuple(Pen.model_validate({"name": "A pen", "kind": "run", **pen}) for pen in pens),
        equipment=EquipmentFile.model_validate(equipment or {}),
        contacts=(),
        stays=tuple(map(Stay.model_validate, stays)),
    )


def celsius(fahrenheit: float) -> float:
    """Return a temperature, as the binder would read it, in the unit that figures take [C]."""
    return units.parse(f"{fahrenheit} F", "temperature")


def us(figure: Figure | None) -> float:
    """Return a figure that must be there, in the units it prints in."""
    assert figure is not None
    return units.convert(figure.amount, "us")


def printed(figures: Iterable[Figure | None], system: System = "us") -> str:
    """Return everything the words say of figures; a missing word or source fails."""
    lexicon = words.load("en", system)
    lines: list[str] = []
    for figure in figures:
        if figure is not None:
            assert set(figure.sources) <= set(sources.all_sources()), figure.name
            lines += [lexicon.title(figure), lexicon.value(figure)]
            lines += [*lexicon.working(figure), *lexicon.cautions(figure)]
    return "\n".join(lines)


def printed_in_both(*figures: Figure) -> str:
    """Return everything the words say of figures in both systems."""
    return "\n".join([printed(figures, "us"), printed(figures, "metric")])


def keys_of(findings: Iterable[Finding]) -> list[str]:
    """Return the keys of findings; each must have its words."""
    lexicon = words.load()
    found = list(findings)
    assert all(lexicon.text(each.words, **dict(each.values)) for each in found)
    return [each.key for each in found]
