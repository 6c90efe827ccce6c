"""Our own HTML is read into the tree that the printing library makes of it, or left to it."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element, tostring

import pytest
import weasyprint

from binder.output.paper.quick.reading import NotPlainError, body

if TYPE_CHECKING:
    from collections.abc import Iterator

PLAIN = (
    "",
    "\n<p>Water &amp; feed, 5&nbsp;gal, &#189; a scoop<br>again</p>\n",
    "<table>\n<tr><th scope='row'>a</th>\n<td>b</td></tr>\n</table>",
    "<table><thead><tr><th>a</th></tr></thead>\n<tbody>\n<tr><td>b</td></tr></tbody></table>",
    "<table><tr><td>a</td></tr>\n<tbody><tr><td>b</td></tr></tbody></table>",
    "<ul><li>a <ul><li>b</li></ul></li>\n<li><p>c</p></li></ul>",
    "<table><tr><td><p>a</p><table><tr><td>b</td></tr></table></td></tr></table>",
    "<p>a <a class='sheet' href=\"sheet:x?a=1&amp;b=2\">E1</a> <b>c</b></p><p class=\"\">d</p>",
    '<figure><svg viewBox="0 0 1 1"><title>a &lt; b</title><path d="M0 0"/></svg></figure>',
    '<svg xmlns="http://www.w3.org/2000/svg"><g><text x="1">c</text></g></svg><b>d</b>',
    '<div CLASS="a"><img src="picture:a" alt=""></div> after',
)  # fmt: skip
LEFT = (
    "<p>a<ul><li>b</li></ul></p>",
    "<table><p>a</p></table>",
    "<table>a<tr><td>b</td></tr></table>",
    "<p><a href='x'>a<a href='y'>b</a></a></p>",
    "<ul><li>a<li>b</li></li></ul>",
    "<p>a",
    "<p>a</b></p>",
    "<p>a < b</p>",
    "<!-- a --><p>b</p>",
    "<select><option>a</option></select>",
    "<p hidden>a</p>",
    "<h2><h3>a</h3></h2>",
    "<p>a\rb</p>",
    "<div/>",
    "<svg><p>a</p></svg>",
    "<svg><title><b>a</b></title></svg>",
)


def nodes(element: Element) -> Iterator[tuple[str, str, str, list[tuple[str, str]]]]:
    """Yield every element below one, with its texts."""
    for each in element.iter():
        tail = "" if each is element else each.tail or ""
        yield str(each.tag), each.text or "", tail, sorted(each.attrib.items())


def by_the_library(html: str) -> Element:
    """Return the body that the library reads."""
    read = weasyprint.HTML(string=f"<!doctype html><html><body>{html}</body></html>\n")
    found: Element = read.etree_element.find("body")
    return found


@pytest.mark.parametrize("html", PLAIN)
def test_the_tree_is_the_librarys(html: str) -> None:
    """Tags, attributes, texts and what nobody wrote: the body of a table."""
    read = by_the_library("")
    body(html, read)
    assert list(nodes(read)) == list(nodes(by_the_library(html)))


@pytest.mark.parametrize("html", LEFT)
def test_what_needs_mending_is_left_to_the_library(html: str) -> None:
    """It would not be as we read it, or we do not know it."""
    read = by_the_library("")
    with pytest.raises(NotPlainError):
        body(html, read)
    assert tostring(by_the_library(html))
