"""`binder`, and `python -m binder` where the command itself is not installed."""

from typing import NoReturn

from binder.safe_path import leave_out_current_folder


def main() -> NoReturn:
    """Run the commands with nothing imported from the folder that one stands in."""
    leave_out_current_folder()
    from binder.cli import main as run  # noqa: PLC0415 -- the path comes first

    run()


if __name__ == "__main__":
    main()
