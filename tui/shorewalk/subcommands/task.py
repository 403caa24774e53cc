"""What a command line comes to, and how it prints."""

from __future__ import annotations

import sys
from collections.abc import Callable

import click

Task = Callable[[], int]
"""What a command line comes to. It runs when the parser, which has its own exit codes, has let go."""


def echo(message: str | bytes, *, nl: bool = True) -> None:
    """Print to `sys.stdout` as it stands, by which only what can be seen gets out; the library looks for others."""
    click.echo(message, file=sys.stdout, nl=nl)
