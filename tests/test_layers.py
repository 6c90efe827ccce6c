"""The import law: what each part of the program may know of the others and of the outside.

The law is DEVELOPERS.md's; it stands here as data. Imports are read from the source, those that
only the type checker sees included: a layer that needs another's types knows it.
"""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections import Counter
from dataclasses import dataclass
from functools import cache
from importlib.metadata import packages_distributions
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.figures.areas import AREAS

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "binder"

BASE = frozenset(
    {
        "cache",
        "causes",
        "safe_path",
        "letters",
        "writing",
        "clock",
        "problems",
        "units",
        "conversion",
        "kinds",
        "display",
        "yamlfile",
        "sources",
        "data",
        "places",
        "languages",
        "fit",
        "explain",
    }
)

# What a layer may import, itself aside. `farm.model` is that module and nothing else of farm.
EVERYTHING = BASE | {
    *("science", "farm", "weather", "figures", "pages", "output", "progress", "fetch"),
}
MAY_IMPORT: dict[str, frozenset[str]] = {
    **dict.fromkeys(BASE, BASE),
    # How a day is parted, and nothing else of ours.
    "science": frozenset({"clock"}),
    "farm": BASE,
    # Files of hours; knows formulas of moist air, no farm.
    "weather": BASE | {"science"},
    # What figures know of files comes through `published`, and only that reads them.
    "figures": frozenset(
        {
            "clock",
            "problems",
            "units",
            "kinds",
            "display",
            "sources",
            "farm.model",
            "science",
            "weather.record",
            "weather.hours",  # the text of `weather.csv`
        }
    ),
    "figures.published": frozenset({"problems", "data", "figures"}),
    "pages": BASE | {"farm.model", "figures"},
    # Has never heard of an animal: pages come to it finished.
    "output": frozenset(
        {
            *("cache", "problems", "data", "letters", "safe_path", "writing"),
            "pages.page",
            "pages.text.tree",  # what a page's HTML is read into
        }
    ),
    # The record of hand-overs is a file of the farm folder, so it is read like the others.
    "output.handed.ledger_file": frozenset(
        {"problems", "yamlfile", "writing", "fit", "explain", "output"}
    ),
    "output.handed.ledger_model": frozenset({"problems", "fit", "output", "pages.page"}),
    "progress": frozenset(),
    "fetch": frozenset({"problems"}),
    "packs": EVERYTHING,
    "build": EVERYTHING | {"packs"},
    "day": EVERYTHING | {"build"},
    "season": EVERYTHING | {"build"},
    "cli": EVERYTHING | {"build", "day", "season"},
    "__init__": frozenset({"build", "safe_path"}),
    "__main__": frozenset({"cli", "safe_path"}),
}

# Each library of others is known to one module (two where a second catches its errors or runs
# it apart), so that a new release or a replacement touches one place.
GATEKEEPERS: dict[str, frozenset[str]] = {
    "astral": frozenset({"science.sun"}),
    "click": frozenset({"cli"}),
    "fontTools": frozenset({"output.screens.fonts", "letters"}),
    "fontpkg_atkinson_hyperlegible": frozenset({"letters"}),
    "fontpkg_fira_sans": frozenset({"letters"}),
    "httpx": frozenset({"fetch"}),
    "jinja2": frozenset({"pages.text.template", "pages.text.sandbox"}),
    "markdown": frozenset({"pages.text.protocol"}),
    # The type of text that is HTML already: all of pages speaks in it.
    "markupsafe": frozenset({"pages"}),
    "pikepdf": frozenset({"output.paper.join", "output.paper.page_numbers"}),
    # Heads are judged when the farm is read, whole pictures made ready when a page shows them.
    "PIL": frozenset({"farm.pictures", "pages.art.pictures"}),
    "pint": frozenset({"conversion"}),
    "platformdirs": frozenset({"cache"}),
    "psychrolib": frozenset({"science.humidity"}),
    "pydantic": frozenset({"farm.model", "fit", "output.handed.ledger_model"}),
    "rich": frozenset({"cli", "progress"}),
    "segno": frozenset({"pages.art.qr"}),
    "uvicorn": frozenset({"output.host"}),
    "watchfiles": frozenset({"output.host"}),
    "weasyprint": frozenset({"output.print", "output.paper.render", "output.paper.quick"}),
    "yaml": frozenset({"yamlfile"}),
    "zeroconf": frozenset({"output.host"}),
}

