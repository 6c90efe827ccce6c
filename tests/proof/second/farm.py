"""A farm by chance: every field of the farm folder given or left out, over its whole range."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tests.proof.second.dice import Dice, Pen, amount, clock, zones
from tests.proof.second.gear import equipment, pens

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

Thing = dict[str, Any]
FILES = ("farm", "animals", "pens", "equipment", "contacts", "stays", "private")
SEXES = {
    "pig": "sow gilt boar barrow female male mixed", "chicken": "hen pullet rooster mixed",
    "turkey": "hen tom female male mixed", "duck": "hen drake mixed", "goat": "doe buck wether",
    "sheep": "ewe ram wether mixed", "cattle": "cow heifer bull steer mixed",
    "horse": "mare stallion gelding", "donkey": "jenny jack gelding", "mule": "molly john",
    "rabbit": "doe buck mixed", "dog": "female male mixed",
}  # fmt: skip
MALE = frozenset((
    "boar", "barrow", "rooster", "buck", "wether", "ram", "bull", "steer", "stallion",
    "gelding", "jack", "john", "tom", "drake", "male",
))  # fmt: skip
# lightest and heaviest, most young, most feed a day: as the folder is published to take them
SIZES = {
    "pig": (0.5, 1300, 30, 35), "chicken": (0.04, 20, 30, 1), "turkey": (0.07, 60, 30, 5),
    "duck": (0.04, 20, 30, 2), "goat": (1, 400, 8, 20), "sheep": (1, 450, 8, 20),
    "cattle": (20, 4000, 6, 150), "horse": (10, 3000, 4, 75), "donkey": (8, 1200, 3, 40),
    "mule": (10, 2000, 1, 75), "rabbit": (0.04, 30, 24, 4), "dog": (0.15, 300, 24, 20),
}  # fmt: skip
ROLES = (
    "owner", "backup", "vet", "night vet", "neighbor", "hauler", "electrician", "plumber",
    "well service", "power company", "water company", "feed store", "doctor", "hospital",
    "extension office", "state vet", "fuel", "sitter", "other",
)  # fmt: skip
BANDS = ("fine", "warm", "hot", "severe", "all_hands")
MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
COUNTRIES = ("us", "es", "au", "za", "in", "fr", "gb", "it", "pt", "mx", "gr", "no", "is", "br")
HANDS = ("plain",) * 6 + ("letters", "letters", "planes", "markup")


@dataclass
class Given:
    """A farm by chance, the day it is built on, and what was chosen for all of it.

    Attributes:
        dice: chance.
        hand: how its words are written.
        density: share of the optional fields that are given.
        on: the day of the build.
        files: farm file without its ending -> what it says.
        others: further files, by path: text or bytes.
    """

    dice: Dice
    hand: str
    density: float
    on: dt.date
    files: dict[str, Any] = field(default_factory=dict)
    others: dict[str, str | bytes] = field(default_factory=dict)

    @property
    def pen(self) -> Pen:
        """Return who writes its words."""
        return Pen(self.dice, self.hand)

    def maybe(self, thing: Thing, **makers: Callable[[], Any]) -> Thing:
        """Give a thing some of its optional fields."""
        for key, make in makers.items():
            if self.dice.yes(self.density):
                thing[key] = make()
        return thing

    def extras(self, thing: Thing) -> Thing:
        """Give a thing what every thing may carry; hidden seldom, or little is left to read."""
        self.maybe(thing, notes=self.pen.text)
        if self.dice.yes(0.04):
            thing["private"] = "yes"
        return thing


def farm(seed: int) -> Given:
    """Return the farm of a seed."""
    dice = Dice(seed)
    day = dice.when(dt.date(2001, 1, 1), dt.date(2090, 12, 31))
    if dice.yes(0.3):
        day = day.replace(month=12, day=dice.randint(15, 31))
    made = Given(dice, dice.one(HANDS), dice.one((0.0, 0.15, 0.5, 0.85, 1.0)), day)
    made.files["pens"] = pens(made)
    made.files["equipment"] = equipment(made)
    made.files["farm"] = _about(made)
    made.files["animals"] = [_animal(made, n) for n in range(dice.one((1, 1, 2, 3, 6, 12)))]
    made.files["contacts"] = [_contact(made, n) for n in range(dice.one((1, 2, 4, 9)))]
    made.files["stays"] = [_stay(made, n) for n in range(dice.one((0, 1, 1, 2, 3)))]
    if dice.yes(made.density):
        made.files["private"] = {"codes": [_code(made) for _ in range(dice.randint(0, 4))]}
    return made


def _weather(made: Given, warmest_f: float, coldest_f: float = -38.0) -> Thing:
    dice = made.dice
    high = dice.uniform(coldest_f, warmest_f)
    low = dice.uniform(max(-39.0, high - 45), high)
    dew = dice.uniform(max(-39.0, high - 60), high)
    day: Thing = {
        "high": f"{high:.1f} F", "low": f"{low:.1f} F", "dew_point": f"{dew:.1f} F",
    }  # fmt: skip
    if dice.yes(0.2) and high > 0:
        day = {key: f"{int((float(text[:-2]) - 32) / 1.8)} C" for key, text in day.items()}
        day["low"] = day["dew_point"] = f"{int(day['high'][:-2]) - dice.randint(0, 9)} C"
    return made.maybe(day, hottest_at=lambda: clock(dice, 660, 1200))


def _about(made: Given) -> Thing:
    dice, pen = made.dice, made.pen
    about: Thing = {"name": pen.line(3), "place": _place(made)}
    made.maybe(
        about,
        country=lambda: dice.one(COUNTRIES),
        emergency_number=lambda: dice.one(("911", "112", "000", "999")),
        poison_line=pen.line,
        units=lambda: dice.one(("us", "metric")),
        paper=lambda: dice.one(("letter", "a4")),
        site_address=lambda: "http://farm.local:8000",
        owner_says=pen.text,
        thermometer=pen.line,
        hygrometer=pen.line,
        climate=lambda: {
            month: _weather(made, 118) for month in dice.some(MONTHS, 12)
        },
        hot_day=lambda: _weather(made, 121, 0),
        extreme_day=lambda: _weather(made, 121, 0),
        evaporation=lambda: amount(dice, "evaporation"),
        all_hands_from=lambda: str(dice.randint(84, 110)),
        round_intervals=lambda: {
            band: amount(dice, "interval") for band in dice.some(BANDS, 5)
        },
        costs=lambda: {key: f"${dice.randint(1, 9999)}" for key in ("cloth", "fan", "bury")},
        shut_offs=lambda: [
            made.maybe({"what": pen.line(2), "where": pen.line()})
            for _ in range(dice.randint(0, 5))
        ],
        eggs=pen.line,
        last_flow_test=lambda: str(_past(made, 900)),
        last_fan_cleaning=lambda: str(_past(made, 900)),
    )  # fmt: skip
    return about


def _place(made: Given) -> Thing | str:
    dice, pen = made.dice, made.pen
    if dice.yes(0.1):
        return pen.line(4)
    place: Thing = {}
    made.maybe(
        place,
        address=pen.line,
        directions=pen.text,
        map=lambda: "https://example.org/map?a=1&b=2",
        phone_signal=pen.line,
    )
    if dice.yes(max(made.density, 0.4)):
        polar = [each for each in zones() if abs(each[1]) > 60]
        zone, latitude, longitude = dice.one(polar if dice.yes(0.15) else zones())
        near = dice.uniform(-20, 20) if dice.yes(0.5) else 0.0
        place["latitude"] = f"{min(max(latitude + near, -90), 90):.{dice.randint(0, 5)}f}"
        place["longitude"] = f"{min(max(longitude + near, -180), 180):.{dice.randint(0, 5)}f}"
        if dice.yes(0.05):
            place["latitude"] = dice.one(("90", "-90", "0", "66.6", "-66.6"))
        place["timezone"] = zone
    return place


def _past(made: Given, days: int) -> dt.date:
    return made.on - dt.timedelta(made.dice.randint(0, days))


def _animal(made: Given, number: int) -> Thing:
    dice, pen = made.dice, made.pen
    species = dice.one(list(SEXES))
    lightest, heaviest, young, eats = SIZES[species]
    sex = dice.one(SEXES[species].split())
    born = _past(made, dice.one((3, 60, 400, 9000)))
    since = (made.on - born).days
    animal: Thing = {"species": species}
    if dice.yes(0.5):
        animal["name"] = f"{pen.line(2)} {number}"
    else:
        animal["group"] = f"{pen.line(2)} {number}"
        animal["count"] = str(dice.one((1, 2, dice.randint(1, 60), dice.randint(1, 5000))))
    made.maybe(
        animal,
        sex=lambda: sex,
        purpose=lambda: dice.one(
            ("eggs", "meat", "milk", "breeding", "guard", "work", "pet")
        ),
        breed=pen.line,
        mark=pen.line,
        temper=pen.line,
        pen=lambda: dice.one(made.files["pens"])["id"],
        moves=lambda: [
            {"on": str(made.on + dt.timedelta(days)), "to": dice.one(made.files["pens"])["id"]}
            for days in dice.some(range(-40, 90), 3)
        ],
        born=lambda: str(born),
        weight=lambda: f"{dice.spread(lightest * 1.05, heaviest * 0.95):.4g} lb",
        weighed=lambda: str(_past(made, since)),
        gain=lambda: amount(dice, "gain"),
        ration=lambda: f"{dice.spread(0.01, eats * 0.95):.4g} lb/day",
        feed=lambda: dice.one(made.files["equipment"]["feeds"])["id"],
        soak=lambda: f"{dice.uniform(0, 5):.3g}",
        medicine=pen.text,
    )  # fmt: skip
    if animal.get("sex") not in MALE:
        made.maybe(
            animal,
            bred=lambda: str(_past(made, min(since, 500))),
            bred_to=pen.line,
            farrowed=lambda: str(_past(made, min(since, 300))),
            litter=lambda: str(dice.randint(0, young)),
            weaned=lambda: str(_past(made, min(since, 200))),
        )
    if animal.get("feed") is None:
        animal.pop("feed", None)
    return made.extras(animal)


def _contact(made: Given, number: int) -> Thing:
    dice, pen = made.dice, made.pen
    contact: Thing = {
        "name": pen.line(3),
        "role": "owner" if number == 0 and dice.yes(0.8) else dice.one(ROLES),
        "phone": f"912-555-01{dice.randint(10, 99)}",
    }
    made.maybe(
        contact,
        ext=lambda: str(dice.randint(1, 9999)),
        more_phones=lambda: [f"912-555-01{n:02}" for n in dice.some(range(10, 99), 3)],
        nights=lambda: "+34 957 555 0110",
        hours=pen.line,
        can=pen.line,
        may_decide=pen.line,
        language=lambda: "en",
        helps=lambda: dice.some(("looks", "farrowing", "moving", "wallow"), 4),
        comes_in=lambda: amount(dice, "interval"),
    )
    return made.extras(contact)


def _stay(made: Given, number: int) -> Thing:
    dice, pen = made.dice, made.pen
    first = made.on + dt.timedelta(dice.one((dice.randint(-20, 25), dice.randint(-200, 400))))
    last = first + dt.timedelta(dice.one((0, 1, dice.randint(0, 14), dice.randint(0, 91))))
    stay: Thing = {
        "id": f"stay-{number}", "from": str(first), "to": str(last), "sitter": pen.line(3),
    }  # fmt: skip
    visits = dice.one((1, 2, 3, 5, dice.randint(1, 18), dice.randint(1, 48)))
    made.maybe(
        stay,
        phone=lambda: "912-555-0141",
        visits=lambda: [clock(dice) for _ in range(visits)],
        minutes=lambda: str(dice.one((1, 60, dice.randint(1, 1440), dice.randint(1, 99_999)))),
        between=lambda: [f"{clock(dice, 0, 700)} to {clock(dice, 701)}"],
        most_looks=lambda: str(dice.one((1, 4, dice.randint(1, 99_999)))),
        language=lambda: "en",
        sleeps_here=lambda: dice.one(("yes", "no")),
        new_to_heat=lambda: dice.one(("yes", "no")),
    )
    return made.extras(stay)


def _code(made: Given) -> Thing:
    code = {"what": made.pen.line(2), "code": f"{made.dice.randint(0, 10**8):08}"}
    return made.maybe(code, where=made.pen.line)


def write(made: Given, folder: Path) -> None:
    """Write the farm into a folder, every value in quotes."""
    folder.mkdir(parents=True)
    for name, data in made.files.items():
        text = json.dumps(data, ensure_ascii=False, indent=1)
        (folder / f"{name}.yaml").write_bytes(text.encode("utf-8", "surrogatepass"))
    for name, held in made.others.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(
            held.encode("utf-8", "surrogatepass") if isinstance(held, str) else held
        )
