"""The map on a sheet: the drawing, and a table of the same places beneath."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder import units
from binder.figures.place.farm_map import PEN, in_walking_order
from binder.pages import slugs
from binder.pages.place import map_drawing, other_maps
from binder.pages.place.map_drawing import STROKES, Drawn, Pin
from binder.pages.sheet import Block, Drawing, Raw, Sheet, Table
from binder.pages.text.listing import upper_first
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.figures.figures import Figures
    from binder.figures.place import GroundMap, Mark
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich

    Row = tuple[str | Rich, ...]

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_PARTS = 5  # a scale is at most one part in so many of what is drawn
_STEPS = (1, 2, 5)  # what a scale begins with


def has(figures: Figures) -> bool:
    """Return whether a farm has a map: places on one, or a way between pens."""
    return figures.ground is not None or len(figures.farm.pens) > 1


def sheet(context: Context) -> Sheet:
    """Return the map; where no place is recorded, the way from pen to pen."""
    ground = context.figures.ground
    key = "drawn" if ground and not ground.picture else "picture" if ground else "way"
    w = context.w
    return Sheet(
        title=w("map.title"),
        answer=(_answer(context, ground, key),),
        blocks=_blocks(context, ground) if ground else _way(context),
        summary=w("map.summary"),
        words=w("map.words"),
        kind="ground",
    )


def _answer(context: Context, ground: GroundMap | None, key: str) -> str:
    if ground is None:
        return context.w(f"map.answer.{key}")
    walked = [mark.pen for mark in ground.marks if mark.kind == PEN]
    numbered = [pen.id for pen in context.pens if pen.id in walked]
    pens = ", ".join(context.sheets[slugs.pen(pen)] for pen in walked)
    key = key if walked == numbered else f"{key}_order"
    walk = context.show(Amount(ground.walk, "m"))
    if ground.picture:
        return context.w(f"map.answer.{key}", pens=pens)
    said = context.w(f"map.answer.{key}", walk=walk, pens=pens)
    return f"{said} {context.w('map.answer.stay')}" if context.figures.stays else said


def _blocks(context: Context, ground: GroundMap) -> tuple[Block, ...]:
    pins, rows = _pins(context, ground)
    described = context.w("map.described", pens=_named(pins))
    if ground.picture:
        alt = context.w("map.picture", name=context.farm.about.name)
        html = other_maps.pinned(ground.picture, pins, alt, described)
    else:
        html = map_drawing.drawing(_drawn(context, ground, pins, described))
    return (Drawing(html), *_tables(context, _pen_rows(context, ground), rows))


def _tables(
    context: Context, pens: tuple[Row, ...], rows: tuple[Row, ...]
) -> tuple[Block, ...]:
    heads = tuple(context.w(f"map.head.{key}") for key in ("mark", "what"))
    cells = tuple((mark, _cell(what, where)) for mark, what, where in (*pens, *rows))
    table = Table(heads, cells, kind="facts tight wide places")
    return Raw(Markup('<div class="columns">')), table, Raw(Markup("</div>"))


def _cell(what: str | Rich, where: str | Rich) -> Markup:
    """Return what a place is, and in a lighter voice how to find it."""
    more = Markup(' <span class="small">{}</span>').format(where) if where else ""
    return Markup("<b>{}</b>{}").format(what, more)


def _named(pins: Sequence[Pin]) -> str:
    return ", ".join(f"{pin.label} {pin.name}" for pin in pins if pin.slug)


def _pins(context: Context, ground: GroundMap) -> tuple[list[Pin], tuple[Row, ...]]:
    """Return the marks, and the rows of those that are no pens; one letter a point."""
    pins, others = [], dict[tuple[float, float], list["Mark"]]()
    for mark in ground.marks:
        if mark.kind == PEN:
            slug = slugs.pen(mark.pen)
            pins.append(Pin(context.sheets[slug], mark.name, mark.at, slug))
        else:
            others.setdefault(mark.at, []).append(mark)
    rows: list[Row] = []
    for place, (at, marks) in enumerate(others.items()):
        letter = _LETTERS[place % len(_LETTERS)] * (place // len(_LETTERS) + 1)
        pins.append(Pin(letter, "", at))
        names = dict.fromkeys(_called(context, mark) for mark in marks)
        where = dict.fromkeys(mark.where for mark in marks if mark.where)
        rows.append((letter, upper_first("; ".join(names)), ". ".join(where)))
    return pins, tuple(rows)


def _called(context: Context, mark: Mark) -> str:
    """Return `Gate at the road (meeting place for an ambulance)`, or the kind alone."""
    kind = context.w(f"map.kind.{mark.kind}")
    if not mark.name:
        return upper_first(kind)
    key = f"map.named.{mark.kind}"
    if context.words.has(key):
        return context.w(key, name=mark.name)
    return context.w("map.named.any", name=mark.name, kind=kind)


def _pen_rows(context: Context, ground: GroundMap) -> tuple[Row, ...]:
    legs = ("", *(context.show(Amount(leg, "m")) for leg in ground.legs))
    pens = [mark for mark in ground.marks if mark.kind == PEN]
    return tuple(
        (
            context.sheet(slugs.pen(mark.pen)),
            mark.name,
            "" if ground.picture else context.w("map.leg" if leg else "map.first", far=leg),
        )
        for mark, leg in zip(pens, legs, strict=True)
    )


def _drawn(context: Context, ground: GroundMap, pins: Sequence[Pin], described: str) -> Drawn:
    lines = [(line.kind, line.name, line.along) for line in ground.lines]
    there = {kind for kind, *_ in lines}
    return Drawn(
        surfaces=[(one.corners, one.kind != PEN, not one.square) for one in ground.surfaces],
        lines=lines,
        way=ground.way,
        pins=pins,
        bar=_bar(context, ground),
        kinds=[(kind, context.w(f"map.line.{kind}")) for kind in STROKES if kind in there],
        way_said=context.w("map.way"),
        up=ground.up,
        north=context.w("map.north"),
        description=described,
    )


def _bar(context: Context, ground: GroundMap) -> tuple[float, str]:
    """Return a round length in the farm's measures that fits under the map, and its name."""
    xs = [x for x, _ in ground.points]
    across = max(xs) - min(xs)
    metres = units.parse("1 ft", "length") if context.words.system == "us" else 1.0
    most = across / _PARTS / metres
    tens = 1.0
    while tens * 10 <= most:
        tens *= 10
    length = max((step * tens for step in _STEPS if step * tens <= most), default=tens)
    return length * metres, context.show(Amount(length * metres, "m"))


def _way(context: Context) -> tuple[Block, ...]:
    """Return the way alone, with what is recorded of where things are in words."""
    farm, w = context.farm, context.w
    walked = in_walking_order(farm.pens)
    stops = [(context.sheets[slugs.pen(p.id)], p.name, slugs.pen(p.id)) for p in walked]
    described = w("map.described_way", pens=", ".join(f"{n} {name}" for n, name, _ in stops))
    pens: tuple[Row, ...] = tuple(
        (context.sheet(slugs.pen(pen.id)), pen.name, pen.gate or "") for pen in walked
    )
    found: Mapping[str, str | None] = {
        **{one.what: one.where for one in farm.about.shut_offs},
        **{one.name: one.where for one in farm.equipment.tanks},
        upper_first(w("map.kind.thermometer")): farm.about.thermometer,
    }
    rows: tuple[Row, ...] = tuple(
        (w("page.none"), what, where) for what, where in found.items() if where
    )
    return (Drawing(other_maps.way(stops, described)), *_tables(context, pens, rows))
