"""`binder`, and `python -m binder` where the command itself is not installed."""

import gc
import sys
from typing import NoReturn

from binder.safe_path import leave_out_current_folder

# Objects made between two searches for what nobody holds any more: our choice. Most of what a
# command makes lives to its end, and Python's own 700 has it searched all the while.
_RARELY = 50_000
STOPPED = 130  # exit code of what Ctrl-C ends: 128 and the number of the signal, as in a shell


def main() -> NoReturn:
    """Run the commands with nothing imported from the folder that one stands in."""
    leave_out_current_folder()
    gc.set_threshold(_RARELY)
    try:
        from binder.cli import main as run  # noqa: PLC0415 -- the path comes first
    except KeyboardInterrupt:  # while the program loads there is nothing to say yet
        sys.exit(STOPPED)
    run()


if __name__ == "__main__":
    main()
