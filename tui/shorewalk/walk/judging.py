"""Judging by rows: the first that may be met, the grade it gives, and to what."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shorewalk.tree.model import AGAIN, Condition, Judge, Row, worse

from . import state as states
from .evidence import floor_of
from .interval import Amount
from .judge import close_to_edge, condition_met, limits_of, near_edge, rank, shown_met, worse_taken
from .ledger import Ledger


def pass_judge(ledger: Ledger, node: Judge) -> None:
    """Take the first row that may be met; without all that `of` names, go `missing`."""
    waits = [name for name in node.of if not _there(ledger, name)]
    if waits:
        ledger.go(node.missing)
        return
    fired = next((row for row in node.rows if _met(ledger, row)), None)
    if fired is None:
        ledger.go(node.missing)
        return
    grade = fired.way.grade
    notes = _edges(ledger, node.rows[: node.rows.index(fired) + 1])
    shown = next((row for row in node.rows if _met(ledger, row, as_shown=True)), fired)
    if rank(grade) > rank(shown.way.grade):
        notes = {name: worse_taken(amount) for name, amount in _doubtful(ledger, fired).items()} | notes
    ledger.note(*notes.values())
    if grade == AGAIN:
        ledger.void([ledger.key(name) for name in node.of])
    elif grade is not None:
        _grade(ledger, node, grade, fired)
        for name, note in notes.items():
            ledger.annotate(ledger.key(name), note)
    ledger.go(fired.way)


def _edges(ledger: Ledger, rows: Sequence[Row]) -> dict[str, str]:
    """Return the readings that lie near a supply limit of these rows, and what to say of them."""
    limits = ledger.site.limits
    notes: dict[str, str] = {}
    for condition in (condition for row in rows for condition in row.when):
        amount = ledger.amount(condition.node)
        if amount and any(near_edge(amount, limits.get(name)) for name in limits_of(condition)):
            notes[condition.node] = close_to_edge(amount)
    return notes


def _there(ledger: Ledger, name: str) -> bool:
    return ledger.amount(name) is not None or ledger.given.get(ledger.key(name)) not in (None, "unable")


def _grade(ledger: Ledger, node: Judge, grade: str, fired: Row) -> None:
    """Give the row's grade to all it counts for. Every reading seen here gets its least grade.

    A row without a grade only branches: what it saw may still be read afresh, and stays unjudged.
    """
    if not node.of:
        return
    counts = {*node.of, *(condition.node for condition in fired.when)}
    named = (condition.node for row in node.rows for condition in row.when)
    for name in dict.fromkeys((*node.of, *named)):
        key = ledger.key(name)
        taken = ledger.taken.get(key)
        if taken is None and key not in ledger.worked:
            continue
        floor = floor_of(taken.quantity, taken.amount, ledger.site) if taken else ledger.unjudged.get(key)
        ledger.unjudged.pop(key, None)
        mine = worse(grade, floor) if name in counts else floor
        ledger.raise_to(mine)
        ledger.grade(key, mine)


def _doubtful(ledger: Ledger, row: Row) -> dict[str, Amount]:
    """Return the readings that meet the row only because the meter could be off."""
    limits = ledger.site.limits
    return {
        condition.node: amount
        for condition in row.when
        if condition.choice is None
        and (amount := ledger.amount(condition.node)) is not None
        and not shown_met(condition, amount, limits)
    }


def _met(ledger: Ledger, row: Row, *, as_shown: bool = False) -> bool:
    """Tell whether every part of the row may be met; what is not known of a state may be so."""
    if row.worst is not None and rank(ledger.worst) < rank(row.worst):
        return False
    if row.lacks is not None and ledger.looks().get(row.lacks, False):
        return False
    standing, facts = ledger.standing, ledger.site.states
    if not all(states.may(standing, name, value, facts) for name, value in row.while_):
        return False
    return all(_condition(ledger, condition, as_shown=as_shown) for condition in row.when)


def _condition(ledger: Ledger, condition: Condition, *, as_shown: bool) -> bool:
    if condition.choice is not None:
        return ledger.given.get(ledger.key(condition.node)) == condition.choice
    amount = ledger.amount(condition.node)
    if amount is None:
        return False
    if math.isnan(amount.value):
        return True
    test = shown_met if as_shown else condition_met
    return test(condition, amount, ledger.site.limits)
