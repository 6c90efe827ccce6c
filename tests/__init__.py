"""Tests mirror the package. A package itself, so that no library's own `tests` is found first."""
