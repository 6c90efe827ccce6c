"""Rules of CSS: those that cannot hold on a sheet are left out before its elements are asked.

A rule for `.pack .half` holds nowhere on a sheet without these two classes. What a selector
needs is noted when it is read, and held against the tags, classes and attributes of a sheet.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING, Any

from weasyprint.css import cssselect2

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

compiler, parser = cssselect2.compiler, cssselect2.parser
Needs = tuple[frozenset[str], ...]  # of each of these sets the sheet must have one
# Parts of an element that no sheet has: nothing on paper floats to the foot of its page.
_NEVER = frozenset(
    {"footnote-call", "footnote-marker", "note-call", "note-marker", "note-callback"}
)
_MARKER, _LISTED = "marker", "li"
_LISTS = tuple(f"{kind}_selectors" for kind in ("id", "class", "lower_local_name", "namespace"))
_MOST = 200  # kinds of sheet whose rules are kept, our choice: more than a binder has
_OTHERS = ("lang_attr_selectors", "other_selectors")


class NeedySelector(compiler.CompiledSelector):  # type: ignore[misc, name-defined] # no types
    """A selector that knows what a sheet must have for it to hold anywhere."""

    def __init__(self, parsed: Any) -> None:
        """Compile it."""
        super().__init__(parsed)
        self.needs: Needs = tuple(dict.fromkeys(_needs(parsed.parsed_tree)))


def _needs(tree: Any) -> Iterator[frozenset[str]]:
    if isinstance(tree, parser.CombinedSelector):
        yield from _needs(tree.left)
        yield from _needs(tree.right)
    elif isinstance(tree, parser.CompoundSelector):
        for each in tree.simple_selectors:
            yield from _needs(each)
    elif isinstance(tree, (parser.MatchesAnySelector, parser.SpecificityAdjustmentSelector)):
        # One of several: what each of them needs first, or nothing if one needs nothing.
        firsts = [next(_needs(each.parsed_tree), None) for each in tree.selector_list]
        known = [each for each in firsts if each is not None]
        if known and len(known) == len(firsts):
            yield frozenset().union(*known)
    elif type(tree) in _NAMED:
        yield frozenset({_NAMED[type(tree)](tree)})


_NAMED: dict[type, Callable[[Any], str]] = {
    parser.ClassSelector: lambda tree: f".{tree.class_name}",
    parser.LocalNameSelector: lambda tree: tree.lower_local_name,
    parser.AttributeSelector: lambda tree: f"[{tree.lower_name}",
}


class Rules(cssselect2.Matcher):  # type: ignore[misc]
    """The rules of a style, from which those that a sheet can use are taken."""

    def __init__(self) -> None:
        """Begin without any."""
        super().__init__()
        self._needs: dict[int, Needs] = {}
        self._asked: frozenset[str] = frozenset()
        self._made: dict[frozenset[str], cssselect2.Matcher] = {}

    def add_selector(self, selector: Any, payload: Any) -> None:
        """Take a rule up."""
        super().add_selector(selector, payload)
        needs = self._needs[self.order] = getattr(selector, "needs", ())
        self._asked = self._asked.union(*needs)

    def for_sheet(self, has: frozenset[str]) -> cssselect2.Matcher:
        """Return the rules that can hold where these tags, `.classes`, `[attributes` are."""
        key = has & self._asked  # sheets of a kind have the same
        if key not in self._made:
            if len(self._made) >= _MOST:
                self._made.clear()
            self._made[key] = self._fewer(key)
        return self._made[key]

    def _fewer(self, has: frozenset[str]) -> cssselect2.Matcher:
        fewer = cssselect2.Matcher()
        for name in _LISTS:
            kept = {key: self._held(each, has) for key, each in getattr(self, name).items()}
            setattr(fewer, name, {key: each for key, each in kept.items() if each})
        for name in _OTHERS:
            setattr(fewer, name, self._held(getattr(self, name), has))
        _keep_markers_to_lists(fewer)
        return fewer

    def _held(self, entries: Iterable[Any], has: frozenset[str]) -> list[Any]:
        return [
            entry
            for entry in entries
            if entry[3] not in _NEVER
            and all(not need.isdisjoint(has) for need in self._needs[entry[2]])
        ]


def _keep_markers_to_lists(rules: cssselect2.Matcher) -> None:
    """Let the rule for bullets be asked of list items alone: nothing else has one."""
    markers = [entry for entry in rules.other_selectors if entry[3] == _MARKER]
    rules.other_selectors = [entry for entry in rules.other_selectors if entry[3] != _MARKER]
    names = rules.lower_local_name_selectors
    names[_LISTED] = [*names.get(_LISTED, []), *markers]


def found_on(root: Any) -> frozenset[str]:
    """Return the tags, classes and attributes of a sheet, as selectors need them."""
    has: set[str] = set()
    for element in root.iter():
        if isinstance(element.tag, str):
            has.add(element.tag.rpartition("}")[2].lower())
            has.update(f"[{key.lower()}" for key in element.attrib)
            has.update(f".{name}" for name in element.get("class", "").split())
    return frozenset(has)


def fewer_rules(style: Any, has: frozenset[str], boxes: frozenset[str] | None = None) -> Any:
    """Return a style with the rules that can hold; margin boxes as named, None for all."""
    matcher = style.matcher
    if compiler.CompiledSelector is not NeedySelector or not isinstance(matcher, Rules):
        return style
    fewer = copy(style)
    fewer.matcher = matcher.for_sheet(has)
    if boxes is not None:
        fewer.page_rules = [
            (rule, kept, declarations)
            for rule, selectors, declarations in style.page_rules
            if (kept := [each for each in selectors if each[1] is None or each[1][1:] in boxes])
        ]
    return fewer


def install() -> None:
    """Let every selector that is read from now on know what it needs."""
    compiler.CompiledSelector = NeedySelector
