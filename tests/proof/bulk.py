"""Mutants of great size: thousands of animals, pens, contacts, stays and hoses."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tests.proof.mutant import Mutant, texts

if TYPE_CHECKING:
    import random
    from collections.abc import Mapping

_SEXES = ("sow", "gilt", "boar", "barrow")

# What there is much more of than on any small farm -> its file, and a line of it.
_LINES: Mapping[str, tuple[str, str]] = {
    "groups": (
        "animals.yaml",
        (
            "- {{name: A{n}, species: pig, sex: sow, born: 2023-03-02, weight: 420 lb, "
            "pen: creek, bred: 2026-03-2{digit}}}\n"
        ),
    ),
    "pens": (
        "pens.yaml",
        (
            "- {{id: p{n}, name: Pen {n}, kind: pasture, wallow: {{id: wa{n}, shape: oval, "
            "length: 9 ft, width: 8 ft, depth: 9 in}}}}\n"
        ),
    ),
    "contacts": ("contacts.yaml", "- {{name: C{n}, role: vet, phone: 555-0100}}\n"),
    "stays": (
        "stays.yaml",
        (
            "- {{id: s{n}, from: 2026-07-01, to: 2026-07-1{digit}, sitter: X, "
            'visits: ["06:00"]}}\n'
        ),
    ),
    "hoses": ("equipment.yaml", "  - {{id: x{n}, inside: 1 in, length: 9 ft}}\n"),
    "visits": (
        "stays.yaml",
        (
            "- {{id: v{n}, from: 2026-01-01, to: 2099-12-31, sitter: X, "
            'visits: ["0{digit}:00", "1{digit}:30", "1{digit}:30"]}}\n'
        ),
    ),
}
_MANY_HEAD = (
    "- {{group: Many, species: chicken, count: {head}, pen: hen-run, born: 2025-03-20}}\n"
)
_LONG = "- {name: C, role: vet, phone: 555-0100, notes: " + "Long. " * 650 + "}\n"


def bulk(rng: random.Random) -> Mutant:
    """Return a farm with much more of something than any small farm has."""
    what = rng.choice((*sorted(_LINES), "head", "text"))
    if what == "head":
        head = rng.choice((10_000, 100_000))
        return _with("animals.yaml", _MANY_HEAD.format(head=head), f"{head} head")
    if what == "text":
        return _with("contacts.yaml", _LONG, "long notes")
    size = rng.choice((10, 30, 100, 300, 1000))
    name, line = _LINES[what]
    made = "".join(line.format(n=n, digit=n % 9) for n in range(size))
    if name == "equipment.yaml":
        text = texts()[name].replace("hoses:\n", f"hoses:\n{made}")
        return Mutant("bulk", f"{size} {what}", {name: text.encode()})
    return _with(name, made, f"{size} {what}")


def ten_thousand_animals() -> Mutant:
    """Return the farm with ten thousand animals by name: too many for any binder."""
    made = "".join(
        f"- {{name: A{n}, species: pig, sex: {_SEXES[n % 4]}, born: 2023-03-02, "
        f"weight: {100 + n % 300} lb, pen: creek}}\n"
        for n in range(10_000)
    )
    return replace(_with("animals.yaml", made, "10,000 animals by name"), must_fail=True)


def _with(name: str, more: str, note: str) -> Mutant:
    return Mutant("bulk", note, {name: (texts()[name] + more).encode()})
