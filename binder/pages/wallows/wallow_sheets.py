"""The wallow sheets: each wallow's care, and mixing bleach with its gate and cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.published import rests_on
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Points, Sheet, Table
from binder.pages.text.listing import with_more
from binder.pages.text.rich import rich
from binder.pages.water import water_facts
from binder.sources import all_sources
from binder.units import Amount

if TYPE_CHECKING:
    from binder.figures.figure import Figure
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

_WEAK = frozenset({"C", "D"})


def wallows(context: Context) -> Sheet:
    """Return every wallow: size, filling, topping up, draining, where the next one goes."""
    w = context.w
    rows = tuple(
        (
            with_more(view.pen, rich(view.size, ". ", view.area)),
            view.volume_high,
            view.top_up,
            view.refresh,
            view.next_place,
        )
        for view in water_facts.wallows(context)
    )
    keys = ("pen", "fill", "top_up", "refresh", "next")
    blocks: list[Block] = [
        Table(tuple(w(f"wallow.head.{key}") for key in keys), rows, kind="facts wallows"),
        Heading(w("wallow.facts")),
        Points(
            tuple(w(f"wallow.points.{key}") for key in context.words.section("wallow.points"))
        ),
    ]
    if any(sheet.rate_assumed for sheet in context.figures.wallows.values()):
        blocks.append(Paragraph(w("wallow.rate"), small=True))
    if context.has("lactating sow") or context.has("late-gestation sow"):
        blocks.insert(0, Caution("caution", w("wallow.farrowing")))
    if "scum-on-water" in context.sheets:
        scum = context.say("wallow.scum", sheet=context.sheet("scum-on-water"))
        blocks.insert(0, Caution("warning", scum))
    return Sheet(
        title=w("wallow.title"),
        answer=(w("wallow.answer"),),
        blocks=tuple(blocks),
        summary=w("wallow.summary"),
        sources=rests_on("wallows"),
        words=w("found_by.wallows"),
    )


def mixing_bleach(context: Context) -> Sheet:
    """Return the mixes with their strengths, and what may and may not go into a wallow."""
    w = context.w
    cleaning = context.figures.cleaning
    blocks: list[Block] = [
        Caution("danger", w("mix.cautions.danger")),
        Caution("warning", w("mix.cautions.warning")),
    ]
    blocks += _aged(context)
    if cleaning.table:
        keys = ("use", "recipe", "ppm", "wet", "listed")
        blocks.append(
            Table(tuple(w(f"mix.head.{key}") for key in keys), _mixes(context), amounts=(2, 3))
        )
    else:
        blocks.append(Paragraph(w("mix.none")))
    strengths = (*(row.ppm for row in cleaning.table), *cleaning.aged.values())
    if any(_is_weak(figure) for figure in strengths):
        blocks.append(Caution("caution", w("mix.weak")))
    blocks += [*_ways(context), Paragraph(w("mix.fresh"))]
    if context.figures.wallows:
        blocks += [Heading(w("mix.wallow")), Paragraph(w("mix.wallow_rule")), *_doses(context)]
        blocks += [
            Paragraph(w("mix.gate", gate=context.show(Amount(context.gate_mg_l, "mg/L")))),
            Paragraph(
                w(
                    "mix.honest",
                    gate=context.show(Amount(cleaning.gate_mg_l, "mg/L")),
                    harm=context.show(Amount(cleaning.harm_mg_l, "mg/L")),
                )
            ),
            Caution("notice", w("mix.cautions.notice")),
        ]
    peroxides = [one.name for one in context.farm.equipment.products if one.kind == "peroxide"]
    if peroxides:
        blocks.append(Paragraph(w("mix.peroxide", names=", ".join(peroxides))))
    return Sheet(
        title=w("mix.title"),
        answer=(w("mix.answer"),),
        blocks=tuple(blocks),
        summary=w("mix.summary"),
        sources=rests_on("mixing-bleach"),
        words=w("found_by.mixes"),
        kind="figures",
    )


def _mixes(context: Context) -> tuple[tuple[Text, ...], ...]:
    w = context.w
    many = len({row.product for row in context.figures.cleaning.table}) > 1
    names = {one.id: one.name for one in context.farm.equipment.products}
    rows = []
    for row in context.figures.cleaning.table:
        # A wallow has no recipe: its dose, or why there is none, stands below.
        if row.bleach is None or row.water is None:
            continue
        use = w(f"cleaning-uses.{row.use}.title")
        recipe: Text = w("mix.recipe", bleach=row.bleach, water=row.water)
        rows.append(
            (
                f"{use}, {names[row.product]}" if many else use,
                recipe,
                context.number(row.ppm),
                context.show(row.wet_min) if row.wet_min else "–",
                w("mix.yes") if row.listed else w("mix.no"),
            )
        )
    return tuple(rows)


def _ways(context: Context) -> list[Block]:
    """Return how each mix is used, in the order of the table."""
    mixed = (row for row in context.figures.cleaning.table if row.bleach is not None)
    uses = dict.fromkeys(row.use for row in mixed)
    steps = tuple(
        (context.w(f"cleaning-uses.{use}.title"), context.w(f"cleaning-uses.{use}.how"))
        for use in uses
    )
    return [Heading(context.w("mix.ways")), Table((), steps)] if steps else []


def _doses(context: Context) -> list[Block]:
    """Return the dose of each wallow, or why there is none; one reason is told once."""
    names = {one.id: one.name for one in context.farm.equipment.products}
    lines: list[Text] = []
    without: dict[tuple[str, str], list[str]] = {}
    cleaning = context.figures.cleaning
    for dose in cleaning.doses:
        sheet = context.figures.wallows[dose.wallow]
        pen = context.farm.pen(sheet.pen).name
        if dose.dose is None:
            without.setdefault((dose.product, dose.reason), []).append(pen)
            continue
        line = context.say(
            "mix.dose", wallow=context.w("wallow.name", pen=pen), product=names[dose.product],
            dose=rich(context.number_both(dose.dose)),
            volume=sheet.low.amount if sheet.low else "",
        )  # fmt: skip
        lines.append(line)
    for (product, reason), pens in without.items():
        why = context.w(f"wallow-dose-reasons.{reason}")
        wallow = context.w("wallow.name", pen=str(context.listed(pens)))
        lines.append(
            context.w("mix.no_dose", wallow=wallow, product=names[product], reason=why)
        )
    weak = any(dose.dose is not None and _is_weak(dose.dose) for dose in cleaning.doses)
    cautions = [Caution("caution", context.w("mix.weak_dose"))] if weak else []
    return [*cautions, Points(tuple(lines))] if lines else []


def _is_weak(figure: Figure | None) -> bool:
    """Return whether a figure rests on a source of grade C or D."""
    if figure is None:
        return False
    known = all_sources()
    return any(known[source].grade in _WEAK for source in figure.sources)


def _aged(context: Context) -> list[Block]:
    cleaning = context.figures.cleaning
    names = {one.id: one.name for one in context.farm.equipment.products}
    lines: list[Text] = []
    if cleaning.table and cleaning.aged:
        lines.append(context.w("mix.fresh_bottle"))
    for product, figure in cleaning.aged.items():
        left = rich(context.number(figure))
        label = next(
            one.strength_pct for one in context.farm.equipment.products if one.id == product
        )
        lines.append(
            context.say(
                "mix.aged_line",
                product=names[product],
                left=left,
                label=context.show(Amount(label, "%")),
            )
        )
    lines += [context.w("mix.too_old", product=names[product]) for product in cleaning.too_old]
    return [Heading(context.w("mix.aged")), Points(tuple(lines))] if lines else []
