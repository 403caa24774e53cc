"""A tree on paper, for when there is no computer."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Literal

import click

from ..starting import narrate
from .completing import trees
from .layout import Command
from .task import Task, echo


@click.command("print", cls=Command, short_help="A tree as a checklist, for when there is no computer.")
@click.argument("tree", nargs=-1, shell_complete=trees)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown", "pdf"]),
    help="If not said: by the name of FILE, else text.",
)
@click.option("--to", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE", help="Write it here.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), default="letter", help="Size of a PDF's pages.")
@click.option("--width", type=click.IntRange(40, 200), default=72, metavar="CELLS", help="Width of text.")
def print_(
    tree: tuple[str, ...], *, form: str | None, to: Path | None, paper: Literal["letter", "a4"], width: int
) -> Task:
    """Print a tree as a numbered checklist, for when there is no computer.

    TREE is its name, words for what is wrong, or a file.
    """

    def task() -> int:
        from datetime import datetime

        from ..printing.run import Options, print_tree

        options = Options(datetime.now().astimezone(), form, to, paper, width)
        return print_tree(" ".join(tree), options, partial(echo, nl=False), narrate)

    return task
