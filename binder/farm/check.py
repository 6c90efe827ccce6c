"""Step 2, check: what was read becomes a `Farm`, or all that is wrong with it is said."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder import explain, units
from binder.farm import codes, days, map_sense, pictures, references, sense, size, text
from binder.farm.load import FILES
from binder.farm.model import (
    Animal,
    Contact,
    EquipmentFile,
    Farm,
    FarmFile,
    Pen,
    PrivateFile,
    Stay,
)
from binder.farm.tables import meant_words
from binder.fit import fit
from binder.problems import Problem, ProblemsError

if TYPE_CHECKING:
    import datetime as dt

    from binder.farm.load import Written
    from binder.fit import Model
    from binder.yamlfile import Document, Plain


@dataclass(frozen=True, slots=True)
class _Reader:
    """Puts each file into its model and keeps what does not fit."""

    written: Written
    problems: list[Problem] = field(default_factory=list)

    def mapping(self, name: str, model: type[Model]) -> Model | None:
        """Return a file that is one mapping, None where it is not or does not exist."""
        document = self.written.documents.get(name)
        if document is None:
            return None
        data = {} if document.data is None else document.data
        if not isinstance(data, dict):
            what = "a list" if isinstance(data, list) else "a single line of text"
            self._say(document, f"holds {what}, but keys belong here, each with a value")
            return None
        if not data and FILES[name]:
            self._say(document, f"is empty; {FILES[name]}")
            return None
        return self._read(document, model, (), data)

    def listed(self, name: str, model: type[Model]) -> dict[int, Model]:
        """Return the items of a file that is a list, by their number in it."""
        document = self.written.documents.get(name)
        if document is None:
            return {}
        data = [] if document.data is None else document.data
        if not isinstance(data, list):
            self._say(document, "does not hold a list; begin each item with a dash (-)")
            return {}
        if not data and FILES[name]:
            self._say(document, f"is empty; {FILES[name]}")
        read = ((n, self._read(document, model, (n,), item)) for n, item in enumerate(data))
        return {number: item for number, item in read if item is not None}

    def _read(
        self, document: Document, model: type[Model], start: tuple[int, ...], data: Plain
    ) -> Model | None:
        found = fit(model, data)
        self.problems.extend(
            explain.problem(document, model, start, mistake, meant_words())
            for mistake in found.mistakes
        )
        return found.value

    def _say(self, document: Document, message: str) -> None:
        self.problems.append(Problem(document.place(()), "", message))


def notes(written: Written, farm: Farm, on: dt.date) -> tuple[Problem, ...]:
    """Return what may be a slip in files that hold no mistake, for a day, in their order."""
    return tuple(sorted({*text.lost(written, vital=False), *days.notes(written, farm, on)}))


def check(written: Written, latest: dt.date | None = None) -> Farm:
    """Return the farm.

    Args:
        written: its files.
        latest: the last day on which something can have happened; None where any may be.

    Raises:
        ProblemsError: everything that is wrong in all of its files; where there is too much of
            something, only that.
    """
    if too_long := size.problems(written):
        raise ProblemsError([*written.problems, *too_long])
    reader = _Reader(written)
    about = reader.mapping("farm.yaml", FarmFile)
    animals = reader.listed("animals.yaml", Animal)
    pens = reader.listed("pens.yaml", Pen)
    equipment = reader.mapping("equipment.yaml", EquipmentFile)
    contacts = reader.listed("contacts.yaml", Contact)
    stays = reader.listed("stays.yaml", Stay)
    private = reader.mapping("private.yaml", PrivateFile)
    problems = [
        *written.problems,
        *reader.problems,
        *text.problems(written),
        *text.unprintable(written),
        *text.lost(written, vital=True),
        *references.problems(written),
        *(days.problems(written, latest) if latest else ()),
        *pictures.problems(written.documents, written.pictures),
        *codes.problems(written),
        *sense.problems(written, about, animals, pens, stays),
    ]
    if not reader.problems:  # a point left out because it is wrong has been told of
        problems += map_sense.problems(written, about, pens, equipment)
    if problems or about is None:
        raise ProblemsError(problems)
    at_home = about.model_copy(update={"country": about.pack.code})
    return Farm(
        about=at_home,
        animals=tuple(animals.values()),
        pens=tuple(pens.values()),
        equipment=_at_mains(equipment or EquipmentFile(), about.pack.said("mains")),
        contacts=tuple(contacts.values()),
        stays=tuple(stays.values()),
        codes=private.codes if private else (),
        pictures=tuple(name for name, each in written.pictures.items() if not each.fault),
    )


def _at_mains(equipment: EquipmentFile, mains: str) -> EquipmentFile:
    """Return the equipment with the country's voltage where a circuit tells none."""
    if not mains or all("voltage_v" in one.model_fields_set for one in equipment.circuits):
        return equipment
    volts = {"voltage_v": units.parse(mains, "voltage")}
    circuits = tuple(
        one if "voltage_v" in one.model_fields_set else one.model_copy(update=volts)
        for one in equipment.circuits
    )
    return equipment.model_copy(update={"circuits": circuits})
