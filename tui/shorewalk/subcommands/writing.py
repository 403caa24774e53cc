"""Writing a tree: one to begin with, a look beside the editor, a drawing."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

import click

from ..exits import Exit
from ..listing import fitted
from ..starting import Usage, narrate
from .completing import files, folders, trees
from .layout import Command
from .task import Task, echo


@click.command(cls=Command, short_help="Write a small sound tree to begin with.")
@click.argument("name")
@click.argument("folder", default=".", shell_complete=folders, type=click.Path(path_type=Path))
@click.option("--part", is_flag=True, help="A part, which several trees may put in.")
def new(name: str, folder: Path, *, part: bool) -> Task:
    """Write a small sound tree to begin with: NAME.yaml, in FOLDER."""

    def task() -> int:
        from ..author.new import NotWritten, write_new

        try:
            said = write_new(name, folder, part=part).told
            echo(fitted(said) if sys.stdout.isatty() else said)
        except NotWritten as error:
            raise Usage(str(error)) from None
        return Exit.CLEAN

    return task


@click.command(cls=Command, short_help="See a tree and walk it, while you write it.")
@click.argument("file", shell_complete=files)
@click.option("--node", metavar="NODE", help="Walk from this node at once.")
def preview(file: str, node: str | None) -> Task:
    """Show a tree while you write it: outline, findings, a walk from any node; read again on every save."""

    def task() -> int:
        from ..previewing import preview_file

        return preview_file(file, node)

    return task


@click.command(cls=Command, short_help="Draw a tree, here or for a page.")
@click.argument("tree", nargs=-1, shell_complete=trees)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "mermaid", "dot", "svg"]),
    default="text",
    help="Text art for the terminal, or a file for other programs.",
)
@click.option("--node", metavar="NODE", help="Begin at this node.")
@click.option("--depth", type=click.IntRange(0), metavar="N", help="Go only so many ways deep.")
@click.option("--parts", type=click.Choice(["open", "closed"]), help="Draw inside parts; closed if not said.")
@click.option(
    "--width", type=click.IntRange(40, 200), metavar="CELLS", help="Width of text, if not the window's."
)
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="Write it to this file.")
def draw(
    tree: tuple[str, ...],
    *,
    form: str,
    node: str | None,
    depth: int | None,
    parts: str | None,
    width: int | None,
    out: Path | None,
) -> Task:
    """Draw a tree: every node and every way, here or for a page.

    TREE is its name, words for what is wrong, the name of a part, or a file.
    """

    def task() -> int:
        from ..author.draw.run import Options, draw

        options = Options(form, node, depth, None if parts is None else parts == "open", width, out)
        return draw(" ".join(tree), options, partial(echo, nl=False), narrate)

    return task
