"""Going through nodes that ask nothing: arithmetic, judging, jumps, a question already answered."""

from __future__ import annotations

import math

from shorewalk.tree.model import AGAIN, Ask, Condition, Judge, Jump, Row, Way, Work, worse

from . import state as states
from .evidence import floor_of
from .interval import Amount, finite, of_function
from .judge import (
    close_to_edge,
    condemns,
    condition_met,
    judge_bands,
    judge_node,
    limits_of,
    near_edge,
    rank,
    shown_met,
    worse_taken,
)
from .known import Worked
from .ledger import Key, Ledger
from .wording import shows_amount

COARSE = "Your meter shows whole volts only; it cannot tell so small a difference."
ROUNDS = 200  # silent nodes passed at one go, over the number of nodes: more is a circle


def settle(ledger: Ledger) -> None:
    """Go on until a node asks something or the walk ends; leave a circle for a safe ending."""
    for _ in range(ROUNDS + 2 * len(ledger.tree.nodes)):
        if ledger.ended or not _pass(ledger):
            return
    ledger.give_up(f"The tree goes round in a circle at '{ledger.node.name}'.")


def _pass(ledger: Ledger) -> bool:
    """Arrive at a node; return whether it was passed (else it stands and asks)."""
    node = ledger.node
    key = ledger.key()
    ledger.arrivals[key] = ledger.arrivals.get(key, 0) + 1
    if node.at_most is not None and ledger.arrivals[key] > node.at_most:
        ledger.go(node.spent)
        return True
    match node:
        case Work():
            _work(ledger, node)
        case Judge():
            _judge(ledger, node)
        case Jump():
            _jump(ledger, node)
        case Ask(sign="tenths") if ledger.meter.tenths is not None:
            name = "yes" if ledger.meter.tenths else "no"
            way = next((choice.way for choice in node.choices if choice.id == name), None)
            if way is None:
                return False
            ledger.given[key] = name
            ledger.go(way)
        case _:
            return False
    return True


def _work(ledger: Ledger, node: Work) -> None:
    from shorewalk.electrics.using import FUNCTIONS

    key = ledger.key()
    ledger.results.pop(key, None)
    ledger.worked.pop(key, None)
    ledger.fresh.pop(key, None)
    formula = FUNCTIONS.get(node.using)
    inputs = {arg: ledger.amount(name) for arg, name in node.inputs}
    if formula is None or set(inputs) != set(formula.args) or None in inputs.values():
        ledger.go(node.missing)
        return
    amount = of_function(
        lambda known: formula.fn(**known),
        {arg: value for arg, value in inputs.items() if value is not None},
        formula.unit,
    )
    fact = ledger.site.results.get(node.out)
    floor = judge_bands(fact.floor, amount, ledger.site.limits).grade if fact and fact.floor else None
    small = formula.small or (fact is not None and fact.small)
    cuts = fact.floor if fact and fact.floor else node.bands
    if small and not ledger.meter.tenths and not condemns(cuts, amount, ledger.site.limits):
        ledger.note(COARSE)
        ledger.go(node.missing)
        return
    ledger.results[key] = amount
    judged = judge_node(node, amount, ledger.site.limits)
    grade = judged.grade
    if node.bands or grade:
        grade = grade if grade == AGAIN else worse(grade, floor)
    else:
        ledger.unjudged[key] = floor
    if grade == AGAIN:
        void(ledger, [key])
    else:
        ledger.raise_to(grade)
    ledger.note(*judged.notes)
    low, high = map(finite, amount.span)
    ledger.worked[key] = Worked(
        tree=key[0],
        at=key[1],
        out=node.out,
        says=fact.says if fact else node.out.replace("-", " "),
        value=finite(amount.value),
        unit=amount.unit,
        formula=formula.says,
        shows=shows_amount(amount.value, amount.unit, node.out),
        low=low,
        high=high,
        grade=None if grade == AGAIN else grade,
        note=" ".join(judged.notes) or None,
    )
    ledger.fresh[key] = None
    ledger.go(judged.way)


def void(ledger: Ledger, keys: list[Key]) -> None:
    """Let these count for nothing, and what was worked out from them."""
    for key in keys:
        ledger.set_aside(key)
    gone = {"/".join(key) for key in keys}
    for key, amount in list(ledger.results.items()):
        if gone & amount.bases.keys():
            del ledger.results[key]
            ledger.unjudged.pop(key, None)


def _judge(ledger: Ledger, node: Judge) -> None:
    waits = [name for name in node.of if not _there(ledger, name)]
    if waits:
        ledger.go(node.missing)
        return
    limits = ledger.site.limits
    shown: str | None = None
    found_shown = False
    edges: list[str] = []
    fired: Row | None = None
    for row in node.rows:
        for condition in row.when:
            amount = ledger.amount(condition.node)
            if amount and any(near_edge(amount, limits.get(name)) for name in limits_of(condition)):
                edges.append(close_to_edge(amount))
        if fired is None and _met(ledger, row):
            fired = row
        if not found_shown and _met(ledger, row, as_shown=True):
            found_shown, shown = True, row.way.grade
        if fired is not None and found_shown:
            break
    if fired is None:
        ledger.go(node.missing)
        return
    grade = fired.way.grade
    notes = list(dict.fromkeys(edges))
    if rank(grade) > rank(shown if found_shown else None):
        notes = [worse_taken(amount) for amount in _doubtful(ledger, fired)] + notes
    ledger.note(*notes)
    if grade == AGAIN:
        void(ledger, [ledger.key(name) for name in node.of])
    elif grade is not None:
        _grade(ledger, node, grade, fired)
    ledger.go(fired.way)


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


def _doubtful(ledger: Ledger, row: Row) -> list[Amount]:
    """Return the readings that meet the row only because the meter could be off."""
    limits = ledger.site.limits
    found: list[Amount] = []
    for condition in row.when:
        amount = ledger.amount(condition.node)
        if amount and condition.choice is None and not shown_met(condition, amount, limits):
            found.append(amount)
    return found


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


def _jump(ledger: Ledger, node: Jump) -> None:
    if node.tree in ledger.entered:
        ledger.give_up(f"The tree '{node.tree}' was walked already.")
        return
    try:
        tree = ledger.trees.tree(node.tree)
    except Exception:  # noqa: BLE001 (whatever is wrong with that tree, this walk ends safely)
        ledger.give_up(f"The tree '{node.tree}' cannot be read.")
        return
    facts = ledger.site.states
    if not all(states.may(ledger.standing, name, value, facts) for name, value in tree.starts):
        ledger.give_up(f"The tree '{node.tree}' does not begin where things stand now.")
        return
    ledger.tree = tree
    ledger.entered |= {tree.name}
    ledger.go(Way(tree.begin))
