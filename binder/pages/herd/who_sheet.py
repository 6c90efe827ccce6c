"""Who is who: each animal's picture beside its marks and one line of its temper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.art import drawings
from binder.pages.art.pictures import face
from binder.pages.sheet import Raw, Sheet
from binder.pages.text.listing import sentence, upper_first

if TYPE_CHECKING:
    from binder.figures.figures import Figures
    from binder.figures.herd.groups import Group
    from binder.pages.context import Context


def has(figures: Figures) -> bool:
    """Return whether anything is recorded by which to tell the animals apart."""
    return any(_told(group) for group in figures.herd.groups)


def sheet(context: Context) -> Sheet:
    """Return the animals that have a mark, a temper or a picture on record, pen by pen."""
    places = {pen.id: place for place, pen in enumerate(context.pens)}
    groups = sorted(
        filter(_told, context.figures.herd.groups),
        key=lambda group: places.get(group.pen or "", len(places)),
    )
    faces = Markup("").join(_face(context, group) for group in groups)
    return Sheet(
        title=context.w("who.title"),
        answer=(context.w("who.answer"),),
        blocks=(Raw(Markup('<ul class="faces">{}</ul>').format(faces)),),
        summary=context.w("who.summary"),
        words=context.w("who.words"),
        kind="who",
    )


def _told(group: Group) -> bool:
    return bool(group.animal.mark or group.animal.temper or group.animal.picture)


def _face(context: Context, group: Group) -> Markup:
    """Return one animal: picture, name, class and pen, marks, temper."""
    animal = group.animal
    pen = context.pen_name(group.pen)
    head = upper_first(context.count(group.cls, group.count))
    if animal.name is not None:
        head = upper_first(context.w(f"class_one.{group.cls}"))
    lines = [sentence(line) for line in (animal.mark, animal.temper) if line]
    said = Markup("<p>{}</p>").format(" ".join(lines)) if lines else Markup()
    return Markup(
        '<li>{}<div><p><b>{}</b> <span class="small">{} · {}</span></p>{}</div></li>'
    ).format(_picture(context, group), animal.called, head, pen, said)


def _picture(context: Context, group: Group) -> Markup:
    """Return the owner's picture in the frame that all have, or a drawing of its species."""
    animal = group.animal
    if animal.picture:
        alt = context.w("who.picture", name=animal.called)
        name = face(animal.picture)
        return Markup('<img src="picture:{}" alt="{}">').format(name, alt)
    return drawings.animal(animal.species, context.w(f"species.{animal.species}"))
