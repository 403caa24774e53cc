"""All commands, grouped by who needs them; and what stands above and below them in `--help`."""

from __future__ import annotations

from functools import partial

import click

from .. import __version__
from ..listing import names_by_heading
from ..sections import sections_of
from ..starting import Usage
from ..tree.library import shipped
from ..walking import Asked, open_front
from .keeping import hand_over, log, take_over
from .on_paper import print_
from .proving import lint, replay, schema
from .reckoning import calc
from .task import Task
from .trying import paths, trial
from .walking import practice, walk
from .writing import draw, new, preview

HELP = """\
Stand at the pedestal, say what is wrong, answer one question at a time.

\b
  shorewalk                    begin: it asks what is wrong
  shorewalk walk zap           go straight to it, in your own words
  shorewalk walk --plain WORD  plain sentences, for screen readers

Somebody hurt, or something burning? Touch nobody who is in contact. Call the
emergency number first (911 in the US and Canada).
"""

GROUPS: tuple[tuple[str, tuple[click.Command, ...]], ...] = (
    ("At the pedestal", (walk, take_over, hand_over, calc)),
    ("Before and after", (practice, print_, log)),
    ("For whoever writes trees", (new, preview, lint, draw, replay, paths, trial)),
    ("For programs", (schema,)),
)
"""A new command gets its place here."""


class Commands(click.Group):
    """Says how to walk a tree where a symptom was typed in the place of a command, and which there are."""

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands under who needs them, none of them cut short."""
        del ctx
        for heading, commands in GROUPS:
            with formatter.section(heading):
                formatter.write_dl([(command.name or "", command.short_help or "") for command in commands])

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Name the trees below the commands."""
        del ctx
        with formatter.section("What it can walk"):
            formatter.write_dl(names_by_heading(sections_of(shipped())))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            raise Usage(
                f'There is no command "{args[0]}". A symptom goes after walk: shorewalk walk {args[0]}'
            )
        return super().resolve_command(ctx, args)


@click.group(
    cls=Commands,
    invoke_without_command=True,
    help=HELP,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="shorewalk")
@click.pass_context
def shorewalk(ctx: click.Context) -> Task | None:
    """Open the app where no command is named."""
    return partial(open_front, Asked()) if ctx.invoked_subcommand is None else None


for _, commands in GROUPS:
    for command in commands:
        shorewalk.add_command(command)
