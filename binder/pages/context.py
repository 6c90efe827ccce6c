"""What composing knows: farm, figures, words, and how each prints. It asks, never computes."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import TYPE_CHECKING

from binder import units
from binder.clock import MINUTES_IN_HOUR
from binder.pages.text.call import phone, poison_line
from binder.pages.text.farm_names import farm_names, in_names, in_order
from binder.pages.text.listing import lower_first
from binder.pages.text.once import Once
from binder.pages.text.rich import Link, Rich, joined, linked, rich
from binder.pages.text.times import clock, span
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Contact, Farm, Pen
    from binder.figures.figure import Figure
    from binder.figures.figures import Figures
    from binder.pages.text.rich import Text
    from binder.pages.text.words import Words

_MM_PER_M = 1000
_DEGREES = re.compile(r"\d{1,3} F")


@dataclass(frozen=True)
class Context(Once):
    """Everything a page may draw on.

    Attributes:
        figures: the result of step 3.
        words: the words, in the farm's units.
        sheets: slug -> sheet id of every sheet this binder shows.
        tags: what the farm has, for choosing protocols.
    """

    figures: Figures
    words: Words
    sheets: Mapping[str, str]
    tags: frozenset[str]

    @property
    def farm(self) -> Farm:
        """Return the farm as the owner wrote it."""
        return self.figures.farm

    @property
    def metric(self) -> bool:
        """Return whether metric measures stand alone."""
        return self.words.system == "metric"

    @property
    def missing(self) -> str:
        """Return what stands where the owner recorded nothing."""
        return self.words.text("page.not_recorded")

    def w(self, key: str, **values: object) -> str:
        """Return the words at `key`."""
        return self.words.text(key, **values)

    def say(self, key: str, **values: object) -> Rich:
        """Return the words at `key` with links put where their names stand."""
        return linked(partial(self.w, key), values)

    def put(self, pattern: str, **values: object) -> Rich:
        """Return a text out of a list of words, as `say` does."""
        return linked(partial(self.words.with_limits, pattern), values)

    def or_missing(self, value: Text | None) -> Text:
        """Return the owner's text, or the words for "not recorded"."""
        return value if value is not None and str(value) else self.missing

    def show(self, amount: Amount) -> str:
        """Return an amount in the farm's units, as one measures it out."""
        return units.measure(amount, self.words.system, self.words.marks)

    def both(self, amount: Amount) -> str:
        """Return an amount in the farm's units with the other system's beside it."""
        return units.measure_both(amount, self.words.system, self.words.marks)

    def number(self, figure: Figure | None) -> Text:
        """Return a figure's value, leading to its working; "not recorded" for None."""
        if figure is None:
            return self.missing
        return rich(Link(self.words.measured(figure), f"working:{figure.key}"))

    def number_both(self, figure: Figure | None) -> Text:
        """Return a figure's value in both systems, leading to its working."""
        if figure is None:
            return self.missing
        return rich(Link(self.both(figure.amount), f"working:{figure.key}"))

    def sheet(self, slug: str) -> Rich:
        """Return a link that prints the sheet's id.

        Raises:
            KeyError: this binder does not show such a sheet.
        """
        return rich(Link(self.sheets[slug], f"sheet:{slug}"))

    def between(self, first: str, last: str) -> Rich:
        """Return `E1 to E20`: two sheets and all that stand between."""
        return rich(self.sheet(first), self.w("page.to"), self.sheet(last))

    def has(self, tag: str) -> bool:
        """Return whether the farm has the thing."""
        return tag in self.tags

    @property
    def pens(self) -> tuple[Pen, ...]:
        """Return the pens in the order of their numbers."""
        return in_order(self.farm)

    def degrees(self, temp_c: float) -> str:
        """Return a temperature in the farm's units."""
        return self.show(Amount(temp_c, "degC"))

    def count(self, cls: str, count: int) -> str:
        """Return `1 boar` or `45 laying hens`."""
        name = self.w(f"{'class_one' if count == 1 else 'classes'}.{cls}")
        return f"{count} {name}"

    def day(self, day: dt.date) -> str:
        """Return `12 July 2026`."""
        return f"{self.short_day(day)} {day.year}"

    def short_day(self, day: dt.date) -> str:
        """Return `12 July`."""
        return f"{day.day} {self.words.many('date.months')[day.month - 1]}"

    def weekday(self, day: dt.date) -> str:
        """Return `Friday 10 July`."""
        return f"{self.words.many('date.days')[day.weekday()]} {self.short_day(day)}"

    def window(self, first: dt.date, last: dt.date) -> str:
        """Return `12 to 18 July`, or both with their months."""
        if first == last:
            return self.short_day(first)
        begin = str(first.day) if first.month == last.month else self.short_day(first)
        return self.w("date.window", first=begin, last=self.short_day(last))

    def clock(self, hours: float) -> str:
        """Return `5:30 pm` or `6 pm`, hours since midnight as a clock reads, to 5 minutes."""
        return clock(hours, self.words)

    def time(self, time: dt.time) -> str:
        """Return a clock time as people say it."""
        return self.clock(time.hour + time.minute / MINUTES_IN_HOUR)

    def span(self, hours: float) -> str:
        """Return `2 hours` or `40 minutes`."""
        return span(hours, self.words)

    @property
    def emergency(self) -> str:
        """Return the number for a life in danger: the owner's, else the country's."""
        return self.farm.about.emergency or self.w("country.emergency.none")

    def emergency_said(self, what: str) -> str:
        """Return words that name the emergency number, or do without where none is known."""
        return self.words.of_emergency(what, self.farm.about.emergency)

    @property
    def poison_line(self) -> str:
        """Return whom to call about poison: the owner's line, else the country's."""
        return poison_line(self.farm.about, self.emergency, self.words)

    def contacts(self, role: str) -> tuple[Contact, ...]:
        """Return the farm's contacts of a role, in the owner's order, private ones left out."""
        return tuple(
            contact
            for contact in self.farm.contacts
            if contact.role == role and not contact.private
        )

    def phone(self, number: str) -> Rich:
        """Return a telephone number that a phone can dial."""
        return phone(number)

    def phones(self, contact: Contact) -> Rich:
        """Return a contact's numbers by day; the extension is said and not dialled."""
        first = self.phone(contact.phone)
        if contact.ext:
            first = rich(first, " ", self.w("contacts.ext", ext=contact.ext))
        for number in contact.more_phones:
            first = rich(first, ", ", self.phone(number))
        return first

    def call(self, role: str) -> Text:
        """Return whom to call: `Dr. Name 555-0117, nights 555-0119`.

        Whoever is told to call the vet learns at once whom to call when the vet sleeps.
        """
        found = self.contacts(role)
        if not found:
            return self.missing
        line = joined((self._call(contact) for contact in found), self.w("contacts.or"))
        if role == "vet" and self.contacts("night vet"):
            said = self.w("contacts.at_night", hours=self._night_hours())
            line = rich(line, said, self.call("night vet"))
        return line

    def _night_hours(self) -> str:
        """Return when the vet of the night is called: as the owner wrote it, for one vet."""
        found = self.contacts("night vet")
        hours = found[0].hours if len(found) == 1 else None
        return lower_first(hours) if hours else self.w("contacts.after_hours")

    def _call(self, contact: Contact) -> Rich:
        line = rich(contact.name, " ", self.phones(contact))
        if contact.nights and contact.nights != contact.phone:
            line = rich(line, ", ", self.w("contacts.nights"), " ", self.phone(contact.nights))
        return line

    def time_of(self, figure: Figure | None) -> Text:
        """Return a clock time such as `05:54` as people say it, leading to its working."""
        if figure is None or ":" not in str(figure.value):
            return self.number(figure)
        hour, _, minute = str(figure.value).partition(":")
        said = self.clock(int(hour) + int(minute) / MINUTES_IN_HOUR)
        return rich(Link(said, f"working:{figure.key}"))

    def named(self, subject: str) -> str:
        """Return a figure's subject as people know it, every id in it by its name."""
        if _DEGREES.fullmatch(subject):  # a row of a table, by its air
            kept = units.parse(subject, "temperature")
            return self.degrees(kept) if self.metric else subject
        called = {one.called: one.called for one in self.farm.animals}
        names = {**self.words.section("table_names"), **called, **self._names}
        return ", ".join(dict.fromkeys(in_names(subject.replace(",", " ").split(), names)))

    @cached_property
    def _names(self) -> Mapping[str, str]:
        """Return id -> name of everything on the farm, and of classes and bands."""
        return farm_names(self.farm, self.words)

    @cached_property
    def _names_of_things(self) -> Mapping[str, str]:
        classes = self.words.section("class_one")
        things = {key: name for key, name in self._names.items() if key not in classes}
        return {**self.words.section("table_names"), **things}

    def value(self, figure: Figure) -> str:
        """Return what a figure comes to, a row of a table by what the language calls it."""
        said = self.words.value(figure)
        return str(self.words.section("table_names").get(said, said))

    def working(self, figure: Figure) -> tuple[str, ...]:
        """Return the lines of a figure's working, every id in them by its name.

        Classes keep the names of the published tables, as `binder figure` says them.
        """
        names = self._names_of_things
        steps = tuple(
            replace(
                line,
                values=tuple(
                    (key, names.get(value, value) if isinstance(value, str) else value)
                    for key, value in line.values
                ),
            )
            for line in figure.working
        )
        return self.words.working(replace(figure, working=steps))

    @property
    def gate_mg_l(self) -> float:
        """Return the strip reading at which pigs may come back [mg/L]."""
        return self.figures.cleaning.gate_mg_l

    def pen_name(self, pen_id: str | None) -> str:
        """Return what a pen is called, or the words for "not recorded"."""
        return next((pen.name for pen in self.farm.pens if pen.id == pen_id), self.missing)

    @staticmethod
    def across(length_m: float) -> Amount:
        """Return a short length as an amount that prints in inches or millimetres."""
        return Amount(length_m * _MM_PER_M, "mm")

    def date_of(self, figure: Figure) -> dt.date:
        """Return the day that a figure names."""
        return dt.date.fromisoformat(str(figure.value))

    def listed(self, items: Iterable[Text]) -> Rich:
        """Return `a, b and c`."""
        texts = list(items)
        if len(texts) < 2:  # noqa: PLR2004 -- one item needs no joining word
            return joined(texts)
        return rich(joined(texts[:-1]), self.w("page.and"), texts[-1])
