"""`python -m tests.bench.house [FOLDER]`: files, lines and arrows of a copy of the program.

An arrow is one file of a layer that imports another of it, types included; it lies inside a
folder or between two. What stands in no folder is its own.
"""

from __future__ import annotations

import ast
import sys
from collections import Counter
from pathlib import Path

LAYERS = ("farm", "figures", "pages", "output")


def modules(root: Path) -> dict[str, Path]:
    """Return every module of the program by its name, without `binder.`."""
    package = root / "binder"
    return {
        ".".join(path.relative_to(package).with_suffix("").parts).removesuffix(
            ".__init__"
        ): path
        for path in package.rglob("*.py")
        if "_data" not in path.parts
    }


def known_to(path: Path, names: set[str]) -> set[str]:
    """Return the modules of the program that a file imports."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("binder"):
            base = (node.module or "").removeprefix("binder").removeprefix(".")
            inside = (f"{base}.{alias.name}".lstrip(".") for alias in node.names)
            found |= {name if name in names else base for name in inside}
        elif isinstance(node, ast.Import):
            found |= {alias.name.removeprefix("binder.") for alias in node.names}
    return found & names


def folder_of(module: str, path: Path) -> str:
    """Return the folder of its layer in which a module lies, empty where in none."""
    parts = module.split(".")
    return parts[1] if len(parts) > 2 or (len(parts) == 2 and path.stem == "__init__") else ""


def counts(root: Path, layer: str) -> str:
    """Return a line about one layer."""
    all_of_it = modules(root)
    here = {name: path for name, path in all_of_it.items() if name.startswith(f"{layer}.")}
    folders = {name: folder_of(name, path) for name, path in here.items()}
    arrows = [(a, b) for a, path in here.items() for b in known_to(path, set(here)) if a != b]
    inside = sum(folders[a] == folders[b] != "" for a, b in arrows)
    ways = ((folders[a], folders[b]) for a, b in arrows)
    between = Counter((one, other) for one, other in ways if one != other)
    pairs = {pair for pair in between if all(pair)}
    both = sum((b, a) in pairs for a, b in pairs) // 2
    apart = sum(between[pair] for pair in pairs)
    return (
        f"{layer}: {len(here)} files, {list(folders.values()).count('')} outside a folder, "
        f"{len(set(folders.values()) - {''})} folders; {len(arrows)} arrows: {inside} inside a "
        f"folder, {apart} between two ({len(pairs)} pairs, "
        f"{both} both ways), {len(arrows) - inside - apart} to or from what stands in none"
    )


def lines(folder: Path) -> tuple[int, int]:
    """Return how many Python files lie in a folder, and their lines."""
    files = [path for path in folder.rglob("*.py") if "_data" not in path.parts]
    return len(files), sum(len(path.read_bytes().splitlines()) for path in files)


def main() -> None:
    """Print the counts."""
    root = Path(sys.argv[1] if len(sys.argv) > 1 else ".")
    for name in ("binder", "tests"):
        print("{}: {} files, {} lines".format(name, *lines(root / name)))  # noqa: T201
    for layer in LAYERS:
        print(counts(root, layer))  # noqa: T201


if __name__ == "__main__":
    main()
