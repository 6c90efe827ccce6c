"""Step 1, read: the farm folder's files as text, each value with its line and column.

Nothing is judged here beyond whether it can be read; `check` does that, and says everything
that is wrong at once.
"""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.farm import pictures
from binder.farm.pictures import Picture
from binder.problems import Place, Problem, ProblemsError, did_you_mean, nearest, quotable
from binder.writing import leads_inside

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from binder.yamlfile import Document

# file -> what to put into it where it is missing; empty where a farm may do without it.
# Written by `binder hand-over`; output reads it, no farm value stands in it.
LEDGER = "ledger.yaml"
FILES: Mapping[str, str] = MappingProxyType(
    {
        "farm.yaml": "write its name and place into it, like name: Quiet Acre "
        "and place: Somewhere, Georgia",
        "animals.yaml": "list your animals in it, like "
        "- {name: Clementine, species: pig, sex: sow}",
        "pens.yaml": "list where they live in it, like "
        "- {id: creek, name: Creek paddock, kind: pasture}",
        "equipment.yaml": "",
        "contacts.yaml": "list whom to call in it, like "
        "- {name: Ann Example, role: owner, phone: 555-0100}",
        "stays.yaml": "",
        "private.yaml": "",
    }
)
PROTOCOLS = "protocols"
WEATHER = "weather.csv"
LEDGER = "ledger.yaml"  # written here by a hand-over, read by nothing in this step
OUT = "is a link that leads out of the farm folder; put the file itself there"
_YAML_ENDINGS = frozenset({"yaml", "yml"})
# What editors and spreadsheets make of the name of a farm's file.
_OTHER_ENDINGS = frozenset({"yaml.txt", "yml.txt", "txt", "csv", "xlsx", "xls", "ods", "docx"})
_AS_YAML = "write each row as a list item, like - {name: Clementine, species: pig}"


@dataclass(frozen=True, slots=True)
class Written:
    """What stands in a farm folder, unchecked.

    Attributes:
        folder: where it lies.
        documents: the YAML files that could be read, by file name.
        pictures: what pictures/ holds, by file name.
        protocols: the owner's own protocols, text by file name.
        weather: the text of weather.csv where there is one.
        problems: what could not be read; `check` raises them with its own.
    """

    folder: Path
    documents: Mapping[str, Document]
    pictures: Mapping[str, Picture]
    protocols: Mapping[str, str]
    weather: str | None
    problems: tuple[Problem, ...]

    def located(self, problem: Problem) -> Problem:
        """Return a problem that a later step found, with the line of the keys it names."""
        document = self.documents.get(problem.place.file)
        if document is None or problem.place.line:
            return problem
        return replace(problem, place=document.place(tuple(problem.path.split(" > "))))

    @contextmanager
    def naming_lines(self) -> Iterator[None]:
        """Give the problems that a later step finds in these files their lines.

        Raises:
            ProblemsError: as raised inside, each problem with the line of the keys it names.
        """
        try:
            yield
        except ProblemsError as error:
            raise ProblemsError(map(self.located, error.problems)) from error

    @property
    def pictures_folder(self) -> Path:
        """Return where the farm's pictures lie."""
        return self.folder / pictures.FOLDER


def read_folder(folder: Path) -> Written:
    """Return all that the farm folder says.

    Raises:
        ProblemsError: there is no such folder. Files that cannot be read are kept as problems.
    """
    if not folder.is_dir():
        message = "is not a folder; binder start writes one to begin with"
        raise ProblemsError([Problem(Place(quotable(str(folder), longest=500)), "", message)])
    names = _names(folder)
    if not any(_file_meant(name) for name in names):
        raise ProblemsError([_no_farm(folder)])
    documents: dict[str, Document] = {}
    led_out = {name for name in names if not leads_inside(folder, folder / name)}
    problems = [*_strays(names), *_missing(names)]
    problems += [
        Problem(Place(name), "", OUT) for name in led_out if name in FILES or name == WEATHER
    ]
    for name in FILES:
        if name in names and name not in led_out:
            document, found = _document(folder / name)
            problems += found
            if document is not None:
                documents[name] = document
    protocols, unread = _protocols(folder / PROTOCOLS)
    weather = None
    if WEATHER in names and WEATHER not in led_out:
        try:
            weather = yamlfile.text_of(folder / WEATHER, WEATHER)
        except ProblemsError as error:
            problems += error.problems
    return Written(
        folder=folder,
        documents=MappingProxyType(documents),
        pictures=MappingProxyType(_pictures(folder / pictures.FOLDER)),
        protocols=MappingProxyType(protocols),
        weather=weather,
        problems=(*problems, *unread),
    )


