"""A shared account: what its forced command is."""

from __future__ import annotations

from functools import partial

import click

from .layout import Command
from .task import Task


@click.command(cls=Command, short_help="The forced command of a shared account, over ssh.")
@click.argument("person")
@click.option("--plain", is_flag=True, help="Always in plain sentences.")
@click.option(
    "--home", metavar="FOLDER", help="Where the walks of all are kept, if not where this account's are."
)
def guarded(person: str, *, plain: bool, home: str | None) -> Task:
    """Let PERSON walk and practise over ssh, and do nothing else: for the forced command of a shared account.

    It is begun as python -I -m shorewalk guarded PERSON, a name in small letters, as ann or j.smith. Their walks are
    kept apart from everybody else's, in FOLDER/people/PERSON. What this guards against stands in the README, under
    "Over ssh".
    """
    from ..guard.command import run_guarded

    options = (*(["--plain"] if plain else ()), *(["--home", home] if home is not None else ()))
    return partial(run_guarded, (person, *options))
