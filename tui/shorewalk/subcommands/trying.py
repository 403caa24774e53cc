"""Trying trees out: make-believe pedestals with faults, and every way to every ending."""

from __future__ import annotations

from pathlib import Path

import click

from ..starting import Usage, narrate
from .completing import folders, meters, trees
from .layout import Command
from .task import Task, echo


@click.command(cls=Command, short_help="Try a tree on make-believe pedestals with faults.")
@click.argument("tree", default="arrival", shell_complete=trees)
@click.option(
    "--variants", type=click.IntRange(1, 10_000), default=4, metavar="N", help="Of each fault, each outlet."
)
@click.option("--seed", type=int, default=1, metavar="N", help="Another number, other variants.")
@click.option(
    "--meter",
    metavar="METER",
    shell_complete=meters,
    default="basic,tenths",
    help="basic, good, or P%+C[,tenths].",
)
@click.option(
    "--without",
    multiple=True,
    type=click.Choice(["peg", "protector", "detector", "load"]),
    help="What whoever walks does not have; may be given more than once.",
)
@click.option(
    "--faults",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Other faults than ours.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs."
)
def trial(
    tree: str,
    *,
    variants: int,
    seed: int,
    meter: str,
    without: tuple[str, ...],
    faults: Path | None,
    form: str,
) -> Task:
    """Try TREE on make-believe pedestals: every fault, many variants, each walked to its end.

    Exits 1 where somebody was let into use under a danger that the ending does not name.
    """

    def task() -> int:
        from ..trying import Wanted, tell_trial

        wanted = Wanted(tree, variants, seed, meter, frozenset(without), faults, form)
        try:
            return tell_trial(wanted, echo)
        except ValueError as error:
            raise Usage(str(error)) from None

    return task


@click.command(cls=Command, short_help="The shortest walk to each ending; what no walk covers.")
@click.argument("names", nargs=-1, metavar="[TREE|FILE|FOLDER]...", shell_complete=trees)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs."
)
@click.option(
    "--meter", metavar="METER", shell_complete=meters, default="basic", help="basic, good, or P%+C[,tenths]."
)
@click.option(
    "--walks",
    metavar="FOLDER",
    shell_complete=folders,
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    help="Folder of recorded walks.",
)
@click.option(
    "--record",
    metavar="FOLDER",
    shell_complete=folders,
    type=click.Path(path_type=Path, file_okay=False),
    help="Write walks there to what is not covered.",
)
@click.option("--coverage", is_flag=True, help="Only what recorded walks cover, without the shortest walks.")
@click.option("--prove", is_flag=True, help="Do not count what no walk can cover; tell it apart.")
@click.option("--under", type=click.FloatRange(0, 100), metavar="PERCENT", help="Exit 1 if less is covered.")
def paths(
    names: tuple[str, ...],
    *,
    form: str,
    meter: str,
    walks: Path | None,
    record: Path | None,
    coverage: bool,
    prove: bool,
    under: float | None,
) -> Task:
    """Every ending with the shortest walk to it, and what recorded walks do not cover yet."""

    def task() -> int:
        from ..author.paths_command import Wanted, tell_paths

        wanted = Wanted(names, form, walks, record, under, meter, coverage, prove)
        try:
            return tell_paths(wanted, echo, narrate)
        except ValueError as error:
            raise Usage(str(error)) from None

    return task
