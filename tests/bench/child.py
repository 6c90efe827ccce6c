"""One measured piece of work, in a process of its own: `python -m tests.bench.child WHAT ...`.

Prints what it used: seconds on the clock, seconds of processor time with its children, and the
largest memory of itself and of its largest child together.
"""

from __future__ import annotations

import datetime as dt
import json
import pickle
import resource
import sys
import time
from pathlib import Path

DAY = dt.date(2026, 6, 1)  # the example farm's day


def tell(facts: dict[str, float]) -> None:
    """Hand facts to the process that measures."""
    sys.stdout.write(f"{json.dumps(facts)}\n")


def book(farm: str, to: str) -> None:
    """Compose the book of a farm and keep it."""
    from binder.build import book_of  # noqa: PLC0415 -- each measured piece loads what it needs

    Path(to).write_bytes(pickle.dumps(book_of(Path(farm), DAY)))


def sheets(kept: str, to: str, cache: str) -> None:
    """Print a kept book as the program does: sheet by sheet, kept and joined."""
    from binder.cache import Cache  # noqa: PLC0415
    from binder.output.print import PrintOptions, render_book  # noqa: PLC0415

    read = pickle.loads(Path(kept).read_bytes())  # noqa: S301 -- our own
    result = render_book(read, Path(to), options=PrintOptions(cache=Cache(Path(cache))))
    tell({"pages": result.pages, "drawn": result.drawn})


def whole(farm: str, to: str, cache: str) -> None:
    """Do all of it: read, check, figure, compose and print a farm folder."""
    from binder.build import book_of  # noqa: PLC0415
    from binder.cache import Cache  # noqa: PLC0415
    from binder.output.print import PrintOptions, render_book  # noqa: PLC0415

    made = book_of(Path(farm), DAY)
    result = render_book(made, Path(to), options=PrintOptions(cache=Cache(Path(cache))))
    tell({"pages": result.pages, "drawn": result.drawn})


def parts(farm: str, to: str, cache: str) -> None:
    """Build a farm folder step by step and tell the processor seconds of each step."""
    told: dict[str, float] = {}

    def step(name: str) -> None:
        told[name] = _processor_s() - sum(told.values())

    from binder import build  # noqa: PLC0415
    from binder.cache import Cache  # noqa: PLC0415
    from binder.farm.check import check  # noqa: PLC0415
    from binder.farm.load import read_folder  # noqa: PLC0415
    from binder.output.print import PrintOptions, render_book  # noqa: PLC0415
    from binder.output.screens.phone import write_phone  # noqa: PLC0415
    from binder.output.screens.site import write_site  # noqa: PLC0415
    from binder.pages.compose import compose  # noqa: PLC0415

    step("imports")
    owner = read_folder(Path(farm))
    checked = check(owner, DAY)
    step("read and check")
    records = build.weather_of(Path(farm), checked, DAY)
    figures = build.figures_of(owner, checked, DAY, records=records)
    step("figures")
    made = compose(figures, owner.protocols, owner.pictures_folder)
    step("compose")
    out = Path(to)
    out.mkdir()
    write_site(made.screens or made, out)
    write_phone(made.screens or made, out)
    step("site and phone file")
    render_book(made, out, options=PrintOptions("owner", cache=Cache(Path(cache))))
    step("print")
    tell(told)


def _processor_s() -> float:
    """Return the processor time of this process and of those it has ended [s]."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(each.ru_utime + each.ru_stime for each in used)


def beyond(farm: str, to: str, cache: str) -> None:
    """Do all of it for a farm larger than the program takes: its own limits lifted."""
    from binder.farm import size  # noqa: PLC0415

    size.MOST = dict.fromkeys(size.MOST, (sys.maxsize, ""))
    whole(farm, to, cache)


def one(html: str, to: str) -> None:
    """Print one HTML document with WeasyPrint, tagged like ours."""
    import weasyprint  # noqa: PLC0415

    document = weasyprint.HTML(filename=html)
    document.write_pdf(to, pdf_tags=True, pdf_version="1.7")


def html(kept: str, to: str) -> None:
    """Write a kept book as one HTML document."""
    from tests.bench.one_document import document  # noqa: PLC0415

    read = pickle.loads(Path(kept).read_bytes())  # noqa: S301 -- our own
    Path(to).write_text(document(read), encoding="utf-8")


def site(farm: str, to: str) -> None:
    """Write the site alone."""
    from binder.build import build  # noqa: PLC0415
    from binder.output.print import silent  # noqa: PLC0415
    from binder.output.write import Options  # noqa: PLC0415

    build(Path(farm), Path(to), DAY, Options(site_only=True), silent)


WORK = {each.__name__: each for each in (book, sheets, whole, parts, beyond, one, html, site)}


def main() -> None:
    """Do what the arguments name and print what it used."""
    begun = time.perf_counter()
    WORK[sys.argv[1]](*sys.argv[2:])
    mine = resource.getrusage(resource.RUSAGE_SELF)
    theirs = resource.getrusage(resource.RUSAGE_CHILDREN)
    unit = 1 if sys.platform == "darwin" else 1024  # Linux counts in kB
    used = {
        "inside": time.perf_counter() - begun,
        "cpu": mine.ru_utime + mine.ru_stime + theirs.ru_utime + theirs.ru_stime,
        "memory": (mine.ru_maxrss + theirs.ru_maxrss) * unit,
    }
    tell(used)


if __name__ == "__main__":
    main()
