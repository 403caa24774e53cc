"""Variants between those of the table: where none of a hypothesis gives all readings, its nearest are moved about."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from .seen import Seen
from .table import Table
from .variants import SEED, Block, Hypothesis

FAR = 0.6
"""A miss that no small move mends, as a share of a variant's scale."""

PARENTS, CHILDREN = 3, 32
MOVES = (0.2, 0.08, 0.03)
"""How far a variant is moved in each round, in shares of each range."""


def found_nearer(table: Table, lost: Iterable[Hypothesis], seen: list[Seen]) -> Table | None:
    """Return variants of the lost hypotheses that give all readings, or nothing."""
    chance = np.random.default_rng(SEED)
    parents = table.nearest(lost, PARENTS)
    found: Table | None = None
    for move in MOVES:
        parents = [(miss, block) for miss, block in parents if 0 < miss < FAR]
        if not parents:
            break
        children = Table([_moved(block, move, chance) for _, block in parents], table.gain)
        for one in seen:
            children.take(one)
        done = children.hypotheses
        parents = children.nearest({block.wiring.hypothesis for _, block in parents} - done, PARENTS)
        if done:
            children.drop_lost()
            found = found or Table([], table.gain)
            found.add(children)
    return found


def _moved(block: Block, move: float, chance: np.random.Generator) -> Block:
    steps = chance.normal(0.0, move, (len(block.points), CHILDREN))
    steps[:, 0] = 0.0
    return Block(block.wiring, np.clip(block.points + steps, 0.0, 1.0))