# Formulas and figures depend on their arguments alone.
PURE = ("science", "figures")
READS_FILES = "figures.published"
FILE_MODULES = frozenset(
    {
        "csv",
        "glob",
        "html",
        "io",
        "json",
        "os",
        "pathlib",
        "shutil",
        "sqlite3",
        "tempfile",
        "tomllib",
    }
)

# What reaches other machines or processes, or throws dice: each module that may, by name.
REACHES_OUT: dict[str, frozenset[str]] = {
    # Waits without a thread each; uvicorn opens the connections.
    "asyncio": frozenset({"output.host.access", "output.host.connections"}),
    "ctypes": frozenset({"output.paper.quick"}),  # looks for no library while one is loaded
    "http": frozenset(),
    "multiprocessing": frozenset(),
    "pickle": frozenset(
        {"output.paper.render", "output.paper.workers"}
    ),  # between our own processes
    "random": frozenset(),
    "secrets": frozenset(),
    "signal": frozenset(),
    "smtplib": frozenset(),
    "socket": frozenset({"output.host.announce", "output.host.serve"}),
    "ssl": frozenset(),
    "subprocess": frozenset({"output.paper.workers"}),
    # For spelling addresses; nothing of it that opens them.
    "urllib": frozenset({"output.host.serve", "output.screens.phone", "output.screens.site"}),
    "uuid": frozenset(),
    "webbrowser": frozenset(),
}
URLLIB = "urllib.parse"

# Ways around the import law. What a package says of itself is no module of its own.
RUNS_BY_NAME = frozenset(
    {"__import__", "eval", "exec", "import_module", "run_module", "run_path"}
)
LOADERS = frozenset({"importlib", "pkgutil", "runpy", "zipimport"})
LOADS_NOTHING = frozenset({"importlib.metadata", "importlib.resources"})
CLOCK_CALLS = frozenset({"now", "today", "utcnow"})

# Folders of pages that serve all areas.
SERVES_ALL = frozenset({"text", "art", "book", "claims", "pack"})
MOST_IN_A_FOLDER = 17  # sixteen and the folder's own __init__

# Names that say nothing about what is inside.
EMPTY_NAMES = frozenset({"base", "common", "helpers", "manager", "misc", "util", "utils"})


@dataclass(frozen=True)
class Import:
    """One imported name: `binder.` is cut off `module` where it is ours."""

    line: int
    module: str
    name: str | None
    ours: bool


def module_name(path: Path) -> str:
    """Return `figures.water` for binder/figures/water.py, `figures` for its __init__."""
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    return ".".join(parts[:-1] if len(parts) > 1 and parts[-1] == "__init__" else parts)


MODULES = {
    module_name(path): path
    for path in sorted(PACKAGE.rglob("*.py"))
    if "_data" not in path.parts
}


def imports(tree: ast.Module) -> list[Import]:
    """Return everything that a module imports, wherever in it."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [one_import(node.lineno, alias.name, None) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: write the import from `binder` on"
            found += [one_import(node.lineno, node.module or "", a.name) for a in node.names]
    return found


def one_import(line: int, module: str, name: str | None) -> Import:
    """Return an import with `from package import module` turned into that module."""
    top, _, rest = module.partition(".")
    if top != "binder":
        return Import(line, module, name, ours=False)
    inside = f"{rest}.{name}" if rest else name
    if inside in MODULES:
        return Import(line, str(inside), None, ours=True)
    return Import(line, rest or "__init__", name, ours=True)


def covers(entry: str, wanted: Import) -> bool:
    """Return whether one entry of the law allows the import."""
    return wanted.module == entry or wanted.module.startswith(f"{entry}.")


def layer_of(module: str) -> str:
    """Return the entry of the law that a module falls under: its own, else its folder's."""
    return module if module in MAY_IMPORT else module.partition(".")[0]


