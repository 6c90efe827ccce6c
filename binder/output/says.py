"""What the scripts of a screen say, and know of the farm: one value, set before they run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.output.finder_form import as_script
from binder.output.screen import EMERGENCIES

if TYPE_CHECKING:
    from binder.output.screen import Screen

# Sections of the screens' words that scripts read, by their last key.
_SECTIONS = ("site.finder.", "site.reading.")
_WORDS = {"reload": "new_version", "failed": "failed", "gone": "site.gone"}


def words_script(screen: Screen) -> str:
    """Return the words as a script that only sets one value."""
    labels = screen.book.labels
    said = {key: labels[word] for key, word in _WORDS.items()}
    for section in _SECTIONS:
        said |= {
            key.removeprefix(section): text
            for key, text in labels.items()
            if key.startswith(section)
        }
    said |= {
        "farm": screen.book.name,
        "made": screen.book.date,
        "am": labels["site.am"],
        "pm": labels["site.pm"],
        "emergencies": screen.at(EMERGENCIES, ""),
    }
    return f"window.binderSays={as_script(said)};\n"
