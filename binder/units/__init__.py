"""Quantities at the two borders: farm text in, page text out.

Inside the program every number is a plain metric float whose name ends in its unit. `reading`
turns what people write ("150 ft", "3/4 in", "7.5 %") into such a float; `amounts` and
`showing` turn an `Amount` back into the reader's own measures.
"""

from __future__ import annotations

from binder.units.amounts import (
    Amount,
    convert,
    copper_mm2,
    difference_c,
    gauge_of,
    symbol,
)
from binder.units.reading import (
    UnitError,
    is_metric,
    parse,
    two_things,
)
from binder.units.showing import (
    beside,
    limit,
    measure,
    measure_both,
    show,
    show_both,
    show_number,
    show_parts,
)

__all__ = [
    "Amount",
    "UnitError",
    "beside",
    "convert",
    "copper_mm2",
    "difference_c",
    "gauge_of",
    "is_metric",
    "limit",
    "measure",
    "measure_both",
    "parse",
    "show",
    "show_both",
    "show_number",
    "show_parts",
    "symbol",
    "two_things",
]
