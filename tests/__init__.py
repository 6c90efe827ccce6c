"""Tests mirror the package. A package too, so that no library's own `tests` is found first."""
