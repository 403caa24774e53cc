"""Going through nodes that ask nothing: arithmetic, judging, jumps, a question already answered."""

from __future__ import annotations

from shorewalk.tree.model import Ask, Judge, Jump, Way, Work

from . import state as states
from .judging import pass_judge
from .ledger import Ledger

ROUNDS = 20_000  # silent nodes passed at one go: more is a circle


def settle(ledger: Ledger) -> None:
    """Go on until a node asks something or the walk ends; leave a circle for a safe ending."""
    for _ in range(ROUNDS):
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
    facts = ledger.site.states
    if not all(states.must(ledger.standing, name, value, facts) for name, value in node.needs):
        ledger.give_up(f"The tree comes to '{node.name}' where that is not known to be safe.")
        return True
    match node:
        case Work():
            from .working import pass_work

            pass_work(ledger, node)
        case Judge():
            pass_judge(ledger, node)
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