def breaches_between_layers(module: str, tree: ast.Module) -> list[str]:
    """Return the imports of ours that the law does not allow to `module`."""
    layer = layer_of(module)
    if layer not in MAY_IMPORT:
        return ["has no place in the law: give it one"]
    allowed = {layer, *MAY_IMPORT[layer]}
    return [
        f"line {each.line}: may not know binder.{each.module} {each.name or ''}".rstrip()
        for each in imports(tree)
        if each.ours and not any(covers(entry, each) for entry in allowed)
    ]


def breaches_of_gatekeeping(module: str, tree: ast.Module) -> list[str]:
    """Return the libraries of others that `module` imports without being their gatekeeper."""
    found = []
    for each in imports(tree):
        library = each.module.partition(".")[0]
        if each.ours or library in sys.stdlib_module_names:
            continue
        keepers = GATEKEEPERS.get(library, frozenset())
        if not any(module == keeper or module.startswith(f"{keeper}.") for keeper in keepers):
            found.append(
                f"line {each.line}: {library} belongs to {sorted(keepers) or 'nobody yet'}"
            )
    return found


def breaches_of_purity(module: str, tree: ast.Module) -> list[str]:
    """Return where a formula or a figure reads a file or the clock."""
    if module.partition(".")[0] not in PURE:
        return []
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    methods = [(c.lineno, c.func.attr) for c in calls if isinstance(c.func, ast.Attribute)]
    functions = [(c.lineno, c.func.id) for c in calls if isinstance(c.func, ast.Name)]
    clock = [f"line {line}: reads the clock" for line, name in methods if name in CLOCK_CALLS]
    clock += [
        f"line {each.line}: imports time" for each in imports(tree) if each.module == "time"
    ]
    if module == READS_FILES:
        return clock
    files = [f"line {line}: opens a file" for line, name in functions if name == "open"]
    return (
        clock
        + files
        + [
            f"line {each.line}: imports {each.module}"
            for each in imports(tree)
            if each.module.partition(".")[0] in FILE_MODULES | REACHES_OUT.keys()
        ]
    )


def breaches_by_reaching_out(module: str, tree: ast.Module) -> list[str]:
    """Return where `module` reaches out of the program without being named for it."""
    found = []
    for each in imports(tree):
        top = each.module.partition(".")[0]
        if each.ours or top not in REACHES_OUT:
            continue
        if module not in REACHES_OUT[top]:
            found.append(f"line {each.line}: may not use {top}")
        elif top == "urllib" and each.module != URLLIB:
            found.append(f"line {each.line}: of urllib only {URLLIB}")
    return found


def breaches_by_name(tree: ast.Module) -> list[str]:
    """Return where a module is imported, or code is run, that the import law cannot see."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and node.id in RUNS_BY_NAME:
            found.append(f"line {node.lineno}: {node.id}")
        elif isinstance(node, ast.Attribute):
            owner = node.value.id if isinstance(node.value, ast.Name) else ""
            if node.attr in RUNS_BY_NAME - {"eval", "exec"} or (owner, node.attr) == (
                "sys",
                "modules",
            ):
                found.append(f"line {node.lineno}: {owner}.{node.attr}")
    for each in imports(tree):
        whole = f"{each.module}.{each.name}" if each.name else each.module
        if each.module.partition(".")[0] in LOADERS and not LOADS_NOTHING & {
            whole,
            each.module,
        }:
            found.append(f"line {each.line}: imports {whole}")
    return found


def area_of(module: str) -> str:
    """Return the area that a module of figures lies in, empty for what serves all areas."""
    layer, _, rest = module.partition(".")
    area = rest.partition(".")[0]
    return area if layer == "figures" and area in AREAS else ""


def folder_of(module: str) -> str:
    """Return the folder of pages that a module lies in, empty for what lies in none."""
    layer, _, rest = module.partition(".")
    folder = MODULES[module].parent.relative_to(PACKAGE / layer) if rest else Path()
    return folder.parts[0] if layer == "pages" and folder.parts else ""


def breaches_between_areas(module: str, tree: ast.Module) -> list[str]:
    """Return where an area of figures knows one that comes after it in the list."""
    area = area_of(module)
    if not area:
        return []
    later = AREAS[AREAS.index(area) + 1 :]
    return [
        f"line {each.line}: {area} may not know {area_of(each.module)}"
        for each in imports(tree)
        if each.ours and area_of(each.module) in later
    ]


@cache
def parsed(module: str) -> ast.Module:
    """Return the syntax tree of one of our modules."""
    return ast.parse(MODULES[module].read_text(encoding="utf-8"))


def breaches(law: Callable[[str, ast.Module], list[str]]) -> list[str]:
    """Return every breach of a law in the whole program, with the module's name before it."""
    return [
        f"binder.{name}: {breach}" for name in MODULES for breach in law(name, parsed(name))
    ]


