"""Step 2, check: what was read becomes a `Farm`, or everything that is wrong with it is said."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.farm import explain, references, sense, text
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
    read_as,
)
from binder.problems import Problem, ProblemsError

if TYPE_CHECKING:
    from binder.farm.load import Written
    from binder.farm.model import Model
    from binder.yamlfile import Document, Plain



@dataclass(slots=True)
class _Findings:
    """What the models made of the files so far, each with the path it stands at."""

    written: Written
    problems: list[Problem] = field(default_factory=list)

    def mapping(self, name: str, model: type[Model]) -> Model | None:
        """Return a file that is one mapping, None where it does not fit or does not exist."""
        document = self.written.documents.get(name)
        if document is None:
            return None
        data = document.data if document.data is not None else {}
        if not isinstance(data, dict):
            self._say(document, "holds a list, but keys and values belong here, like name: ...")
            return None
        if not data and FILES[name]:
            self._say(document, f"is empty; {FILES[name]}")
            return None
        return self._read(document, model, (), data)

    def listed(self, name: str, model: type[Model]) -> dict[int, Model]:
        """Return the items of a file that is a list, by their number, those that fit."""
        document = self.written.documents.get(name)
        if document is None:
            return {}
        data = document.data if document.data is not None else []
        if not isinstance(data, list):
            self._say(document, "does not hold a list; begin each item with a dash (-)")
            return {}
        if not data and FILES[name]:
            self._say(document, f"is empty; {FILES[name]}")
        read = {n: self._read(document, model, (n,), item) for n, item in enumerate(data)}
        return {number: item for number, item in read.items() if item is not None}

    def _read(
        self, document: Document, model: type[Model], start: tuple[int, ...], data: Plain
    ) -> Model | None:
        result = read_as(model, without_blanks(data))
        if not isinstance(result, tuple):
            return result
        self.problems += [explain.problem(document, model, start, each) for each in result]
        return None

    def _say(self, document: Document, message: str) -> None:
        self.problems.append(Problem(document.place(()), "", message))


def without_blanks(data: Plain) -> Plain:
    """Return data without the keys that have nothing after them: not recorded is left out."""
    if isinstance(data, dict):
        return {key: without_blanks(each) for key, each in data.items() if each is not None}
    return [without_blanks(each) for each in data] if isinstance(data, list) else data


def check(written: Written) -> Farm:
    """Return the farm.

    Raises:
        ProblemsError: everything that is wrong in all of its files.
    """
    found = _Findings(written)
    about = found.mapping("farm.yaml", FarmFile)
    equipment = found.mapping("equipment.yaml", EquipmentFile)
    private = found.mapping("private.yaml", PrivateFile)
    animals = found.listed("animals.yaml", Animal)
    pens = found.listed("pens.yaml", Pen)
    contacts = found.listed("contacts.yaml", Contact)
    stays = found.listed("stays.yaml", Stay)
    problems = [
        *written.problems,
        *found.problems,
        *text.problems(written),
        *references.problems(written),
        *sense.problems(written, about, animals, pens, stays),
    ]
    if problems or about is None:
        raise ProblemsError(problems)
    return Farm(
        about=about,
        animals=tuple(animals.values()),
        pens=tuple(pens.values()),
        equipment=equipment or EquipmentFile(),
        contacts=tuple(contacts.values()),
        stays=tuple(stays.values()),
        codes=private.codes if private else (),
        pictures=tuple(name for name, each in written.pictures.items() if not each.fault),
    )
