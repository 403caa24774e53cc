"""Walking: a tree, and practice at a make-believe pedestal."""

from __future__ import annotations

from functools import partial

import click

from ..listing import whole_list
from ..looks import LOOKS
from ..sections import sections_of
from ..starting import find
from ..tree.library import shipped
from ..walking import Asked, open_front
from .completing import looks, meters, sites, trees, unfinished
from .layout import Command
from .task import Task, echo


class Walk(Command):
    """Lists the trees with their symptoms below its options."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the trees."""
        del ctx
        formatter.write("\n" + "\n".join(whole_list(sections_of(shipped()))) + "\n")


@click.command(cls=Walk, short_help="Go to what is wrong, in your own words or by its name.")
@click.argument("symptom", nargs=-1, shell_complete=trees)
@click.option("--plain", is_flag=True, help="Plain sentences, one question at a time.")
@click.option("--jsonl", is_flag=True, help="JSON lines on stdin and stdout, for programs.")
@click.option("--possible", is_flag=True, help="With --jsonl: after each reading, what it rules out.")
@click.option("--aloud", is_flag=True, help="Questions in two lines: one reads them aloud, the other types.")
@click.option(
    "--meter",
    metavar="METER",
    shell_complete=meters,
    help="basic, good, or P%+C[,tenths] as its maker states it.",
)
@click.option(
    "--resume",
    metavar="ID",
    shell_complete=unfinished,
    help="Go on with a walk that was left: its number, or last.",
)
@click.option("--look", metavar="NAME", shell_complete=looks, help=f"How it looks: {', '.join(LOOKS)}.")
def walk(
    symptom: tuple[str, ...],
    *,
    plain: bool,
    jsonl: bool,
    possible: bool,
    aloud: bool,
    meter: str | None,
    resume: str | None,
    look: str | None,
) -> Task:
    """Walk one tree: SYMPTOM is its name, or words for what is wrong."""
    words = " ".join(symptom)
    if not words and not resume:
        find(words)  # which says what there is to name
    return partial(open_front, Asked(words, meter, resume, plain, jsonl, aloud, possible, look))


@click.command(cls=Command, short_help="Practise where nothing is live.")
@click.argument("site", required=False, shell_complete=sites)
@click.option("--seed", type=int, metavar="N", help="The same number, the same pedestal.")
@click.option("--plain", is_flag=True, help="Plain sentences, one question at a time.")
def practice(site: str | None, *, seed: int | None, plain: bool) -> Task:
    """Practise at a make-believe pedestal with a hidden fault; without SITE, say which there are."""

    def task() -> int:
        from ..practising import practise

        return practise(site, seed, echo, plain=plain)

    return task
