"""What sheets state: each amount, time and interval with its subject and condition.

The same thing stands on many sheets. A claim says which thing a number is, so that a test can
gather those of all sheets and find two that disagree. Claims are not printed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import unescape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

FARM = "farm"  # the subject of what holds everywhere on it
# What says itself what it is: a number that leads to its working has the key of its figure.
_FIGURE = re.compile(r'<a class="number" href="working:([^"]+)">(.*?)</a>', re.DOTALL)
_OTHER_UNITS = re.compile(r" \([^()]*\)")


@dataclass(frozen=True, slots=True)
class Claim:
    """One statement of a sheet.

    Two claims of one subject, quantity and condition have the same value.

    Attributes:
        subject: id of a pen, wallow or stay, an animal's name, the key of a figure, or `FARM`.
        quantity: what of it: `back in`, `feed by`, `number`.
        condition: when it holds: a date, a band, a stay with its sort of day; empty for always.
        value: what the reader sees, in the farm's units.
    """

    subject: str
    quantity: str
    condition: str
    value: str


def plain(text: object) -> str:
    """Return what a number says, without the other system's units and with plain spaces."""
    return _OTHER_UNITS.sub("", " ".join(str(text).split()))


def of_figures(html: str) -> Iterator[Claim]:
    """Yield a claim for each number of a page that leads to its working."""
    for key, said in _FIGURE.findall(html):
        yield Claim(unescape(key), "figure", "", plain(unescape(said)))


def disagreeing(
    claims: Mapping[str, Iterable[Claim]],
) -> dict[tuple[str, str, str], dict[str, list[str]]]:
    """Return what is stated in two ways: subject, quantity, condition -> value -> sheets.

    Args:
        claims: of each sheet, by its number.
    """
    found: dict[tuple[str, str, str], dict[str, list[str]]] = {}
    for sheet, each in claims.items():
        for one in dict.fromkeys(each):
            values = found.setdefault((one.subject, one.quantity, one.condition), {})
            values.setdefault(plain(one.value), []).append(sheet)
    return {what: values for what, values in found.items() if len(values) > 1}
