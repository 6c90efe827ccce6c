"""The room in which protocols are filled in: few things are allowed, and none without end.

An owner's protocol may come from somebody else, and a slip in one's own may loop as well as any
malice. Only what a protocol needs is allowed (loops over the farm's things, conditions, names
and calls of ours); what is counted or printed has a limit. So no protocol can hold up a build.
"""

from __future__ import annotations

from functools import lru_cache
from types import BuiltinMethodType
from typing import TYPE_CHECKING, Any

import jinja2
from jinja2 import nodes
from jinja2.exceptions import SecurityError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from binder.pages.text import programs

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from jinja2.bccache import Bucket

# All our choice. The longest maintained protocol has 2,200 characters, its loops go ten times.
MOST_CHARACTERS = 30_000
MOST_STEPS = 20_000  # turns of loops and calls in one protocol
_MOST_DIGITS = 15

_ALLOWED = (
    nodes.Template, nodes.Output, nodes.TemplateData, nodes.For, nodes.If, nodes.Assign,
    nodes.Name, nodes.Const, nodes.Call, nodes.Keyword, nodes.Filter, nodes.Test, nodes.Compare,
    nodes.Operand, nodes.And, nodes.Or, nodes.Not, nodes.CondExpr, nodes.Getattr,
    nodes.Getitem, nodes.Slice, nodes.List, nodes.Tuple, nodes.Add, nodes.Sub, nodes.Mul,
    nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Neg, nodes.Pos,
)  # fmt: skip
_SAID = {
    "Pow": "**", "Concat": "~", "Dict": "{...}", "Macro": "{% macro %}",
    "CallBlock": "{% call %}", "AssignBlock": "{% set %} with an end", "Block": "{% block %}",
    "FilterBlock": "{% filter %}", "Include": "{% include %}", "Import": "{% import %}",
    "FromImport": "{% from %}", "Extends": "{% extends %}", "With": "{% with %}",
}  # fmt: skip
_FILTERS = (
    "string", "lower", "upper", "capitalize", "title", "trim", "length", "count", "first",
    "last", "default", "d", "round", "int", "float", "abs", "safe",
)  # fmt: skip
_TESTS = (
    "string", "number", "defined", "undefined", "none", "true", "false", "odd", "even", "in",
    "eq", "ne", "lt", "gt", "le", "ge", "==", "!=", "<", ">", "<=", ">=",
)  # fmt: skip
_METHODS = frozenset(
    {"lower", "upper", "capitalize", "title", "strip", "startswith", "endswith"}
)
_STEPS = " steps"  # no name can be written so


class Programs(jinja2.BytecodeCache):
    """Keeps the compiled page templates where protocols are kept too."""

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill in what was kept of a template."""
        bucket.code = programs.get(jinja2.__version__, bucket.key, bucket.checksum)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template."""
        if bucket.code is not None:
            programs.put(bucket.code, jinja2.__version__, bucket.key, bucket.checksum)


class TooMuchError(jinja2.TemplateRuntimeError):
    """A protocol that would go on for too long, or grow too large."""


class StepCount:
    """Counts what a protocol does."""

    def __init__(self) -> None:
        """Begin at nought."""
        self.done = 0

    def one(self) -> None:
        """Count one more.

        Raises:
            TooMuchError: that was one too many.
        """
        self.done += 1
        if self.done > MOST_STEPS:
            message = (
                f"goes on for too long; {MOST_STEPS:,} turns of loops and calls are the most"
            )
            raise TooMuchError(message)


