"""About the commands themselves."""

from __future__ import annotations

from functools import partial

import click

from .layout import Command
from .task import Task


@click.command("help", cls=Command, short_help="What to type; or all about one command.")
@click.argument("command", required=False)
@click.pass_context
def help_(ctx: click.Context, command: str | None) -> Task:
    """Say what to type, or all about one COMMAND."""
    top = ctx.find_root()
    return partial(_tell, [command, "--help"] if command else ["--help"], top.command)


def _tell(words: list[str], group: click.Command) -> int:
    group.main(words, prog_name="shorewalk", standalone_mode=False)
    return 0
