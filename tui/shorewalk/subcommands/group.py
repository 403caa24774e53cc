"""All commands, grouped by who needs them; and what stands above them in `--help`."""

from __future__ import annotations

from functools import partial
from typing import NamedTuple

import click

from .. import __version__
from ..emergency import CARD
from ..starting import Usage
from ..walking import Asked, open_front
from .about import completion, help_, manual
from .completing import looks
from .guessing import no_such_command
from .keeping import hand_over, log, take_over
from .layout import NARROW, Command, Context
from .on_paper import print_
from .proving import lint, replay, schema
from .reckoning import calc
from .sharing import guarded
from .task import Task
from .trying import paths, trial
from .walking import practice, walk
from .writing import draw, new, preview

TYPE = (
    ("shorewalk", "It asks what is wrong."),
    ("shorewalk walk zap", "Straight to it, in your own words."),
)
MORE = "More of one: shorewalk help walk. All of it: shorewalk manual"


class Group(NamedTuple):
    """Commands under who needs them. `brief`: only their names stand in `--help`; in a narrow window all do so.

    What scrolls away is the first line, and that is the one to read first: so it fits a screen.
    """

    heading: str
    commands: tuple[Command, ...]
    brief: bool = False


GROUPS = (
    Group("At the pedestal", (walk, take_over, hand_over, calc)),
    Group("Before and after", (practice, print_, log)),
    Group("For whoever writes trees", (new, preview, lint, draw, replay, paths, trial), brief=True),
    Group("For programs, and about this one", (schema, guarded, completion, manual, help_), brief=True),
)
"""A new command gets its place here."""


class Commands(click.Group):
    """Answers the first question first, and knows what may have been meant by what is no command."""

    context_class = Context

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Say what to do where typing is wrong, what to type else, then the commands under who needs them."""
        formatter.write_text(f"Somebody hurt, or something burning? {CARD[0]} {CARD[1]}")
        formatter.write_heading("Else type")
        with formatter.indentation():
            formatter.write_dl(TYPE)
        for heading, commands, brief in GROUPS:
            formatter.write_heading(heading)
            with formatter.indentation():
                if brief or formatter.width < NARROW:
                    formatter.write_text(", ".join(command.name or "" for command in commands))
                else:
                    formatter.write_dl([(c.name or "", c.short_help or "") for c in commands])
        self.format_options(ctx, formatter)
        formatter.write_text(MORE)

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List what goes before a command or instead of one, but for help itself."""
        rows = [record for param in self.params if (record := param.get_help_record(ctx))]
        formatter.write_heading("Instead of a command")
        with formatter.indentation():
            formatter.write_dl(rows)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            raise Usage(no_such_command(args, list(self.commands)))
        return super().resolve_command(ctx, args)


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.option("--plain", is_flag=True, help="Sentences, for screen readers.")
@click.option("--aloud", is_flag=True, hidden=True)
@click.option("--meter", metavar="METER", hidden=True)
@click.option("--resume", metavar="ID", hidden=True)
@click.option("--look", metavar="NAME", hidden=True, shell_complete=looks)
@click.version_option(__version__, prog_name="shorewalk", help="Say which version this is.")
@click.pass_context
def shorewalk(
    ctx: click.Context, *, plain: bool, aloud: bool, meter: str | None, resume: str | None, look: str | None
) -> Task | None:
    """Say what is wrong at a power pedestal, and answer one question at a time."""
    if ctx.invoked_subcommand is None:
        return partial(open_front, Asked("", meter, resume, plain, aloud=aloud, look=look))
    named = {"--plain": plain, "--aloud": aloud, "--meter": meter, "--resume": resume, "--look": look}
    if option := next((name for name, given in named.items() if given), None):
        where = f"shorewalk {ctx.invoked_subcommand}"
        raise Usage(f"{option} goes after the command, if it takes it: {where} {option}")
    return None


for group in GROUPS:
    for command in group.commands:
        shorewalk.add_command(command)