class Room(ImmutableSandboxedEnvironment):
    """Jinja with what a protocol needs, and nothing else."""

    intercepted_binops = frozenset({"+", "-", "*", "/", "//", "%"})

    def __init__(self, **options: Any) -> None:
        """Take away what can run without end."""
        super().__init__(**options)
        known_filters, known_tests = self.filters, self.tests
        self.filters = {name: known_filters[name] for name in _FILTERS}
        self.filters[_STEPS] = _counted
        self.tests = {name: known_tests[name] for name in _TESTS}
        self.globals = {"range": self.globals["range"]}

    def filled(self, text: str, names: Mapping[str, object]) -> str:
        """Return a protocol's text with `names` put in.

        Raises:
            TooMuchError: it goes on for too long or grows too large.
            jinja2.TemplateError: what Jinja refuses, or this room.
        """
        parts: list[str] = []
        size = 0
        for part in _compiled(self, text).generate({**names, _STEPS: StepCount()}):
            size += len(part)
            if size > MOST_CHARACTERS:
                message = f"grows too large; {MOST_CHARACTERS:,} characters are the most"
                raise TooMuchError(message)
            parts.append(part)
        return "".join(parts)

    def call(self, context: Any, called: Any, *args: Any, **kwargs: Any) -> Any:
        """Call a name of ours, or a harmless method of a text; both count."""
        context[_STEPS].one()
        return super().call(context, called, *args, **kwargs)

    def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
        """Return a sum of plain numbers; texts and lists could grow without end.

        Raises:
            SecurityError: anything else than numbers of a usual size.
        """
        for each in (left, right):
            if not isinstance(each, int | float) or abs(each) > 10**_MOST_DIGITS:
                message = f"{operator} is for numbers of at most {_MOST_DIGITS} digits"
                raise SecurityError(message)
        return super().call_binop(context, operator, left, right)

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        """Return whether a name after a dot may be used; of plain texts only a few."""
        if isinstance(value, BuiltinMethodType) and attr not in _METHODS:
            return False
        return super().is_safe_attribute(obj, attr, value)

    def wrap_str_format(self, value: Any) -> None:
        """Offer no `format`: what it makes has no limit."""


@jinja2.pass_context
def _counted(context: jinja2.runtime.Context, things: Iterable[object]) -> Iterator[object]:
    """Yield the things of a loop, each a step."""
    steps: StepCount = context[_STEPS]
    for each in things:
        steps.one()
        yield each


def _refuse_strange(tree: nodes.Template) -> None:
    """Refuse what no protocol needs.

    Raises:
        jinja2.TemplateSyntaxError: with its line.
    """
    for node in tree.find_all(nodes.Node):
        name = type(node).__name__
        if not isinstance(node, _ALLOWED) or (isinstance(node, nodes.For) and node.recursive):
            shown = _SAID.get(name, "a recursive loop" if name == "For" else name.lower())
            message = f"{shown} is not for protocols"
            raise jinja2.TemplateSyntaxError(message, node.lineno)
        if isinstance(node, nodes.List | nodes.Tuple) and not _is_constant(node):
            message = "a list holds plain words and numbers only"
            raise jinja2.TemplateSyntaxError(message, node.lineno)
        if isinstance(node, nodes.Call) and len({each.key for each in node.kwargs}) < len(
            node.kwargs
        ):
            message = "a call names one thing twice"
            raise jinja2.TemplateSyntaxError(message, node.lineno)


def _is_constant(node: nodes.List | nodes.Tuple) -> bool:
    """Return whether a list holds constants; a tuple may also name what a loop or set fills."""
    if isinstance(node, nodes.Tuple) and node.ctx == "store":
        return True
    return all(isinstance(each, nodes.Const) for each in node.items)


@lru_cache(maxsize=256)  # the whole library: `host` fills it again at each change of the farm
def _compiled(room: Room, text: str) -> jinja2.Template:
    """Return the program that fills a protocol in; it keeps nothing from one time to the next.

    Raises:
        jinja2.TemplateError: what Jinja refuses, or the room.
    """
    made_of = (jinja2.__version__, _options(room), text)
    code = programs.get(*made_of)
    if code is None:
        tree = room.parse(text)
        _refuse_strange(tree)
        for loop in tree.find_all(nodes.For):
            loop.iter = nodes.Filter(
                loop.iter, _STEPS, [], [], None, None, lineno=loop.lineno, environment=room
            )
        code = room.compile(tree)
        programs.put(code, *made_of)
    return room.template_class.from_code(room, code, room.make_globals(None))


def _options(room: Room) -> str:
    """Return what of a room goes into the programs that it compiles."""
    finish = getattr(room.finalize, "__qualname__", "")
    blanks = (room.trim_blocks, room.lstrip_blocks, room.keep_trailing_newline)
    return f"{finish} {room.autoescape} {room.undefined.__name__} {blanks}"
