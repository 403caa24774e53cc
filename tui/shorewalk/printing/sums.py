"""Arithmetic to be done by hand: the sum with the steps its numbers were written at, or a table."""

from __future__ import annotations

from itertools import groupby

from shorewalk.electrics.formula import ARGUMENT, UNIT
from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.model import Work

from .desk import Desk

TABLE = "by the table"
VOLTS = [round(10.5 + step / 10, 1) for step in range(36)]


def sum_words(desk: Desk, where: str, node: Work) -> str:
    """Return the sum: `100 x ([12] - [14]) V / [12] V`."""
    formula = FUNCTIONS.get(node.using)
    if formula is None:
        return f'"{node.using}" is no sum that is known here'
    inputs = {arg: desk.refer(where, name) for arg, name in node.inputs}
    words = UNIT.sub(lambda found: f" {found[1]}", formula.template)
    return ARGUMENT.sub(lambda found: inputs.get(found[1], found[1]), words)


def table_words(node: Work) -> list[str]:
    """Return what helps with the sum: the table, or what the bars mean."""
    formula = FUNCTIONS.get(node.using)
    if formula is None:
        return []
    if TABLE in formula.template:
        rows = [(volts, round(formula.fn(volts))) for volts in VOLTS]
        runs = [(next(iter(run))[0], percent) for percent, run in groupby(rows, key=lambda row: row[1])]
        first, *rest = runs
        cells = [f"under {rest[0][0] if rest else VOLTS[-1]:g} V {first[1]} %"]
        cells += [f"from {volts:g} V {percent} %" for volts, percent in rest]
        return ["; ".join(cells) + "."]
    return ["Between two bars: leave a minus sign away."] if "|" in formula.template else []
