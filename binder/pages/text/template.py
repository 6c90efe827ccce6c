"""Jinja, strict and sandboxed (with `sandbox`, the only module that knows jinja2).

Two environments share one context. Page templates make HTML and escape farm text for HTML.
Protocol texts make Markdown, so there every farm text is also made inert for Markdown.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import jinja2
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from binder.data import TEMPLATES
from binder.pages.sheet import Raw
from binder.pages.text.rich import inert
from binder.pages.text.sandbox import MOST_CHARACTERS, Programs, Room, TooMuchError
from binder.pages.text.stops import one_stop
from binder.problems import Place, Problem, ProblemsError, quotable

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


_LONGEST_TOLD = 300  # characters of an error: our choice


def _finish_markdown(value: object) -> object:
    """Return what `{{ value }}` prints in a protocol: our links as Markdown, the rest inert."""
    if isinstance(value, jinja2.Undefined):
        return value
    if hasattr(value, "__markdown__"):
        return Markup(value.__markdown__())  # noqa: S704 -- escaped part by part in `rich`
    if isinstance(value, Markup):
        return value
    return Markup(inert(value))  # noqa: S704 -- every sign is an entity now


_BOTH: dict[str, Any] = {
    "undefined": jinja2.StrictUndefined,
    "autoescape": True,
    "trim_blocks": True,
    "keep_trailing_newline": True,
}
_PAGES = ImmutableSandboxedEnvironment(
    loader=jinja2.FileSystemLoader(TEMPLATES), lstrip_blocks=True,
    bytecode_cache=Programs(), **_BOTH,
)  # fmt: skip
# No lstrip_blocks here: the indent before `{% for %}` makes a line the detail of a step.
_PROTOCOLS = Room(finalize=_finish_markdown, **_BOTH)
# What a slip in a protocol ends in: Jinja's own errors, and Python's of what it calls.
_MISTAKES = (
    jinja2.TemplateError, ArithmeticError, AssertionError, AttributeError, LookupError,
    MemoryError, NameError, RuntimeError, SyntaxError, TypeError, ValueError,
)  # fmt: skip


def page(name: str, context: Mapping[str, object]) -> str:
    """Return the HTML of `templates/NAME` filled with `context`.

    Raises:
        ProblemsError: a name the context does not have, or a template that does not parse.
    """
    try:
        return one_stop(_PAGES.get_template(name).render(context))
    except jinja2.TemplateSyntaxError as error:
        place = f"templates/{error.name}"
        raise _problem(place, error.lineno, str(error.message)) from error
    except jinja2.TemplateError as error:
        place, line = _line_of(error, f"templates/{name}")
        raise _problem(place, line, str(error.message)) from error


def protocol(text: str, file: str, first_line: int, context: Mapping[str, object]) -> str:
    """Return the Markdown of a protocol with the farm's facts put in.

    Args:
        text: Markdown with Jinja in it, without its front matter.
        file: the protocol's file as it is named in messages.
        first_line: the line in that file where `text` starts.
        context: the names a protocol may use.

    Raises:
        ProblemsError: an unknown name or a mistake, with the protocol's file and line.
    """
    try:
        _refuse_length(text)
        return _PROTOCOLS.filled(text, context)
    except jinja2.TemplateSyntaxError as error:
        raise _problem(file, error.lineno + first_line - 1, str(error.message)) from error
    except _MISTAKES as error:
        _, line = _line_of(error, file, "<template>")
        message = quotable(_told(error), longest=_LONGEST_TOLD)
        raise _problem(file, (line or 1) + first_line - 1, message) from error


def _refuse_length(text: str) -> None:
    """Refuse a protocol too long to be one.

    Raises:
        TooMuchError: it is.
    """
    if len(text) > MOST_CHARACTERS:
        message = f"is too long; {MOST_CHARACTERS:,} characters are the most"
        raise TooMuchError(message)


def _told(error: BaseException) -> str:
    """Return an error in words."""
    if isinstance(error, RecursionError):
        return "nests too deep"
    if isinstance(error, MemoryError):
        return "asks for too much memory"
    if isinstance(error, KeyError) and error.args:
        return f'"{error.args[0]}" is not known here'
    if isinstance(error, SyntaxError):
        return f"cannot be read: {error.msg}"
    return str(getattr(error, "message", None) or error) or type(error).__name__


def _line_of(error: BaseException, fallback: str, wanted: str = "") -> tuple[str, int]:
    """Return file and line of the innermost template frame of an error."""
    place, line = fallback, 0
    traceback = error.__traceback__
    while traceback is not None:
        name = traceback.tb_frame.f_code.co_filename
        if name == wanted or (not wanted and name.startswith(str(TEMPLATES))):
            line = traceback.tb_lineno
            if not wanted:
                place = "templates/" + name[len(str(TEMPLATES)) + 1 :].replace("\\", "/")
        traceback = traceback.tb_next
    return place, line


def _problem(file: str, line: int, message: str) -> ProblemsError:
    return ProblemsError([Problem(Place(file, line, 1 if line else 0), "", message)])


def halves(words: object, blocks: Iterable[object]) -> Raw:
    """Return blocks of a sheet as two columns, where paper and screen are wide enough.

    Args:
        words: the word look-up that templates call `w`.
        blocks: parts of a sheet.
    """
    inner = page("parts/sheet.html", {"w": words, "answer": (), "blocks": tuple(blocks)})
    return Raw(Markup('<div class="halves">{}</div>').format(Markup(inner)))  # noqa: S704 -- our template
