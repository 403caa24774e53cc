"""The table of a judge once more, for meters that may be off: a `surely` limit is passed later, a hazard sooner.

It is larger than the plain table, so it is made only where that one says that a row is never met.
"""

from __future__ import annotations

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Condition, Judge, Tree
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import condition_met, limits_of

from .names import answers_of
from .rows import NOT_TAKEN, Table, table_of
from .sweep import readings


def wide_table(judge: Judge, tree: Tree, site: Site) -> Table:
    """Return the table of a judge, each reading as it is and as meters of several widths may know it."""
    plain = table_of(judge, tree, site)
    rows = [dict(row) for row in plain.rows]
    domain, values = dict(plain.domain), dict(plain.values)
    for name in {c.node for row in judge.rows for c in row.when if c.choice is None}:
        asked = [(at, c) for at, row in enumerate(judge.rows) for c in row.when if c.node == name]
        limits = {limit for _, c in asked if c.choice is None for limit in limits_of(c)}
        amounts = [amount for _, amount in readings(limits, site.limits)]
        answers = answers_of(tree.nodes[name]) if name in tree.nodes else ()
        values["node", name] = ["not taken", *map(str, amounts), *answers]
        taken = name in judge.of
        domain["node", name] = (1 << len(values["node", name])) - 1
        if taken:
            domain["node", name] &= ~NOT_TAKEN
            if "unable" in answers:
                domain["node", name] &= ~(1 << values["node", name].index("unable"))
        masks: dict[Condition, int] = {}
        for at, condition in asked:
            if condition not in masks:
                masks[condition] = _mask(condition, amounts, values["node", name], site)
            rows[at]["node", name] = masks[condition]
    return Table(rows, domain, values)


def _mask(condition: Condition, amounts: list[Amount], values: list[str], site: Site) -> int:
    if condition.choice is not None:
        return 1 << values.index(condition.choice) if condition.choice in values else 0
    met = (condition_met(condition, amount, site.limits) for amount in amounts)
    return sum(1 << at for at, is_met in enumerate(met, 1) if is_met)
