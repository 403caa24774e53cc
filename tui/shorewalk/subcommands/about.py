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
@click.argument("shell", metavar="SHELL", type=click.Choice(list(SHELLS)))
def completion(shell: str) -> Task:
    """Print the script by which SHELL (bash, zsh or fish) completes commands, trees, sites, sums, rules and walks.

    Its first line says how to install it.
    """

    def task() -> int:
        echo(script_of(shell), nl=False)
        if sys.stdout.isatty():
            narrate(f"To install it: {SHELLS[shell].install}")
        return Exit.CLEAN

    return task


@click.command("manual", cls=Command, short_help="All commands, keys, exit codes and files.")
@click.option("--roff", is_flag=True, help="As a page for man: shorewalk manual --roff | man -l -")
@click.pass_context
def manual(ctx: click.Context, *, roff: bool) -> Task:
    """Print the manual: every command with its options, the keys, exit codes, environment and files."""

    def task() -> int:
        from .group import GROUPS, TYPE
        from .manual.as_roff import roff_of
        from .manual.as_text import text_of
        from .manual.content import manual_of

        made = manual_of(ctx.find_root(), [(group.heading, group.commands) for group in GROUPS], TYPE)
        echo((roff_of if roff else text_of)(made), nl=False)
        return Exit.CLEAN

    return task
