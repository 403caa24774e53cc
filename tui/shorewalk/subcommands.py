"""The commands as a person types them. Each hands over to a front end; nothing is decided here."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import click

from . import __version__
from .exits import Exit
from .starting import Usage, narrate, start, take_up
from .tree.source import TreeError

HELP = """\
Stand at the pedestal, say what is wrong, answer one question at a time.

\b
  shorewalk                    begin: it asks what is wrong
  shorewalk walk tripped       go straight to it, in your own words
  shorewalk walk --plain WORD  plain sentences, for screen readers

Somebody hurt, or something burning? Touch nobody who is in contact. Call the
emergency number first (911 in the US and Canada).
"""
NO_TERMINAL = """\
shorewalk needs a terminal to open in, and there is none here. Instead:
  shorewalk walk SYMPTOM --plain   plain questions and answers, one a line
  shorewalk walk SYMPTOM --jsonl   the same for programs, as JSON lines
  shorewalk --help                 everything else"""


class Commands(click.Group):
    """Says how to walk a tree where a symptom was typed in the place of a command."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            raise Usage(
                f'There is no command "{args[0]}". A symptom goes after walk: shorewalk walk {args[0]}'
            )
        return super().resolve_command(ctx, args)


Task = Callable[[], int]
"""What a command line comes to. It runs when the parser, which has its own exit codes, has let go."""


def run_command(words: list[str]) -> int:
    """Run what was typed; return what to exit with."""
    try:
        task = shorewalk.main(words, prog_name="shorewalk", standalone_mode=False)
        return task() if callable(task) else Exit.CLEAN  # help and version come to no task
    except click.ClickException as error:
        error.show()
        return Exit.USAGE
    except Usage as error:
        click.echo(str(error), err=True)
        return Exit.USAGE
    except TreeError as error:
        click.echo(str(error), err=True)
        return Exit.UNFINISHED


@click.group(cls=Commands, invoke_without_command=True, help=HELP)
@click.version_option(__version__, prog_name="shorewalk")
@click.pass_context
def shorewalk(ctx: click.Context) -> Task | None:
    """Open the app where no command is named."""
    return open_app if ctx.invoked_subcommand is None else None


@shorewalk.command()
@click.argument("symptom", nargs=-1)
@click.option("--plain", is_flag=True, help="Plain sentences, one question at a time.")
@click.option("--jsonl", is_flag=True, help="JSON lines on stdin and stdout, for programs.")
@click.option("--meter", metavar="METER", help="basic, good, or P%+C[,tenths] as its maker states it.")
@click.option("--resume", metavar="ID", help="Go on with a walk that was left: its number, or last.")
def walk(
    symptom: tuple[str, ...], *, plain: bool, jsonl: bool, meter: str | None, resume: str | None
) -> Task:
    """Walk one tree: SYMPTOM is its name, or words for what is wrong."""
    from . import walking

    words = " ".join(symptom)
    if plain and jsonl:
        raise Usage("--plain and --jsonl are two ways to talk. Take one.")
    if meter and resume:
        raise Usage("A walk goes on with the meter it began with: leave --meter out.")
    if not words and not resume:
        start(words)  # which says what there is to name
    if jsonl:
        return partial(walking.by_lines, words, meter, resume)
    if plain or os.environ.get("TERM") == "dumb":
        return partial(walking.in_plain_text, words, meter, resume)
    return partial(open_app, words, meter, resume)


@shorewalk.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
def replay(files: tuple[Path, ...]) -> Task:
    """Feed recorded answers to a tree; exit 1 where the ending is not the recorded one."""
    from .replay import replay_files

    return partial(replay_files, files, click.echo, narrate)


@shorewalk.command()
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs."
)
def lint(paths: tuple[str, ...], form: str) -> Task:
    """Prove trees: what is wrong in PATHs (files or folders; the shipped trees if none), and where."""

    def task() -> int:
        from .lint import lint_paths

        if form == "json":
            from .lint.as_json import write_json as write
        else:
            from .lint.text import write_text as write
        report = lint_paths(paths)
        click.echo(write(report), nl=False)
        return report.exit

    return task


@shorewalk.command()
def schema() -> Task:
    """Print the JSON Schema of trees, for editors that complete and check."""

    def task() -> int:
        from .tree.schema import schema_text

        click.echo(schema_text(), nl=False)
        return Exit.CLEAN

    return task


def open_app(symptom: str = "", meter: str | None = None, resume: str | None = None) -> int:
    """Open the app; where there is no terminal, say what to do instead."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise Usage(NO_TERMINAL)
    walk = keeper = None
    if resume:
        walk, keeper = take_up(resume, symptom)
    elif symptom:
        walk = start(symptom, meter)
    from .app import run

    return run(walk, keeper, meter=meter)
