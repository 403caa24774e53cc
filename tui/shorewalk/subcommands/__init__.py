"""The commands as a person types them. Each hands over to a front end; nothing is decided here."""

from __future__ import annotations

from contextlib import suppress
from functools import partial

import click

from ..exits import Exit
from ..starting import Usage
from ..tree.source import TreeError
from ..walking import told
from .group import shorewalk
from .layout import in_words
from .shells import completions
from .task import echo

UNASKED = ("--yes",)
"""Options that are offered to nobody for a slip of the fingers: they answer where it would be asked."""


def run_command(words: list[str]) -> int:
    """Run what was typed; return what to exit with."""
    return told(partial(_run, words))


def _run(words: list[str]) -> int:
    try:
        task = shorewalk.main(words, prog_name="shorewalk", standalone_mode=False)
    except click.ClickException as error:
        raise Usage(_said(error, words)) from None
    return task() if callable(task) else Exit.CLEAN  # help and version come to no task


def _said(error: click.ClickException, words: list[str]) -> str:
    """Return what the library found, in one paragraph, and where it is told how the command is typed."""
    if isinstance(error, click.NoSuchOption) and error.possibilities:
        error.possibilities[:] = [option for option in error.possibilities if option not in UNASKED]
    name = " ".join(["shorewalk", *(word for word in words[:1] if word in shorewalk.commands)])
    said = " ".join(in_words(error.format_message()).split())
    return f"{said}{'' if said.endswith(('.', '?')) else '.'} How to type it: {name} --help"


def complete_line() -> int:
    """Print what the line that a shell asks about may go on with; nothing where that cannot be told."""
    with suppress(Usage, TreeError, click.ClickException):
        echo(completions(shorewalk))
    return Exit.CLEAN
