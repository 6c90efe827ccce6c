"""The phone file: everything inside, nothing outside, and its policy fits its script."""

from __future__ import annotations

import base64
import hashlib
import io
import random
import re
from dataclasses import replace
from typing import TYPE_CHECKING

from PIL import Image

from binder.output.screens.phone import phone_file, write_phone
from binder.pages.art.pictures import POCKET_BYTES, pocket
from binder.pages.page import PRINT, SITE
from tests.output.screens.test_site import screens  # noqa: F401 -- a fixture

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book


def test_the_policy_lets_its_own_script_run_and_no_other(screens: Book) -> None:  # noqa: F811
    """The hash in the policy is that of the script (CSP Level 3, section 2.3.1)."""
    html = phone_file(screens)
    script = re.findall(r"<script>(.*?)</script>", html, re.DOTALL)
    assert len(script) == 1
    digest = base64.b64encode(hashlib.sha256(script[0].encode()).digest()).decode()
    assert f"script-src 'sha256-{digest}'" in html
    assert "default-src 'none'" in html


def test_nothing_lies_outside(screens: Book) -> None:  # noqa: F811
    """Every address is inside the file, data, or a telephone number."""
    html = phone_file(screens)
    for address in re.findall(r'(?:href|src)="([^"]*)"', html):
        assert address.startswith(("#", "data:", "tel:")), address
    assert set(re.findall(r'url\("?([a-z]+):', html)) <= {"data"}


def test_it_is_one_file(screens: Book, tmp_path: Path) -> None:  # noqa: F811
    """`phone/binder.html`, and nothing beside it."""
    write_phone(screens, tmp_path)
    assert [path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.*")] == [
        "phone/binder.html"
    ]


def test_sheets_not_for_the_phone_are_left_out(screens: Book) -> None:  # noqa: F811
    """A sheet for site and print alone is not in it."""
    kept = tuple(
        replace(page, where=frozenset({SITE, PRINT})) if page.slug == "water" else page
        for page in screens.pages
    )
    html = phone_file(replace(screens, pages=kept))
    assert 'id="water"' not in html
    assert 'id="pen-creek"' in html


def test_its_pictures_are_the_small_ones(screens: Book) -> None:  # noqa: F811
    """The pictures for the pocket go in, not those for the site."""
    small = b"\x89PNG small"
    html = phone_file(replace(screens, small_pictures={"gate one.png": small}))
    assert base64.b64encode(small).decode() in html
    assert base64.b64encode(screens.pictures["gate one.png"]).decode() not in html


def noisy(width: int, height: int, mode: str = "RGB") -> bytes:
    """Return a picture that hardly packs: every point another colour."""
    chance = random.Random(1)
    raw = chance.randbytes(width * height * len(mode))
    stream = io.BytesIO()
    Image.frombytes(mode, (width, height), raw).save(
        stream, "PNG" if mode == "RGBA" else "JPEG"
    )
    return stream.getvalue()


def test_pictures_shrink_until_they_fit() -> None:
    """Twelve pictures of 1,400 points that hardly pack end below the limit, none lost."""
    large = noisy(1400, 1050)
    found = pocket({f"{number}.jpg": large for number in range(12)})
    assert len(found) == 12
    assert sum(map(len, found.values())) <= POCKET_BYTES < 12 * len(large)


def test_a_picture_seen_through_stays_so() -> None:
    """A drawing with a clear ground stays a PNG."""
    found = pocket({"a.png": noisy(64, 64, "RGBA")})["a.png"]
    assert found.startswith(b"\x89PNG")
    assert Image.open(io.BytesIO(found)).mode == "RGBA"
