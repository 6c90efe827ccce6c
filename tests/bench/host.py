"""Fifty phones fetch every page at once from `binder host`: errors, waiting, memory.

    .venv/bin/python -m tests.bench.host

The phones are tasks of this process, the host another, both on this machine, so the two share
its processors. The aims are those of the project's own plan; none is published.
"""

from __future__ import annotations

import asyncio
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PHONES = 50
ROUNDS = 3
AIM_MS = 250.0


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def resident_mb(process: int) -> float:
    """Return the memory that a process holds now [MB]."""
    status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    found = re.search(r"VmRSS:\s+(\d+) kB", status)
    return int(found[1]) / 1000 if found else 0.0


async def phone(port: int, names: list[str], waits: list[float], errors: list[str]) -> None:
    """Fetch every page over one line, as a browser does."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    for name in names:
        began = time.perf_counter()
        writer.write(
            f"GET /{name} HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept-Encoding: gzip\r\n\r\n".encode()
        )
        await writer.drain()
        head = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1")
        length = re.search(r"content-length: (\d+)", head)
        body = await reader.readexactly(int(length[1])) if length else b""
        waits.append(1000 * (time.perf_counter() - began))
        if " 200 " not in head.split("\r\n")[0] or not body:
            errors.append(f"{name}: {head.splitlines()[0]}")
    writer.close()
    await writer.wait_closed()


async def all_phones(port: int, names: list[str]) -> tuple[list[float], list[str]]:
    """Return how long each answer took [ms], and what went wrong."""
    waits: list[float] = []
    errors: list[str] = []
    await asyncio.gather(*(phone(port, names, waits, errors) for _ in range(PHONES)))
    return waits, errors


def main() -> None:
    """Serve the example farm and let the phones come."""
    with tempfile.TemporaryDirectory() as folder:
        command = [
            sys.executable, "-u", "-P", "-m", "binder", "host",
            str(ROOT / "content/example-farm"), "--port", "0", "--only-this-machine",
            "--to", f"{folder}/build", "--date", "2026-06-01",
        ]  # fmt: skip
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT) as host:
            assert host.stdout is not None
            port = next(
                int(found[1]) for line in host.stdout if (found := re.search(r":(\d+)/", line))
            )
            time.sleep(1)
            site = Path(folder) / "build" / "site"
            names = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.*"))
            names = [name for name in names if " " not in name]
            say(f"{PHONES} phones, {len(names)} files each")
            for turn in range(1, ROUNDS + 1):
                began = time.perf_counter()
                waits, errors = asyncio.run(all_phones(port, names))
                seconds = time.perf_counter() - began
                p99 = statistics.quantiles(waits, n=100)[98]
                say(
                    f"round {turn}: {len(waits)} answers in {seconds:.1f} s,"
                    f" {len(errors)} errors, host {resident_mb(host.pid):.0f} MB"
                )
                say(
                    f"  median {statistics.median(waits):.0f} ms, p99 {p99:.0f} ms"
                    f" (aim {AIM_MS:.0f}), worst {max(waits):.0f} ms"
                )
            host.terminate()


if __name__ == "__main__":
    main()