def test_imports_point_one_way() -> None:
    """No module knows a layer that comes after its own."""
    assert breaches(breaches_between_layers) == []


def circles(knows: Mapping[str, set[str]]) -> list[list[str]]:
    """Return the modules that know each other round about, each circle sorted by name.

    What neither knows nor is known by any other, once those are gone, is in no circle.
    """
    left = {module: set(others) for module, others in knows.items()}
    before = -1
    while len(left) != before:
        before = len(left)
        known = set().union(*left.values()) if left else set()
        left = {
            module: others & left.keys()
            for module, others in left.items()
            if others & left.keys() and module in known
        }
    found = []
    while left:
        first = min(left)
        group = reached(left, first)
        circle = sorted(module for module in group if first in reached(left, module))
        if circle:
            found.append(circle)
        left = {module: others for module, others in left.items() if module not in circle}
        left.pop(first, None)
    return found


def reached(knows: Mapping[str, set[str]], start: str) -> set[str]:
    """Return every module that one gets to from `start`, itself only where round about."""
    found: set[str] = set()
    waiting = [start]
    while waiting:
        for other in knows.get(waiting.pop(), set()) - found:
            found.add(other)
            waiting.append(other)
    return found


def test_no_modules_know_each_other_round_about() -> None:
    """There is no circle anywhere, in types either: a file can be read after those it names."""
    knows = {
        name: {
            each.module
            for each in imports(parsed(name))
            if each.ours and each.module in MODULES and each.module != name
        }
        for name in MODULES
    }
    assert circles(knows) == []


def test_a_circle_is_seen() -> None:
    """Also one of three, with others that lead into it and out of it."""
    knows = {"a": {"b"}, "b": {"c"}, "c": {"a", "d"}, "d": set(), "e": {"a"}}
    assert circles(knows) == [["a", "b", "c"]]
    assert circles(knows | {"c": {"d"}}) == []


def test_areas_point_one_way() -> None:
    """No area of figures knows one that comes after it, in types either."""
    assert breaches(breaches_between_areas) == []


def test_folders_of_pages_know_each_other_one_way() -> None:
    """Of two folders of pages one can be read first; what lies in none serves them all."""
    knows: dict[str, set[str]] = {}
    for name in filter(folder_of, MODULES):
        known = {each.module for each in imports(parsed(name)) if each.module in MODULES}
        knows.setdefault(folder_of(name), set()).update(map(folder_of, known))
    assert circles({one: others - {one, ""} for one, others in knows.items()}) == []


def test_areas_have_one_name_in_every_layer() -> None:
    """A folder of figures, pages, tables, words or tests is one of the areas in the list."""
    content = PACKAGE.parent / "content"
    folders = {
        "figures": {p.name for p in (PACKAGE / "figures").iterdir() if p.is_dir()},
        "published": {p.name for p in (content / "published").iterdir()} - SERVES_ALL,
        "pages": {p.name for p in (PACKAGE / "pages").iterdir() if p.is_dir()} - SERVES_ALL,
        "tests": {p.name for p in (ROOT / "tests/figures").iterdir() if p.is_dir()},
    }
    strange = {
        layer: names - set(AREAS) - {"__pycache__", "farm"} for layer, names in folders.items()
    }
    assert set(AREAS) <= folders["figures"]
    assert not any(strange.values()), strange
    words = {p.stem for p in (content / "words/en").glob("*.yaml")}
    assert set(AREAS) <= words


