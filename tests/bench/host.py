"""200 phones read `binder host` while one slow client holds 1,000 connections open.

    .venv/bin/python -m tests.bench.host

The phones and the slow client are this process, the host another, both on this machine alone,
so the two share its processors. Each phone has one connection that is kept, asks for a page,
and asks for the next as soon as it has it. Runs are bounded, a few seconds each. The aims are
those of the project's own plan; none is published.
"""

from __future__ import annotations

import asyncio
import contextlib
import os
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PHONES = 200
SLOW = 1000
SECONDS = 6.0
AIM_MS = 60.0
# Every 127.x.y.z is this machine (RFC 1122, 3.2.1.3): one for each that asks.
PHONE, SLOW_CLIENT = "127.0.1.{}", "127.0.2.1"
LOOPBACK = "127.0.0.1"


@dataclass(slots=True)
class Tally:
    """What the phones and the slow client saw.

    Attributes:
        end: when to stop [s, as time.perf_counter].
        waits: how long each answer took [s].
        errors: what went wrong.
        closed: how often the host closed a connection of the slow client.
        held: how many of them are open now.
    """

    end: float
    waits: list[float] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)
    closed: int = 0
    held: int = 0


class Phone(asyncio.Protocol):
    """Asks for page after page over one connection."""

    def __init__(self, names: list[str], first: int, tally: Tally) -> None:
        """Begin with one of the names."""
        self._names, self._next, self._tally = names, first, tally
        self._answer = bytearray()
        self._length = 0
        self._began = 0.0
        self._done = False

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        """Ask for the first page."""
        assert isinstance(transport, asyncio.Transport)
        self._transport = transport
        self._ask()

    def _ask(self) -> None:
        self._answer.clear()
        self._length = 0
        self._next = (self._next + 1) % len(self._names)
        name = self._names[self._next]
        self._began = time.perf_counter()
        request = f"GET /{name} HTTP/1.1\r\nHost: {LOOPBACK}\r\nAccept-Encoding: gzip\r\n\r\n"
        self._transport.write(request.encode())

    def data_received(self, data: bytes) -> None:
        """Note how long the answer took when all of it is there; ask for the next."""
        self._answer += data
        if not self._length:
            end = self._answer.find(b"\r\n\r\n")
            if end < 0:
                return
            length = re.search(rb"content-length: (\d+)", self._answer[:end])
            if not self._answer.startswith(b"HTTP/1.1 200 ") or length is None:
                self._tally.errors.append(self._answer[:40].decode("latin-1"))
            self._length = end + 4 + (int(length[1]) if length else 0)
        if len(self._answer) < self._length:
            return
        now = time.perf_counter()
        self._tally.waits.append(now - self._began)
        self._done = now > self._tally.end
        if self._done:
            self._transport.close()
        else:
            self._ask()

    def connection_lost(self, exc: Exception | None) -> None:
        """Note a connection that the host closed."""
        if not self._done:
            self._tally.errors.append(f"closed: {exc}")


async def hold(port: int, tally: Tally) -> None:
    """Hold one connection: half a request, a byte more now and then; closed, open another."""
    while time.perf_counter() < tally.end:
        with contextlib.suppress(OSError):
            reader, writer = await asyncio.open_connection(
                LOOPBACK, port, local_addr=(SLOW_CLIENT, 0)
            )
            tally.held += 1
            try:
                writer.write(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: ")
                while time.perf_counter() < tally.end:
                    with contextlib.suppress(TimeoutError):
                        if not await asyncio.wait_for(reader.read(1), 2):
                            break
                    writer.write(b"a")
            finally:
                tally.held -= 1
                tally.closed += time.perf_counter() < tally.end
                writer.close()
        await asyncio.sleep(5)


async def load(port: int, names: list[str], phones: int, slow: int) -> tuple[Tally, int]:
    """Return what was seen, and how many slow connections were open at its end."""
    loop = asyncio.get_running_loop()
    tally = Tally(end=time.perf_counter() + 3600)
    holding = [asyncio.create_task(hold(port, tally)) for _ in range(slow)]
    if slow:
        await asyncio.sleep(2)
    tally.end = time.perf_counter() + SECONDS
    for number in range(phones):
        here = (PHONE.format(number % 250 + 1), 0)
        phone = partial(Phone, names, number, tally)
        await loop.create_connection(phone, LOOPBACK, port, local_addr=here)
    await asyncio.sleep(max(0.0, tally.end - time.perf_counter()) - 0.1)
    held = tally.held
    await asyncio.sleep(2)
    for task in holding:
        task.cancel()
    await asyncio.gather(*holding, return_exceptions=True)
    return tally, held


def processor_s(process: int) -> float:
    """Return the processor time that a process took so far [s]."""
    fields = (
        Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    )
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def resident_mb(process: int) -> float:
    """Return the memory that a process holds now [MB]."""
    status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    match = re.search(r"VmRSS:\s+(\d+) kB", status)
    return int(match[1]) / 1000 if match else 0.0


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def measure(port: int, process: int, names: list[str], phones: int, slow: int) -> None:
    """Run once and print what came of it."""
    before = processor_s(process)
    tally, held = asyncio.run(load(port, names, phones, slow))
    spent = processor_s(process) - before
    waits = sorted(1000 * wait for wait in tally.waits)
    p99 = statistics.quantiles(waits, n=100)[98]
    say(f"{phones} phones, {slow} slow connections of one client:")
    say(
        f"  {len(waits)} answers, {len(waits) / SECONDS:.0f}/s, {len(tally.errors)} errors;"
        f" median {statistics.median(waits):.1f} ms, p99 {p99:.1f} ms (aim {AIM_MS:.0f}),"
        f" worst {waits[-1]:.0f} ms"
    )
    say(
        f"  host: {1e6 * spent / len(waits):.0f} us of processor an answer,"
        f" {resident_mb(process):.0f} MB; slow ones left open {held}, closed {tally.closed}"
    )
    for error in sorted(set(tally.errors))[:3]:
        say(f"  {error}")


def main() -> None:
    """Serve the example farm and let the phones come."""
    _, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(hard, 8192), hard))
    with tempfile.TemporaryDirectory() as folder:
        command = [
            sys.executable, "-P", "-u", "-m", "binder", "host",
            str(ROOT / "content/example-farm"), "--port", "0", "--only-this-machine",
            "--to", f"{folder}/build", "--date", "2026-06-01",
        ]  # fmt: skip
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT) as host:
            assert host.stdout is not None
            try:
                port = next(
                    int(match[1])
                    for line in host.stdout
                    if (match := re.search(r"//127\.0\.0\.1:(\d+)/", line))
                )
                time.sleep(1)
                site = Path(folder) / "build" / "site"
                names = sorted(
                    path.relative_to(site).as_posix() for path in site.rglob("*.html")
                )
                for phones, slow in ((1, 0), (PHONES, 0), (PHONES, SLOW)):
                    measure(port, host.pid, names, phones, slow)
            finally:
                host.terminate()


if __name__ == "__main__":
    main()
