"""The commands: start, check, build, figure and the rest; alone in speaking to the terminal.

Exit codes: 0 fine, 1 the farm folder or the content is at fault, 2 wrong command.
"""

from __future__ import annotations

import sys
from typing import NoReturn

import click

from binder.cli import binders, farm, figure, season
from binder.cli.terminal import FARM_AT_FAULT, speak_any_letters
from binder.problems import ProblemsError

_SHOWN_PROBLEMS = 200  # our choice: enough to mend an evening's work, not a flood


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="binder", message="binder %(version)s")
def commands() -> None:
    """Turn a farm folder into a site and a printed binder that somebody else can follow."""


for each in (
    farm.start, farm.check_command, farm.day_command, season.season_command, figure.figure,
    binders.build_command, binders.hand_over_command, binders.host_command,
):  # fmt: skip
    commands.add_command(each)


def main() -> NoReturn:
    """Run the commands; every expected mistake ends with a clear message and its exit code."""
    speak_any_letters()
    try:
        commands(standalone_mode=False)
    except ProblemsError as error:
        for problem in error.problems[:_SHOWN_PROBLEMS]:
            click.echo(str(problem), err=True)
        more = len(error.problems) - _SHOWN_PROBLEMS
        if more > 0:
            click.echo(f"and {more} more", err=True)
        sys.exit(FARM_AT_FAULT)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except click.exceptions.Exit as stop:
        sys.exit(stop.exit_code)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. The last binder is as it was.", err=True)
        sys.exit(130)
    sys.exit(0)
