"""What the scripts of a screen say, and know of the farm: one value, set before they run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.output.screens.finder_form import as_script
from binder.output.screens.screen import EMERGENCIES, LOG

if TYPE_CHECKING:
    from binder.output.screens.screen import Screen

# Sections of the screens' words that scripts read, by their last key.
_SECTIONS = ("site.finder.", "site.reading.", "site.hour.", "site.log.", "site.age.")
_WORDS = {"reload": "new_version", "failed": "failed", "gone": "site.gone"}


def agenda_script(screen: Screen) -> str:
    """Return the plans by the hour as a script that only sets one value."""
    return f"window.binderAgenda={as_script(_addressed(screen, screen.book.agenda))};\n"


def _addressed(screen: Screen, tree: object) -> object:
    """Return data in which every sheet named by its slug has its address here beside it."""
    if isinstance(tree, dict):
        found = {key: _addressed(screen, value) for key, value in tree.items()}
        if "slug" in tree:
            found["href"] = screen.sheet(tree["slug"])
        return found
    if isinstance(tree, list | tuple):
        return [_addressed(screen, value) for value in tree]
    return tree


def words_script(screen: Screen) -> str:
    """Return the words as a script that only sets one value."""
    labels = screen.book.labels
    said: dict[str, object] = {key: labels[word] for key, word in _WORDS.items()}
    for section in _SECTIONS:
        said |= {
            key.removeprefix(section): text
            for key, text in labels.items()
            if key.startswith(section)
        }
    said |= {
        "farm": screen.book.name,
        "made": screen.book.date,
        "made_on": labels["site.made"],
        "am": labels["site.am"],
        "pm": labels["site.pm"],
        "begins_before_h": float(labels["site.begins_before_h"]),
        "binder_old_days": int(labels["site.binder_old_days"]),
        "log_page": screen.at(LOG, ""),
        "emergencies": screen.at(EMERGENCIES, ""),
    }
    return f"window.binderSays={as_script(said)};\n"
