"""Random edits of a farm by chance: parts of it are put in from another, or left out."""

from __future__ import annotations

import copy
import datetime as dt
import shutil
from typing import TYPE_CHECKING, Any

from binder import packs
from binder.build import composed
from binder.problems import ProblemsError
from tests.proof.second.dice import Dice
from tests.proof.second.farm import Given, farm, write

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book

PROTOCOL = (
    "---\ntitle: {title}\nsheet: C40\nreviewed: 2026-05-01\nsummary: {title}\n---\n{body}\n"
)


class Edited:
    """A farm folder that is edited again and again, and is a farm after each edit."""

    def __init__(self, seed: int, folder: Path) -> None:
        """Begin with the first farm from a seed on that can be built."""
        self.dice, self.folder = Dice(seed), folder
        self.before: list[Given] = []
        self.refused = 0
        while True:
            self.now = _small(farm(seed))
            try:
                self.book = self._composed()
            except ProblemsError:
                seed += 100_000
            else:
                return

    def edit(self) -> Book:
        """Change one to three things; what the folder refuses is taken back."""
        while True:
            kept, self.now = self.now, copy.deepcopy(self.now)
            for _ in range(self.dice.one((1, 1, 1, 2, 3))):
                self._one()
            try:
                self.book = self._composed()
            except ProblemsError:
                self.refused += 1
                self.now = kept
            else:
                self.before = [*self.before[-9:], kept]
                return self.book

    def days_pass(self, days: int) -> Book:
        """Return the binder of the same farm some days later, of today where none is made."""
        kept, self.now.on = self.now.on, self.now.on + dt.timedelta(days)
        try:
            self.book = self._composed()
        except ProblemsError:
            self.refused += 1
            self.now.on = kept
            self.book = self._composed()
        return self.book

    def _one(self) -> None:
        dice, now = self.dice, self.now
        if dice.yes(0.1) and self.before:
            self.now = copy.deepcopy(dice.one(self.before))
        elif dice.yes(0.1):
            now.on += dt.timedelta(dice.one((0, 1, 1, 7, 30)))
        elif dice.yes(0.1):
            title, body = now.pen.line(3), now.pen.text()
            now.others["protocols/c40-own.md"] = PROTOCOL.format(title=title, body=body)
        else:
            other = _small(farm(dice.randrange(10**6)))
            name = dice.one(
                ("farm", "animals", "animals", "pens", "equipment", "contacts", "stays")
            )
            _cross(dice, now.files[name], other.files[name])

    def _composed(self) -> Book:
        shutil.rmtree(self.folder / "farm", ignore_errors=True)
        write(self.now, self.folder / "farm")
        return composed(self.folder / "farm", self.now.on).book

    def papers(self) -> Any:
        """Return the packs that are due."""
        made = composed(self.folder / "farm", self.now.on)
        return packs.due(made.owner, made.figures.farm, self.now.on)


def _small(made: Given) -> Given:
    """Return a farm in words that any sheet can hold, with a day that suits its records."""
    made.hand = "plain"
    for key in ("animals", "stays", "contacts", "pens"):
        made.files[key] = made.files[key][:2]
    return made


def _cross(dice: Dice, mine: Any, other: Any) -> None:
    """Put something of the other into mine, or leave something out."""
    if isinstance(mine, dict) and isinstance(other, dict):
        _cross_keys(dice, mine, other)
    elif isinstance(mine, list) and isinstance(other, list):
        _cross_items(dice, mine, other)


def _cross_keys(dice: Dice, mine: dict[str, Any], other: dict[str, Any]) -> None:
    keys = sorted({*mine, *other})
    if not keys:
        return
    key = dice.one(keys)
    both = isinstance(mine.get(key), dict | list) and isinstance(other.get(key), dict | list)
    if both and dice.yes(0.8):
        _cross(dice, mine[key], other[key])
    elif key in other:
        mine[key] = copy.deepcopy(other[key])
    else:
        del mine[key]


def _cross_items(dice: Dice, mine: list[Any], other: list[Any]) -> None:
    what = dice.random()
    if mine and other and what < 0.6:
        at = dice.randrange(len(mine))
        if isinstance(mine[at], dict):
            _cross(dice, mine[at], dice.one(other))
        else:
            mine[at] = copy.deepcopy(dice.one(other))
    elif other and what < 0.85:
        mine.insert(dice.randint(0, len(mine)), copy.deepcopy(dice.one(other)))
    elif mine:
        mine.pop(dice.randrange(len(mine)))
