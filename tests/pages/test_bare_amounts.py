"""No amount is typed into a protocol that another sheet may type otherwise.

A number that more than one sheet names has a cell in a table and a name, `care(...)`,
`limit(...)` or `every(...)`. What is typed all the same stands here, with the reason.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

import pytest

from binder.data import CONTENT

if TYPE_CHECKING:
    from collections.abc import Mapping

AMOUNT = re.compile(
    r"(?<![\w.])\d+(?:[,./]\d+)*(?: \d/\d)?(?: (?:to|or|and) \d[\d./]*)?"
    r"(?:%|°F|[ -](?:minutes?|hours?|days?|weeks?|months?|years?|seconds?|lb|pounds?|gal"
    r"|gallons?|oz|ounces?|in|inch(?:es)?|ft|feet|yards?|cups?|tablespoons?|teaspoons?|qt|quarts?|pints?"
    r"|mL|L|kg|mph|am|pm)\b)"
)
NAMED = re.compile(r"\{\{.*?\}\}|\{%.*?%\}", re.DOTALL)

ALONE = "said by this sheet alone, from its own source"
FIRST_AID = "first aid as its source words it; said by this sheet alone"
AGE = "an age or a stage of life, no amount to measure"
TABLE = "a published table, printed whole, on this sheet alone"
EXCEPTIONS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "b03": {"12 to 24 hours": ALONE},
        "b04": {"2 weeks": ALONE, "5 days": ALONE, "18 to 24 days": ALONE},
        "b05": {
            "1 week": AGE, "2 weeks": AGE, "3 weeks": AGE, "1 and 2 weeks": AGE,
            "28 days": AGE, "6 hours": ALONE,
        },
        "c02": {"60%": ALONE, "80%": ALONE, "15°F": ALONE},
        "c04": {"5 days": ALONE, "5 years": AGE},
        "c08": {"30 minutes": ALONE, "10 minutes": ALONE},
        "e05": {"30 minutes": ALONE, "15 minutes": ALONE, "2 to 8 hours": ALONE},
        "e07": {"5-gallon": "what a bucket is called"},
        "e08": {"15 minutes": ALONE},
        "e15": {"30 minutes": FIRST_AID},
        "e17": {"2 in": FIRST_AID, "15 minutes": FIRST_AID},
        "e21": {"4 minutes": ALONE},
        "f04": {"5%": ALONE, "20 minutes": ALONE},
        "f06": {"15 to 20 minutes": ALONE},
        "h14": {"12 days": ALONE, "5 weeks": AGE},
        "h16": {"40%": TABLE, "75%": TABLE},
        "m05": {"30 minutes": ALONE},
        "q07": {"72 hours": ALONE},
        "r03": {"91 in": "breaths, no inches", "15 seconds": ALONE, "12 hours": ALONE},
        "s03": {"2 to 3°F": ALONE, "13°F": ALONE},
        "w04": {"30 seconds": "how fast hot water burns: said by this sheet alone"},
        "w05": {
            "30 seconds": "how long a cup is held: said by this sheet alone",
            "240 to 350 mL": TABLE, "470 to 710 mL": TABLE, "710 to 950 mL": TABLE,
            "1,500 mL": TABLE, "76 mL": TABLE, "8 weeks": AGE,
        },
        "w07": {"5-gallon": "what a bucket is called"},
    }
)  # fmt: skip


def bare(text: str) -> set[str]:
    """Return every amount typed into the body of a protocol."""
    _, _, body = text.split("---\n", 2)
    return set(AMOUNT.findall(NAMED.sub(" @ ", body)))


FOUND = {
    path.name.partition("-")[0]: bare(path.read_text(encoding="utf-8"))
    for path in sorted((CONTENT / "protocols" / "en").glob("*.md"))
}


@pytest.mark.parametrize("sheet", sorted(FOUND))
def test_amounts_in_protocols_have_names(sheet: str) -> None:
    """But for those with a reason."""
    assert FOUND[sheet] - set(EXCEPTIONS.get(sheet, {})) == set()


def test_no_exception_outlives_its_amount() -> None:
    """A reason for an amount that is gone would hide the next one."""
    gone = {
        (sheet, amount)
        for sheet, amounts in EXCEPTIONS.items()
        for amount in amounts
        if amount not in FOUND[sheet]
    }
    assert gone == set()


def test_an_amount_is_found_and_a_name_is_not() -> None:
    """`30 minutes` and `2 1/2 gal` are typed, `{{ care('dry') }}` is not."""
    text = "---\ntitle: x\n---\nWait 30 minutes, {{ care('dry') }}, pour 2 1/2 gal at 75%.\n"
    assert bare(text) == {"30 minutes", "2 1/2 gal", "75%"}
