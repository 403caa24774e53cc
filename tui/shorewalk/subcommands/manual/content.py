"""What stands in the manual. Every sentence is written where it belongs, none here but for a few headings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import click

from ... import __version__
from ...commands import AUTHORS, AUTHORS_TYPED, COMMANDS, EVERYWHERE, TYPED
from ...emergency import CARD
from ...exits import MEANINGS
from ...surroundings import ENVIRONMENT, FILES
from ..layout import in_words

Rows = tuple[tuple[str, str], ...]


class Section(NamedTuple):
    """A heading (`deep`: one below another), paragraphs, and words with what they mean."""

    heading: str
    paragraphs: tuple[str, ...] = ()
    rows: Rows = ()
    deep: bool = False


class Manual(NamedTuple):
    """The whole; `summary` is what the program is in one line."""

    name: str
    version: str
    summary: str
    sections: tuple[Section, ...]


def manual_of(
    top: click.Context, groups: Sequence[tuple[str, Sequence[click.Command]]], typed: Rows
) -> Manual:
    """Return the manual of a program, its commands under the headings of `groups`; `typed`: what to type first."""
    name, help_ = str(top.info_name), top.command.help or ""
    sections = (
        Section("If somebody is hurt, or something burns", CARD),
        Section("What to type", rows=typed),
        *(section for heading, commands in groups for section in _group(top, heading, commands)),
        Section("Instead of a command", rows=_options(top)),
        Section("Keys", rows=(*TYPED, *_keys(EVERYWHERE))),
        Section("Keys of the preview", rows=(*AUTHORS_TYPED, *_keys(AUTHORS))),
        Section("Exit codes", rows=tuple((str(int(code)), says) for code, says in MEANINGS.items())),
        Section("Environment", rows=ENVIRONMENT),
        Section("Files", rows=FILES),
    )
    return Manual(name, __version__, " ".join(help_.split()), sections)


def _group(top: click.Context, heading: str, commands: Sequence[click.Command]) -> Iterator[Section]:
    yield Section(heading)
    for command in commands:
        ctx = command.context_class(command, info_name=command.name, parent=top)
        usage = " ".join((ctx.command_path, *command.collect_usage_pieces(ctx)))
        yield Section(usage, tuple(_paragraphs(command.help or "")), _options(ctx), deep=True)


def _paragraphs(text: str) -> list[str]:
    return [" ".join(block.split()) for block in re.split(r"\n\s*\n", text.strip())]


def _options(ctx: click.Context) -> Rows:
    """Return the options, without the one for help: it is everywhere."""
    options = (param for param in ctx.command.params if isinstance(param, click.Option))
    records = (record for option in options if (record := option.get_help_record(ctx)))
    return tuple((words, in_words(says)) for words, says in records)


def _keys(screens: Sequence[str]) -> Rows:
    return tuple(
        (", ".join(command.keys), command.help)
        for command in COMMANDS
        if not set(screens).isdisjoint(command.on)
    )
