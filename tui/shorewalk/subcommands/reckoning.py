"""One sum, from numbers somebody has."""

from __future__ import annotations

from functools import partial

import click

from .completing import numbers, sums
from .layout import Command
from .task import Task, echo


@click.command(
    cls=Command,
    options_metavar="[--json] [--explain] [--plot]",
    short_help="Work out one thing from numbers you have.",
)
@click.argument("name", required=False, shell_complete=sums)
@click.argument("values", nargs=-1, metavar="[KEY=VALUE]...", shell_complete=numbers)
@click.option("--json", "as_json", is_flag=True, help="For programs.")
@click.option("--explain", is_flag=True, help="What it takes, its formulas and where they come from.")
@click.option("--plot", is_flag=True, help="Draw it as text, where a line says more than a number.")
def calc(name: str | None, values: tuple[str, ...], *, as_json: bool, explain: bool, plot: bool) -> Task:
    """Work out one thing from numbers you have, with the meter's error; all of them if no NAME."""

    def task() -> int:
        from shutil import get_terminal_size

        from ..calc.command import run_calc
        from ..walking import WIDEST

        room, write = min(get_terminal_size().columns, WIDEST), partial(echo, nl=False)
        return run_calc(name, values, write, room, as_json=as_json, explain=explain, plot=plot)

    return task
