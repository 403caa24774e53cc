"""What is kept: past walks, and a walk that another machine goes on with."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

import click

from ..starting import confirmed, narrate
from ..walking import columns
from .completing import files, folders, kept, logged
from .layout import Command
from .task import Task, echo


@click.command(
    cls=Command, options_metavar="[OPTIONS]", short_help="Past walks, and the readings of a site compared."
)
@click.argument("what", nargs=-1, metavar="[SITE|WALK]", shell_complete=logged)
@click.option(
    "--export", type=click.Choice(["csv", "json"]), help="All that is kept, or what was named, for programs."
)
@click.option(
    "--at", metavar="SITE", help='Say where a walk was: "14, Someday Flats". Nothing in it takes that back.'
)
@click.option(
    "--message",
    type=click.Choice(["park", "electrician"]),
    help="Print the message of a walk, or its record.",
)
@click.option(
    "--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write the record of a walk to a new PDF."
)
@click.option("--delete", is_flag=True, help="Delete what was named. It asks once.")
@click.option("--delete-all", "everything", is_flag=True, help="Delete every walk. It asks once.")
@click.option("--yes", is_flag=True, help="Delete without asking.")
def log(what: tuple[str, ...], **asked: Any) -> Task:
    """Past walks by site; with SITE their readings compared, hour by hour; with a number that WALK.

    A number is a site's first: walk:3 is the walk, site:3 the site, last the latest walk.
    """

    def task() -> int:
        from ..journal import Journal
        from ..log.command import Asked, Out, run_log

        out = Out(partial(echo, nl=False), narrate, confirmed, columns())
        return run_log(Asked(" ".join(what) or None, **asked), Journal.open(), out)

    return task


@click.command("hand-over", cls=Command, short_help="Save a walk to a file, for another machine.")
@click.argument("number", metavar="WALK", shell_complete=kept)
@click.argument("file", required=False, shell_complete=files)
def hand_over(number: str, file: str | None) -> Task:
    """Hand a walk over to another machine: WALK is its number, or last. FILE is new; - for the output.

    Whoever has the file takes the walk over with: shorewalk take-over FILE
    """

    def task() -> int:
        from ..carrying import hand_over_walk

        return hand_over_walk(number, file, echo)

    return task


@click.command("take-over", cls=Command, short_help="Go on with a walk that another machine began.")
@click.argument("file", shell_complete=files)
@click.option(
    "--trees",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    shell_complete=folders,
    help="Where its trees are, if they are not the ones that come with shorewalk.",
)
@click.option("--plain", is_flag=True, help="Go on in plain sentences.")
@click.option("--aloud", is_flag=True, help="Go on with questions in two lines, read aloud.")
@click.option("--only", is_flag=True, help="Take it over, and do not go on yet.")
def take_over(file: str, *, trees: Path | None, plain: bool, aloud: bool, only: bool) -> Task:
    """Take over a walk that was begun elsewhere, from its FILE (- for the input), and go on with it.

    Exits 3 where the file is not taken: it was damaged, or is no such file. Then nothing has changed.
    """

    def task() -> int:
        from ..carrying import Taking, take_over_file

        return take_over_file(Taking(file, trees, plain, aloud, only), echo)

    return task