@pytest.mark.parametrize("area", AREAS)
def test_an_area_shows_its_results_alone(area: str) -> None:
    """What it is for; then `for_farm`, its entries and the types of its results, no more."""
    tree = parsed(f"figures.{area}")
    assert ast.get_docstring(tree)
    shown = next(
        node.value
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
    )
    names = set(ast.literal_eval(shown)) - {"for_farm", "ENTRIES"}
    assert [name for name in names if not name[0].isupper() or name.isupper()] == []


def test_no_folder_holds_more_than_one_can_see() -> None:
    """At most sixteen modules stand in a folder of a layer."""
    counted = Counter(path.parent for path in MODULES.values())
    crowded = {
        str(folder.relative_to(PACKAGE)): count
        for folder, count in counted.items()
        if count > MOST_IN_A_FOLDER and folder != PACKAGE
    }
    assert crowded == {}


def test_each_library_has_one_gatekeeper() -> None:
    """No module imports a library that another keeps the gate of."""
    assert breaches(breaches_of_gatekeeping) == []


def test_figures_depend_on_their_arguments_alone() -> None:
    """Neither formulas nor figures read a file or the clock; `published` reads tables."""
    assert breaches(breaches_of_purity) == []


def test_few_modules_reach_out() -> None:
    """Networks, processes and dice belong to the modules that are named for them."""
    assert breaches(breaches_by_reaching_out) == []


def test_no_module_goes_round_the_law() -> None:
    """Whatever is imported is imported by a statement that these tests read."""
    assert breaches(lambda _, tree: breaches_by_name(tree)) == []


def test_nobody_is_named_for_what_they_do_not_do() -> None:
    """Leave to reach out that nobody uses is taken back."""
    named = {(top, module) for top, modules in REACHES_OUT.items() for module in modules}
    used = {
        (each.module.partition(".")[0], module)
        for module in MODULES
        for each in imports(parsed(module))
    }
    assert named - used == set()


def test_modules_are_named_after_things() -> None:
    """No module has a name that would fit any content."""
    assert [name for name in MODULES if not EMPTY_NAMES.isdisjoint(name.split("."))] == []


