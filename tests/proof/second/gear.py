"""Pens, water, power, feed and the map of a farm by chance."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from tests.proof.second.dice import amount

if TYPE_CHECKING:
    from tests.proof.second.farm import Given

Thing = dict[str, Any]
# Ids that other fields may name, known before the things are made.
WATER = ("well", "tank-1", "hose-1", "hose-2")
CIRCUITS = ("box-1", "box-2")


def _ids(made: Given, kind: str, most: int) -> list[str]:
    return [f"{kind}-{n}" for n in range(1, made.dice.randint(0, most) + 1)]


def _past(made: Given, days: int = 2000) -> str:
    return str(made.on - dt.timedelta(made.dice.randint(0, days)))


def _point(made: Given, out: float = 300.0) -> str:
    dice = made.dice
    return f"{dice.uniform(-out, out):.1f} ft, {dice.uniform(-out, out):.1f} ft"


def pens(made: Given) -> list[Thing]:
    """Return pens; each wallow, drinker and fan has an id of its own."""
    return [_pen(made, n) for n in range(made.dice.one((1, 1, 2, 3, 5)))]


def _pen(made: Given, number: int) -> Thing:
    dice, pen = made.dice, made.pen
    thing: Thing = {
        "id": f"pen-{number}", "name": f"{pen.line(2)} {number}",
        "kind": dice.one(("pasture", "stall", "run", "coop")),
    }  # fmt: skip
    made.maybe(
        thing,
        route=lambda: str(dice.one((number + 1, dice.randint(1, 100_000)))),
        area=lambda: amount(dice, "ground"),
        shade=lambda: [_shade(made) for _ in range(dice.randint(0, 3))],
        shelter=lambda: _shelter(made),
        wallow=lambda: _wallow(made, number),
        drinkers=lambda: [_drinker(made, f"d{number}-{n}") for n in range(dice.randint(0, 3))],
        fans=lambda: [_fan(made, f"fan-{number}-{n}") for n in range(dice.randint(0, 2))],
        feeder=pen.line,
        night=pen.line,
        gate=pen.line,
        at=lambda: _point(made),
        gate_at=lambda: _point(made),
        corners=lambda: [_point(made) for _ in range(dice.randint(3, 7))],
        phone_signal=pen.line,
        farrowing=lambda: dice.one(("yes", "no")),
        round_intervals=lambda: {"hot": amount(dice, "interval")},
        tasks=lambda: [pen.line() for _ in range(dice.randint(0, 3))],
    )
    return made.extras(thing)


def _shade(made: Given) -> Thing:
    dice = made.dice
    shade: Thing = {
        "kind": dice.one(("trees", "cloth", "roof", "wall", "hut")),
        "area": amount(dice, "ground"),
    }
    return made.maybe(
        shade,
        blocks=lambda: amount(dice, "share"),
        over_wallow=lambda: dice.one(("yes", "no")),
    )


def _shelter(made: Given) -> Thing:
    dice = made.dice
    return made.maybe(
        {"area": amount(dice, "ground")},
        open_ends=lambda: str(dice.one((0, 1, 2, 4, dice.randint(0, 100_000)))),
        floor=lambda: dice.one(("dirt", "concrete", "slats", "wood", "grass")),
        bedding=lambda: amount(dice, "depth"),
    )


def _wallow(made: Given, number: int) -> Thing:
    dice = made.dice
    dug = dice.randint(0, 2000)
    wallow: Thing = {
        "id": f"w{number}", "shape": dice.one(("oval", "round", "rectangle")),
        "length": amount(dice, "span"), "depth": amount(dice, "depth"),
    }  # fmt: skip
    return made.maybe(
        wallow,
        width=lambda: amount(dice, "span"),
        dug=lambda: str(made.on - dt.timedelta(dug)),
        last_refreshed=lambda: _past(made, dug),
        to_well=lambda: amount(dice, "run"),
        to_stream=lambda: amount(dice, "run"),
        next_place=made.pen.line,
        fed_by=lambda: dice.one(WATER),
    )


def _drinker(made: Given, name: str) -> Thing:
    dice = made.dice
    kinds = ("nipple", "bowl", "trough", "bell", "tank", "bucket")
    return made.maybe(
        {"id": name, "kind": dice.one(kinds)},
        count=lambda: str(dice.one((1, 2, dice.randint(1, 100_000)))),
        flow=lambda: amount(dice, "flow"),
        holds=lambda: amount(dice, "vessel"),
        fed_by=lambda: dice.one(WATER),
        can_tip=lambda: dice.one(("yes", "no")),
        shaded=lambda: dice.one(("yes", "no")),
    )


def _fan(made: Given, name: str) -> Thing:
    dice = made.dice
    return made.maybe(
        {"id": name},
        diameter=lambda: amount(dice, "span"),
        air=lambda: amount(dice, "fan air"),
        power=lambda: amount(dice, "load"),
        circuit=lambda: dice.one(CIRCUITS),
        switch=made.pen.line,
        cleaned=lambda: _past(made),
    )


def equipment(made: Given) -> Thing:
    """Return everything that pens and animals may name, and more by chance."""
    dice, pen = made.dice, made.pen
    whole: Thing = {
        "water_sources": [_source(made)],
        "tanks": [_tank(made, "tank-1"), *(_tank(made, n) for n in _ids(made, "vat", 2))],
        "hoses": [_hose(made, name) for name in ("hose-1", "hose-2", *_ids(made, "pipe", 2))],
        "circuits": [_circuit(made, name) for name in CIRCUITS],
        "feeds": [_feed(made, name) for name in ("bag-1", *_ids(made, "bin", 3))],
    }
    made.maybe(
        whole,
        cords=lambda: [_cord(made, name) for name in _ids(made, "cord", 2)],
        generators=lambda: [_generator(made, name) for name in _ids(made, "gen", 2)],
        products=lambda: [_product(made, name) for name in _ids(made, "can", 3)],
        buckets=lambda: [
            {"id": name, "name": pen.line(2), "holds": amount(dice, "bucket")}
            for name in _ids(made, "bucket", 3)
        ],
        strips_read_from=lambda: amount(dice, "strip"),
    )
    return whole


def _source(made: Given) -> Thing:
    dice = made.dice
    kinds = ("well", "mains", "tap", "pond", "spring", "hauled")
    return made.maybe(
        {"id": "well", "name": made.pen.line(3), "kind": dice.one(kinds)},
        pressure=lambda: amount(dice, "pressure"),
        flow=lambda: amount(dice, "flow"),
        temperature=lambda: f"{dice.uniform(32.5, 139.5):.1f} F",
        pump=lambda: amount(dice, "load"),
        circuit=lambda: dice.one(CIRCUITS),
        shut_off=made.pen.line,
        at=lambda: _point(made),
    )


def _tank(made: Given, name: str) -> Thing:
    dice = made.dice
    return made.maybe(
        {"id": name, "name": made.pen.line(2), "holds": amount(dice, "tank")},
        fed_by=lambda: "well",
        needs_power=lambda: dice.one(("yes", "no")),
        shaded=lambda: dice.one(("yes", "no")),
        where=made.pen.line,
        at=lambda: _point(made),
    )


def _hose(made: Given, name: str) -> Thing:
    dice = made.dice
    hose: Thing = {"id": name, "length": amount(dice, "run")}
    if dice.yes(0.2):
        hose |= {"outside": "32 mm", "wall": amount(dice, "wall") if dice.yes(0.1) else "3 mm"}
    else:
        hose["inside"] = amount(dice, "bore")
    colours = ("black", "dark", "green", "blue", "red", "brown", "white", "light")
    return made.maybe(
        hose,
        name=lambda: made.pen.line(3),
        runs=lambda: dice.one(("on the ground", "buried", "overhead")),
        buried_depth=lambda: amount(dice, "depth"),
        sun=lambda: dice.one(("full", "part", "shade")),
        colour=lambda: dice.one(colours),
        flow=lambda: amount(dice, "flow"),
        bypass=made.pen.line,
        fed_by=lambda: dice.one(("well", "tank-1")),
        along=lambda: [f"{n} ft, 0 ft" for n in range(dice.randint(2, 2))],
    )


def _circuit(made: Given, name: str) -> Thing:
    dice = made.dice
    return made.maybe(
        {"id": name, "breaker": amount(dice, "breaker")},
        voltage=lambda: dice.one(("120 V", "240 V", amount(dice, "mains"))),
        where=made.pen.line,
        at=lambda: _point(made),
        label=made.pen.line,
        other_load=lambda: amount(dice, "load"),
        gfci=lambda: dice.one(("yes", "no")),
    )


def _cord(made: Given, name: str) -> Thing:
    dice = made.dice
    cord = {"id": name, "length": amount(dice, "cord"), "gauge": str(dice.randint(1, 24))}
    return made.maybe(cord, feeds=lambda: dice.one((*CIRCUITS, "well")))


def _generator(made: Given, name: str) -> Thing:
    dice, pen = made.dice, made.pen
    return made.maybe(
        {"id": name, "name": pen.line(2), "running": amount(dice, "load")},
        starting=lambda: amount(dice, "load"),
        fuel=lambda: amount(dice, "fuel tank"),
        fuel_rate=lambda: amount(dice, "burn"),
        where=pen.line,
        at=lambda: _point(made),
        runs=lambda: dice.some((*CIRCUITS, "well"), 3),
        connection=pen.line,
        transfer_switch=lambda: dice.one(("yes", "no")),
    )


def _product(made: Given, name: str) -> Thing:
    dice, pen = made.dice, made.pen
    return made.maybe(
        {
            "id": name, "name": pen.line(2), "kind": dice.one(("bleach", "peroxide", "other")),
            "strength": amount(dice, "strength"),
        },
        basis=lambda: dice.one(("weight", "volume")),
        bought=lambda: _past(made),
        kept=pen.line,
        kept_at=lambda: f"{dice.uniform(-38, 138):.0f} F",
        label_lists=lambda: [pen.line(2) for _ in range(dice.randint(0, 3))],
    )  # fmt: skip


def _feed(made: Given, name: str) -> Thing:
    dice, pen = made.dice, made.pen
    return made.maybe(
        {"id": name, "name": pen.line(2)},
        scoop=lambda: pen.line(2),
        scoop_holds=lambda: amount(dice, "scoop"),
        kept=pen.line,
        on_hand=lambda: amount(dice, "stock"),
    )
