"""`python -m binder.cli`, where the command itself is not installed."""

from binder.cli import main

main()
