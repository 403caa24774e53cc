"""Which states still matter at each node: those that something ahead asks for. The rest is forgotten there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from shorewalk.tree.model import Judge, Jump, Node, Step, Tree
from shorewalk.tree.safety import LOOK_FACTS, SLOTS, Event, Facts
from shorewalk.walk.looks import SKIN_VOIDED
from shorewalk.walk.state import ENERGISED

from .happen import acts_of
from .watch import Watch
from .where import Key, Where

OF = {ENERGISED: ("cord", "pedestal-breaker"), SLOTS: ("cord", "test-load")}
"""The states that a derived fact is made of."""


def relevant(trees: Sequence[Tree], watches: Iterable[Watch], where: Where) -> Mapping[Key, frozenset[str]]:
    """Return, for each node, the states that it or something after it asks for."""
    asking: dict[str, set[Key]] = {}

    def ask(names: Iterable[str], keys: Iterable[Key]) -> None:
        for name in names:
            for state in OF.get(name, (name,)):
                asking.setdefault(state, set()).update(keys)

    begins = {tree.name: tree for tree in trees}
    for tree in trees:
        for name, node in tree.nodes.items():
            ask(_asked(node, begins), [(tree.name, name)])
    for watch in watches:
        clause = watch.clause
        for key in watch.forbidding:
            ask(_at(watch, begins[key[0]].nodes[key[1]]), [key])
        ask(_of((*clause.after, *clause.until)), watch.ahead)
        if watch.looks:
            ask(("cord", "pedestal-breaker", *_voiding(watch)), watch.ahead)
    found: dict[Key, set[str]] = {}
    for state, keys in asking.items():
        for key in where.before(keys):
            found.setdefault(key, set()).add(state)
    same: dict[frozenset[str], frozenset[str]] = {}
    return {key: same.setdefault(frozenset(states), frozenset(states)) for key, states in found.items()}


def _asked(node: Node, trees: Mapping[str, Tree]) -> Iterator[str]:
    yield from (name for name, _ in node.needs)
    if isinstance(node, Jump) and node.tree in trees:
        yield from (name for name, _ in trees[node.tree].starts)
    for row in node.rows if isinstance(node, Judge) else ():
        yield from (name for name, _ in row.while_)
        if row.lacks:
            yield "cord"


def _at(watch: Watch, node: Node) -> Iterator[str]:
    """Yield the states that decide whether a clause is broken at a node."""
    clause = watch.clause
    for need in clause.need:
        yield from _names(need)
    yield from _of((*clause.before, *clause.never, *clause.but))
    if isinstance(node, Step):
        yield from (name for name, _ in acts_of(node))  # where a hand goes, it goes from how things stand


def _of(events: Iterable[Event]) -> Iterator[str]:
    for event in events:
        yield from _names(event.while_)
        if event.kind == "state":
            yield from _names(event.sets)
        if event.kind == "energise":
            yield ENERGISED


def _names(facts: Facts) -> Iterator[str]:
    return (name for name, _ in facts if name not in LOOK_FACTS)


def _voiding(watch: Watch) -> Iterator[str]:
    yield from (name for name, _ in SKIN_VOIDED if name in watch.site.states)
    for place in watch.site.places.values():
        for look in place.looks.values():
            yield from (name for name, _ in look.voided_by if name in watch.site.states)