def test_every_direct_part_has_a_gatekeeper() -> None:
    """The libraries that pyproject.toml asks for are those of the gatekeeper list."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    asked = {
        re.split("[^A-Za-z0-9-]", line)[0].lower()
        for line in project["project"]["dependencies"]
    }
    provided = packages_distributions()
    kept = {each.lower() for library in GATEKEEPERS for each in provided[library]}
    # Time zones are data, which the standard library finds by itself, as uvicorn finds its
    # parser of HTTP.
    assert kept == asked - {"tzdata", "httptools"}


# --- the checks themselves, on sources that break the law ------------------------------------


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("science.heat", "from binder import units"),
        ("science.heat", "import binder.problems"),
        ("figures.water", "from binder.farm import load"),
        ("figures.water", "from binder import yamlfile"),
        ("figures.water", "from binder.pages.page import Page"),
        ("figures.published", "from binder.farm.model import Farm"),
        ("pages.compose", "from binder.science.heat import heat_index_c"),
        ("pages.compose", "def later():\n    from binder.output.screens import site"),
        ("output.screens.site", "from binder.figures.figure import Figure"),
        ("output.screens.site", "from binder.pages.compose import compose"),
        ("farm.check", "if TYPE_CHECKING:\n    from binder.figures.figure import Figure"),
        ("units", "from binder.build import build"),
    ],
)
def test_a_breach_between_layers_is_seen(module: str, source: str) -> None:
    """An import that points the wrong way is found."""
    assert len(breaches_between_layers(module, ast.parse(source))) == 1


def test_a_breach_between_areas_is_seen() -> None:
    """An area that knows a later one is found, also where only the type checker looks."""
    source = "if TYPE_CHECKING:\n    from binder.figures.stays import Plan"
    assert len(breaches_between_areas("figures.water.drinkers", ast.parse(source))) == 1
    assert breaches_between_areas("figures.readiness.records", ast.parse(source)) == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        (
            "figures.water",
            "from binder.science.pipe import held_l\nfrom binder.farm.model import Farm",
        ),
        (
            "figures.water",
            "from binder.figures.published import rows\nfrom binder.problems import Problem",
        ),
        ("output.screens.site", "from binder.pages.page import Page"),
        ("cli", "from binder.build import build\nfrom binder.figures import catalogue"),
    ],
)
def test_a_lawful_import_passes(module: str, source: str) -> None:
    """Imports that point the right way are left alone."""
    assert breaches_between_layers(module, ast.parse(source)) == []


def test_a_module_without_a_place_is_seen() -> None:
    """A module outside every layer has to be given one."""
    assert breaches_between_layers("stray", ast.parse("")) == [
        "has no place in the law: give it one"
    ]


def test_every_breach_is_told_with_its_module() -> None:
    """A law is one case, and tells all that breaks it rather than the first."""
    found = breaches(lambda name, _: ["one", "two"] if name in ("units", "cli") else [])
    assert found == [
        "binder.cli: one",
        "binder.cli: two",
        "binder.units: one",
        "binder.units: two",
    ]


@pytest.mark.parametrize(
    "source", ["import yaml", "from pint.facets import x", "import unheard_of"]
)
def test_a_library_past_its_gatekeeper_is_seen(source: str) -> None:
    """A library imported elsewhere than at its gate is found, and so is an unknown one."""
    assert len(breaches_of_gatekeeping("farm.model", ast.parse(source))) == 1


@pytest.mark.parametrize(
    "source",
    [
        "import json",
        "open('x')",
        "from pathlib import Path",
        "dt.date.today()",
        "import time",
        "from urllib.request import urlopen",
        "import socket",
        "import subprocess",
        "from random import random",
    ],
)
def test_an_impure_figure_is_seen(source: str) -> None:
    """A figure that reads a file or the clock is found."""
    assert len(breaches_of_purity("figures.water", ast.parse(source))) == 1


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("output.screens.site", "from urllib.request import urlopen"),
        ("output.screens.site", "import urllib"),
        ("output.print", "import subprocess"),
        ("fetch", "import socket"),
        ("pages.art.qr", "from random import shuffle"),
    ],
)
def test_a_module_that_reaches_out_unasked_is_seen(module: str, source: str) -> None:
    """Also one that may spell addresses and opens one."""
    assert len(breaches_by_reaching_out(module, ast.parse(source))) == 1


@pytest.mark.parametrize(
    "source",
    [
        "import importlib",
        "from importlib import import_module",
        "import importlib.util",
        "load = __import__('binder.build')",
        "exec('import yaml')",
        "builtins.__import__('yaml')",
        "sys.modules['binder.build']",
        "import runpy",
    ],
)
def test_a_way_round_the_law_is_seen(source: str) -> None:
    """However a module is asked for by its name as text."""
    assert breaches_by_name(ast.parse(source)) != []


@pytest.mark.parametrize(
    "source", ["from importlib.metadata import version", "model.eval", "re.compile('x')"]
)
def test_what_loads_no_module_passes(source: str) -> None:
    """A version number is no import, nor is a method of a like name."""
    assert breaches_by_name(ast.parse(source)) == []


def test_noise_of_arithmetic_is_named_once() -> None:
    """What counts as no difference at all stands in one file of figures."""
    least = 1e-5
    typed = [
        f"{path.relative_to(PACKAGE)}:{part.lineno}"
        for path in sorted((PACKAGE / "figures").rglob("*.py"))
        if path.name != "noise.py"
        for part in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(part, ast.Constant)
        and isinstance(part.value, float)
        and 0 < part.value < least
    ]
    assert typed == []
