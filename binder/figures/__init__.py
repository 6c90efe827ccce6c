"""Science and published tables applied to a farm.

No clock, no YAML, no HTML; only `published` reads files.
"""
