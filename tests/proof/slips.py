"""Slips one could make in a formula, one at a time: a coefficient, an operator, a limit."""

from __future__ import annotations

import ast
import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

SLIP = 0.01  # share by which a coefficient is changed, up and down

_OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.Pow: ast.Mult, ast.Mod: ast.Mult, ast.FloorDiv: ast.Div,
}  # fmt: skip
# Each comparison with the one whose limit falls to the other side, and with its opposite.
_COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt), ast.LtE: (ast.Lt, ast.GtE), ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.LtE), ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
}  # fmt: skip
_NAMES = {
    "min": "max",
    "max": "min",
    "floor": "ceil",
    "ceil": "floor",
    "any": "all",
    "all": "any",
}


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip: the file, its line, what stood there and what stands there now."""

    file: Path
    line: int
    was: str
    now: str
    source: str

    def __str__(self) -> str:
        """Return one line about it."""
        return f"{self.file}:{self.line}  {self.was}  ->  {self.now}"


def slips(path: Path, text: str) -> Iterator[Slip]:
    """Yield every slip that can be made in a module."""
    tree = ast.parse(text)
    for node, parents in _walked(tree, ()):
        if any(isinstance(each, ast.JoinedStr | ast.Raise) for each in parents):
            continue  # the words of a message are no formula
        for other in _others(node):
            changed = _with(tree, node, other)
            line = getattr(node, "lineno", 0)
            yield Slip(path, line, ast.unparse(node), ast.unparse(other), ast.unparse(changed))


def _walked(
    node: ast.AST, parents: tuple[ast.AST, ...]
) -> Iterator[tuple[ast.AST, tuple[ast.AST, ...]]]:
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "decorator_list"}:
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                yield child, (*parents, node)
                yield from _walked(child, (*parents, node))


def _others(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what may stand in the place of a node."""
    if isinstance(node, ast.Constant):
        yield from (ast.Constant(number) for number in _numbers(node.value))
    elif isinstance(node, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp):
        yield from _operations(node)
    elif isinstance(node, ast.IfExp):
        yield ast.IfExp(node.test, node.orelse, node.body)
    elif isinstance(node, ast.Name) and node.id in _NAMES:
        yield ast.Name(_NAMES[node.id], node.ctx)
    elif isinstance(node, ast.Attribute) and node.attr in _NAMES:
        yield ast.Attribute(node.value, _NAMES[node.attr], node.ctx)


def _operations(
    node: ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp,
) -> Iterator[ast.AST]:
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        yield ast.BinOp(node.left, _OPERATORS[type(node.op)](), node.right)
    elif isinstance(node, ast.Compare):
        for at, operator in enumerate(node.ops):
            for other in _COMPARISONS[type(operator)]:
                ops = [*node.ops[:at], other(), *node.ops[at + 1 :]]
                yield ast.Compare(node.left, ops, node.comparators)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield node.operand


def _numbers(value: object) -> Iterator[int | float]:
    """Yield the neighbours of a number: 1 % up and down, or one more and less when whole."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, int):
        yield from (value + 1, value - 1)
    elif isinstance(value, float):
        yield from (value * (1 + SLIP), value * (1 - SLIP)) if value else (SLIP, -SLIP)


def _with(tree: ast.AST, node: ast.AST, other: ast.AST) -> ast.AST:
    """Return a copy of a tree with one node replaced."""
    changed = copy.deepcopy(tree, {id(node): other})
    return ast.fix_missing_locations(changed)
