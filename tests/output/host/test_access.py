"""The passphrase: what opens, what does not, and how slow guessing is."""

from __future__ import annotations

import asyncio
import base64
from typing import TYPE_CHECKING

import pytest

from binder.output.host.access import (
    FREE_GUESSES,
    MOST_WAITING,
    SECONDS_A_GUESS,
    AccessControl,
    Decision,
)
from tests.output.host.asking import SECRET, basic, client, run

if TYPE_CHECKING:
    from binder.output.host.app import SiteState


def test_the_passphrase_opens(state: SiteState) -> None:
    """Whatever the name; without it every address says 401 and nothing else."""
    asks = client(state, AccessControl(SECRET))
    for path in ("/", "/now.json", "/nowhere"):
        refused = asks.get(path)
        assert refused.status_code == 401
        assert refused.headers["www-authenticate"].startswith("Basic ")
        assert "Front" not in refused.text
    for name in ("", "sitter", "a"):
        header = {"authorization": basic(SECRET, name)}
        assert asks.get("/", headers=header).status_code == 200


@pytest.mark.parametrize(
    "wrong",
    [
        basic(""),
        basic("the word"),
        basic(f"{SECRET} "),
        basic(SECRET).replace("Basic", "Bearer"),
        "Basic",
        "Basic !!!",
        "Basic " + base64.b64encode(b"\xff\xfe:x").decode(),
        "Basic " + "A" * 5000,
    ],
)
def test_a_wrong_answer_does_not(wrong: str) -> None:
    """Near misses, other schemes and rubbish are all the same: no."""
    assert decide(AccessControl(SECRET), wrong) is Decision.UNAUTHORIZED


def test_letters_of_every_script_may_be_in_it() -> None:
    """A passphrase with colon and accents opens too (RFC 7617, 2.1)."""
    word = "Kühe: früh & spät"
    assert decide(AccessControl(word), basic(word)) is Decision.ALLOWED


class Clock:
    """Time that passes only where somebody waits."""

    def __init__(self) -> None:
        """Begin at a moment like any other."""
        self.now = 1_000_000.0
        self.waited: list[float] = []

    def read(self) -> float:
        """Return the time [s]."""
        return self.now

    async def sleep(self, seconds: float) -> None:
        """Let time pass."""
        self.waited.append(seconds)
        self.now += seconds


def decide(access: AccessControl, authorization: str, address: str = "192.0.2.9") -> Decision:
    """Return what becomes of one request."""
    return run(access.decide(address, authorization))


def test_guessing_is_slow() -> None:
    """An hour of guessing one after the other gives twelve hundred and a few guesses."""
    clock = Clock()
    access = AccessControl(SECRET, clock.read, clock.sleep)
    end, guesses = clock.now + 3600, 0
    while clock.now < end:
        assert decide(access, basic(f"guess {guesses}")) is Decision.UNAUTHORIZED
        guesses += 1
    assert guesses == pytest.approx(3600 / SECONDS_A_GUESS + FREE_GUESSES, abs=2)


def test_the_right_word_is_never_locked_out() -> None:
    """After many wrong ones it waits one turn and opens; so do all requests that follow it."""
    clock = Clock()
    access = AccessControl(SECRET, clock.read, clock.sleep)
    for _ in range(FREE_GUESSES + 20):
        decide(access, basic("guess"))
    clock.waited.clear()
    assert decide(access, basic(SECRET)) is Decision.ALLOWED
    assert clock.waited == [pytest.approx(SECONDS_A_GUESS)]
    clock.waited.clear()
    for _ in range(200):
        assert decide(access, basic(SECRET)) is Decision.ALLOWED
    assert clock.waited == []


def test_other_addresses_do_not_wait() -> None:
    """One who guesses slows nobody else down."""
    clock = Clock()
    access = AccessControl(SECRET, clock.read, clock.sleep)
    for _ in range(FREE_GUESSES + 20):
        decide(access, basic("guess"))
    clock.waited.clear()
    assert decide(access, basic(SECRET), "192.0.2.10") is Decision.ALLOWED
    assert clock.waited == []


def test_guesses_at_once_take_turns_or_are_told_to_come_again() -> None:
    """Of a hundred at once the free ones and ten more are looked at, each after the other."""
    waited: list[float] = []

    async def sleep(seconds: float) -> None:
        waited.append(seconds)
        await asyncio.sleep(0)

    access = AccessControl(SECRET, lambda: 5.0, sleep)

    async def all_at_once() -> list[Decision]:
        asked = (access.decide("192.0.2.9", basic(f"guess {n}")) for n in range(100))
        return await asyncio.gather(*asked)

    decisions = run(all_at_once())
    assert decisions.count(Decision.UNAUTHORIZED) == FREE_GUESSES + MOST_WAITING
    assert decisions.count(Decision.TOO_MANY) == 100 - FREE_GUESSES - MOST_WAITING
    turns = [SECONDS_A_GUESS * turn for turn in range(1, MOST_WAITING + 1)]
    assert waited == pytest.approx(turns)


def test_a_page_full_of_right_requests_does_not_wait() -> None:
    """A browser asks for a page and all in it at once, each with the passphrase."""
    clock = Clock()
    access = AccessControl(SECRET, clock.read, clock.sleep)

    async def all_at_once() -> list[Decision]:
        asked = (access.decide("192.0.2.9", basic(SECRET)) for _ in range(50))
        return await asyncio.gather(*asked)

    assert set(run(all_at_once())) == {Decision.ALLOWED}
    assert clock.waited == []


def test_asking_without_an_answer_is_no_guess() -> None:
    """A phone that first asks for many pages is not slowed down."""
    clock = Clock()
    access = AccessControl(SECRET, clock.read, clock.sleep)
    for _ in range(100):
        assert decide(access, "") is Decision.UNAUTHORIZED
    assert decide(access, basic(SECRET)) is Decision.ALLOWED
    assert clock.waited == []


def test_only_the_latest_addresses_are_remembered() -> None:
    """However many addresses guess, memory stays small."""
    access = AccessControl(SECRET, lambda: 5.0)

    async def guess() -> None:
        for number in range(3000):
            await access.decide(f"2001:db8::{number:x}", basic("guess"))

    run(guess())
    assert len(access._paid_off) <= 1000


def test_too_many_at_once_are_told_when_to_come_again(state: SiteState) -> None:
    """429 with a time to wait (RFC 6585, 4)."""

    async def no_time(_: float) -> None:
        return

    asks = client(state, AccessControl(SECRET, lambda: 5.0, no_time))
    for _ in range(FREE_GUESSES + MOST_WAITING):
        asks.get("/", headers={"authorization": basic("guess")})
    answer = asks.get("/", headers={"authorization": basic("guess")})
    assert answer.status_code == 429
    assert int(answer.headers["retry-after"]) > 0
