"""The owner's sheet: what the farm lacks, worst first, and what fails first on a hot day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.clock import HOURS_IN_DAY
from binder.figures.figure import OUR_CHOICE
from binder.figures.finding import Finding, finding
from binder.figures.readiness import ranking
from binder.figures.readiness.ranking import Severity
from binder.pages import findings
from binder.pages.art.palette import DIGITS, FILLS, INK
from binder.pages.claims.claim import Claim, plain
from binder.pages.sheet import Block, Drawing, Heading, Paragraph, Sheet, Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from binder.figures.readiness.ranking import Shortfall
    from binder.pages.context import Context
    from binder.pages.text.protocol_file import Protocol
    from binder.pages.whole import Whole

# Darkness of the bar by severity, worst darkest: the ramp of the bands.
_SHADE = {Severity.HOURS: 4, Severity.DAY: 3, Severity.WEEK: 2, Severity.SEASON: 1}
_WIDTH, _HEIGHT, _LEAST = 660.0, 34.0, 34.0


def changed(own: Iterable[Protocol], maintained: Iterable[Protocol]) -> tuple[Finding, ...]:
    """Return the owner's sheets whose maintained one was reviewed later than they were."""
    newest = {one.slug: one for one in maintained}
    return tuple(
        finding(
            "ready", "protocol-changed", one.slug, sheet=one.sheet,
            changed_date=newest[one.slug].reviewed.isoformat(),
        )
        for one in own
        if one.slug in newest and newest[one.slug].reviewed > one.reviewed
    )  # fmt: skip


def lines(context: Context, more: Iterable[Finding] = ()) -> tuple[Shortfall, ...]:
    """Return every shortfall, worst first, with those that only protocols tell."""
    worked_out = context.figures.readiness.lines
    every = (*(line.finding for line in worked_out), *more)
    return ranking.ranked(every, context.figures.season)


def sheet(context: Context, whole: Whole) -> Sheet:
    """Return the owner's sheet."""
    w = context.w
    found = lines(context, whole.outdated)
    soon = sum(line.severity is Severity.HOURS for line in found)
    answer = (
        w("readiness.answer", count=len(found), hours=soon)
        if found
        else w("readiness.answer_none")
    )
    blocks: list[Block] = [Drawing(bar(context, found), w("readiness.bar"))] if found else []
    heads = tuple(w(f"readiness.head.{key}") for key in ("number", "what", "effect"))
    for severity in Severity:
        rows = tuple(
            (str(place), *_told(context, line))
            for place, line in enumerate(found, 1)
            if line.severity is severity
        )
        if rows:
            blocks.append(Heading(w(f"readiness.severities.{severity.key}")))
            blocks.append(Table(heads, rows, kind="wide plain"))
    blocks.append(Paragraph(w("readiness.how_soon"), small=True))
    blocks += [Heading(w("readiness.fails")), *fails(context)]
    return Sheet(
        title=w("readiness.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("readiness.summary"),
        sources=(OUR_CHOICE,),
        words=w("found_by.readiness"),
        claims=tuple(_claims(context, found)),
    )


def _claims(context: Context, found: Sequence[Shortfall]) -> Iterator[Claim]:
    """Yield the figures that a line states, under the key that every other sheet has."""
    for line in found:
        said = plain(findings.told(context, line.finding))
        for figure in line.finding.figures:
            value = plain(context.words.measured(figure))
            if value in said:
                yield Claim(figure.key, "figure", "", value)


def _told(context: Context, line: Shortfall) -> tuple[str, str]:
    return findings.told(context, line.finding), findings.effect(context, line.finding)


def bar(context: Context, found: Sequence[Shortfall]) -> Markup:
    """Return a bar with a part for each severity, as wide as it has lines."""
    counts = {one: sum(line.severity is one for line in found) for one in Severity}
    shown = {one: count for one, count in counts.items() if count}
    free = _WIDTH - _LEAST * len(shown)
    x, parts = 0.0, []
    for severity, count in shown.items():
        wide = _LEAST + free * count / len(found)
        shade = _SHADE[severity]
        parts.append(
            f'<rect x="{x:.1f}" y="1" width="{wide:.1f}" height="{_HEIGHT:.0f}" '
            f'fill="{FILLS[shade]}" stroke="{INK}"/>'
            f'<text x="{x + wide / 2:.1f}" y="{_HEIGHT / 2 + 7:.1f}" font-size="16" '
            f'font-weight="bold" text-anchor="middle" fill="{DIGITS[shade]}">{count}</text>'
            f'<text x="{x + 2:.1f}" y="{_HEIGHT + 18:.1f}" font-size="12" fill="{INK}">'
            f"{escape(context.w(f'readiness.say.{severity.key}'))}</text>"
        )
        x += wide
    said = ", ".join(
        f"{context.w(f'readiness.say.{one.key}')} {count}" for one, count in shown.items()
    )
    return Markup(  # noqa: S704 -- numbers, and words escaped one by one
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH:.0f} '
        f'{_HEIGHT + 24:.0f}" role="img" aria-label="{escape(said)}">{"".join(parts)}</svg>'
    )


def fails(context: Context) -> tuple[Block, ...]:
    """Return what fails first on the day of the figures, in order of the clock."""
    day = context.figures.day.day
    if day is None:
        return (Paragraph(context.w("readiness.fails_none")),)
    rows = tuple(
        (_when(context, each.hour), findings.sentence(context, each.finding))
        for each in context.figures.readiness.fails
    )
    high = context.degrees(day.weather.high_c)
    heads = (context.w("readiness.fails_head.when"), context.w("readiness.fails_head.what"))
    return Paragraph(context.w("readiness.fails_intro", high=high)), Table(heads, rows)


def _when(context: Context, hour: float) -> str:
    clock = context.clock(hour)
    return clock if hour < HOURS_IN_DAY else context.w("readiness.next_day", clock=clock)