def _document(path: Path) -> tuple[Document | None, tuple[Problem, ...]]:
    """Return what can be read of a farm's file and all that is wrong with it."""
    document, found = yamlfile.read_along(path)
    if (document is None or isinstance(document.data, str)) and _is_table(path):
        message = f"is a table as a spreadsheet saves it; {FILES[path.name] or _AS_YAML}"
        return None, (Problem(Place(path.name, 1, 1), "", message),)
    return document, found


def _names(folder: Path) -> tuple[str, ...]:
    """Return the names in a folder in a fixed order, hidden ones left out."""
    if not folder.is_dir():
        return ()
    return tuple(sorted(path.name for path in folder.iterdir() if path.name[0] != "."))


def _no_farm(folder: Path) -> Problem:
    """Return the problem of a folder that holds none of a farm's files."""
    inside = (name for name in _names(folder) if (folder / name / "farm.yaml").is_file())
    near = next(inside, None)
    hint = f"{quotable(near)} in it is one" if near else "binder start writes a new one"
    message = f"is no farm: none of {', '.join(FILES)} lies in it; {hint}"
    return Problem(Place(quotable(str(folder), longest=500)), "", message)


def _file_meant(name: str) -> str | None:
    """Return the farm file that a name stands for: itself, or one that was saved otherwise."""
    if name in FILES:
        return name
    stem, _, ending = name.lower().partition(".")
    known = f"{stem}.yaml"
    return known if known in FILES and ending in _OTHER_ENDINGS else None


def _is_table(path: Path) -> bool:
    """Return whether a file is rows of cells with the same number of commas, as in CSV."""
    try:
        lines = yamlfile.text_of(path, path.name).splitlines()
    except ProblemsError:
        return False
    rows = [line for line in lines if line.strip() and not line.startswith("#")][:2]
    if len(rows) < len("ab") or rows[0].lstrip().startswith(("-", "[", "{")):
        return False
    return any(
        rows[0].count(sign) == rows[1].count(sign) > 0 and ": " not in rows[0]
        for sign in ",;\t"
    )


def _strays(names: Iterable[str]) -> list[Problem]:
    """Return a problem for each file that was meant to be read and would not be."""
    stems = {name.removesuffix(".yaml"): name for name in FILES}
    found = []
    for name in names:
        stem, _, ending = name.rpartition(".")
        meant = _file_meant(name)
        if name in FILES or name == LEDGER or not (meant or ending.lower() in _YAML_ENDINGS):
            continue
        near = nearest(stem, stems)
        hint = f"; did you mean {stems[near]}?" if near else did_you_mean("", FILES)
        message = f"is not a file of a farm{hint}"
        if meant and ending.lower() not in _YAML_ENDINGS:
            message = f"is not read; a farm's file is plain text and its whole name is {meant}"
            message += " (your computer may hide the ending)"
        found.append(Problem(Place(quotable(name)), "", message))
    return found


def _missing(names: Iterable[str]) -> list[Problem]:
    """Return a problem for each file that every farm needs and nothing stands for."""
    meant = {_file_meant(name) for name in names}
    return [
        Problem(Place(name), "", f"is missing; {what}")
        for name, what in FILES.items()
        if what and name not in names and name not in meant
    ]


def _protocols(folder: Path) -> tuple[dict[str, str], list[Problem]]:
    """Return the owner's protocols by file name, and those that cannot be read."""
    texts: dict[str, str] = {}
    problems: list[Problem] = []
    for name in _names(folder):
        if not name.lower().endswith(".md"):
            continue
        if not leads_inside(folder.parent, folder / name):
            problems.append(Problem(Place(f"{PROTOCOLS}/{quotable(name)}"), "", OUT))
            continue
        try:
            texts[name] = yamlfile.text_of(folder / name, f"{PROTOCOLS}/{quotable(name)}")
        except ProblemsError as error:
            problems += error.problems
    return texts, problems


def _pictures(folder: Path) -> dict[str, Picture]:
    """Return what each file in pictures/ is; a link out of the farm is none that we show."""
    return {
        name: pictures.look(folder / name)
        if leads_inside(folder.parent, folder / name)
        else Picture(fault=OUT)
        for name in _names(folder)
    }
