"""A small farm that is right, to be made wrong in one place at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from binder.farm.model import Farm

SMALL: Mapping[str, str] = {
    "farm.yaml": "name: Quiet Acre\nplace: Somewhere, Georgia\n",
    "animals.yaml": "- {name: Daisy, species: pig, pen: creek}\n"
    "- {name: Duke, species: pig, pen: creek}\n"
    "- {name: Clover, species: goat, pen: creek}\n",
    "pens.yaml": "- {id: creek, name: Creek paddock, kind: pasture}\n",
    "contacts.yaml": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
}


class Checked(Protocol):
    """Checks the small farm with some of its files replaced."""

    def __call__(self, files: Mapping[str, str] | None = None) -> Farm:
        """Return the farm of the small files and `files`."""


class Said(Protocol):
    """Checks the small farm with some of its files replaced, which must make it wrong."""

    def __call__(self, files: Mapping[str, str]) -> list[str]:
        """Return the printed problems."""


@pytest.fixture
def checked(farm_folder: Callable[[Mapping[str, str]], Path]) -> Checked:
    """Return a function that checks the small farm with `files` in place of its own."""

    def call(files: Mapping[str, str] | None = None) -> Farm:
        return check(read_folder(farm_folder({**SMALL, **(files or {})})))

    return call


@pytest.fixture
def said(checked: Checked) -> Said:
    """Return a function that gives the problems of the small farm with `files` in it."""

    def call(files: Mapping[str, str]) -> list[str]:
        with pytest.raises(ProblemsError) as caught:
            checked(files)
        return str(caught.value).splitlines()

    return call
