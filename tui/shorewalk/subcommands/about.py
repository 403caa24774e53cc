"""About the commands themselves."""

from __future__ import annotations

import sys
from functools import partial

import click

from ..exits import Exit
from ..starting import narrate
from .completing import commands
from .layout import Command
from .shells import SHELLS, script_of
from .task import Task, echo


@click.command("help", cls=Command, short_help="What to type; or all about one command.")
@click.argument("command", required=False, shell_complete=commands)
@click.pass_context
def help_(ctx: click.Context, command: str | None) -> Task:
    """Say what to type, or all about one COMMAND."""
    top = ctx.find_root()
    return partial(_tell, [command, "--help"] if command else ["--help"], top.command)


def _tell(words: list[str], group: click.Command) -> int:
    group.main(words, prog_name="shorewalk", standalone_mode=False)
    return Exit.CLEAN


@click.command("completion", cls=Command, short_help="Let the shell complete what you type.")
@click.argument("shell", type=click.Choice(list(SHELLS)))
def completion(shell: str) -> Task:
    """Print the script by which SHELL completes commands, trees, sites, sums, rules and walks.

    Its first line says how to install it.
    """

    def task() -> int:
        echo(script_of(shell), nl=False)
        if sys.stdout.isatty():
            narrate(f"To install it: {SHELLS[shell].install}")
        return Exit.CLEAN

    return task
