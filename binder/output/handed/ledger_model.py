"""What the ledger's file may say, and what of it is which revision and which hand-over."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, NoReturn

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainSerializer

from binder.fit import keys_of
from binder.output.handed.ledger import HandOver, Ledger, Revision
from binder.pages.page import EDITIONS
from binder.problems import did_you_mean, quotable

_YES_NO = {"yes": True, "no": False}


def _refuse(message: str) -> NoReturn:
    raise ValueError(message)  # the explainer says it with file and line


def _text(value: object) -> str:
    if not isinstance(value, str):
        _refuse("is a list or mapping, but plain text belongs here")
    return value


def _day(value: object) -> str:
    """Return a day as this program writes it, `2026-05-20`."""
    text = _text(value)
    try:
        fine = dt.date.fromisoformat(text).isoformat() == text
    except ValueError:
        fine = False
    if not fine:
        _refuse(f'"{quotable(text)}" is not a date; write it like 2026-05-20')
    return text


def _number(value: object) -> int:
    if isinstance(value, int):
        return value
    text = _text(value)
    if not re.fullmatch(r"[0-9]{1,9}", text):
        _refuse(f'"{quotable(text)}" is not a whole number; write it like 3')
    return int(text)


def _edition(value: object) -> str:
    text = _text(value)
    if text and text not in EDITIONS:
        _refuse(f'"{quotable(text)}" is no edition{did_you_mean(text, EDITIONS)}')
    return text


def _yes_or_no(value: object) -> bool:
    if isinstance(value, bool):
        return value
    text = _text(value)
    if text not in _YES_NO:
        _refuse(f'"{quotable(text)}" is not yes or no')
    return _YES_NO[text]


Text = Annotated[str, BeforeValidator(_text)]
Day = Annotated[
    str, BeforeValidator(_day), PlainSerializer(dt.date.fromisoformat, return_type=dt.date)
]
Number = Annotated[int, BeforeValidator(_number)]
Edition = Annotated[str, BeforeValidator(_edition)]
YesNo = Annotated[bool, BeforeValidator(_yes_or_no)]


class Row(BaseModel):
    """What all parts of the file have in common: no key that is not told here."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class RevisionRow(Row):
    """One state of a sheet that was handed over, see `Revision`."""

    revision: Number = Field(examples=["2"])
    date: Day = Field(examples=["2026-05-20"])
    sheet: Text = Field(examples=["W1"])
    title: Text
    content: Text
    kind: Text = ""


class HandOverRow(Row):
    """One binder given to somebody, see `HandOver`; `seal` is the mark of what it said."""

    name: Text = Field(examples=["Dana"])
    date: Day = Field(examples=["2026-05-20"])
    edition: Edition = Field(examples=["sitter"])
    foot: Text
    returned: Day | None = None
    by_pen: YesNo = Field(default=True, alias="by-pen")
    own_stays: YesNo = Field(default=False, alias="own-stays")
    seal: Text = ""
    sheets: dict[str, Number] = Field(default_factory=dict)
    paper: dict[str, Number] = Field(default_factory=dict)


class LedgerFile(Row):
    """The whole file: the revisions of each sheet by its slug, and who was given which."""

    sheets: dict[str, tuple[RevisionRow, ...]] = Field(default_factory=dict)
    hand_overs: tuple[HandOverRow, ...] = Field(default=(), alias="hand-overs")


# Every key that stands in the file, the slugs of sheets aside.
KEYS = frozenset(
    key for model in (LedgerFile, RevisionRow, HandOverRow) for key in keys_of(model)
)


def written(ledger: Ledger, seals: tuple[str, ...]) -> LedgerFile:
    """Return what the file says of a ledger; `seals` of its hand-overs, in their order."""
    return LedgerFile(
        sheets={
            slug: tuple(_revision_row(each) for each in known)
            for slug, known in sorted(ledger.revisions.items())
        },
        hand_overs=tuple(
            _hand_over_row(each, seal)
            for each, seal in zip(ledger.hand_overs, seals, strict=True)
        ),
    )


def _revision_row(each: Revision) -> RevisionRow:
    return RevisionRow(
        revision=each.number,
        date=each.date,
        sheet=each.sheet,
        title=each.title,
        content=each.content,
        kind=each.kind,
    )


def _hand_over_row(each: HandOver, seal: str) -> HandOverRow:
    return HandOverRow(
        name=each.name,
        date=each.date,
        edition=each.edition,
        foot=each.foot,
        returned=each.returned or None,
        by_pen=each.by_pen,
        own_stays=each.own_stays,
        seal=seal,
        sheets=dict(sorted(each.sheets.items())),
        paper=dict(sorted(each.paper.items())),
    )


def meant(file: LedgerFile) -> Ledger:
    """Return the ledger that a file tells of."""
    return Ledger(
        {slug: tuple(_revision(row) for row in rows) for slug, rows in file.sheets.items()},
        tuple(_hand_over(row) for row in file.hand_overs),
    )


def _revision(row: RevisionRow) -> Revision:
    return Revision(row.revision, row.date, row.sheet, row.title, row.content, row.kind)


def _hand_over(row: HandOverRow) -> HandOver:
    return HandOver(
        row.name,
        row.date,
        row.edition,
        row.foot,
        row.sheets,
        row.returned or "",
        row.by_pen,
        row.paper,
        row.own_stays,
    )
