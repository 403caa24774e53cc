"""What an event and a fact of `site/safety.yaml` mean, read plainly from its comments, at a walk's own ledger."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shorewalk.tree.facts import Site
from shorewalk.tree.model import GRADES, Ask, End, Judge, Measure, Node, Pairs, Row, Step
from shorewalk.tree.safety import Event, Facts
from shorewalk.walk import state as states
from shorewalk.walk.evidence import quantity_of
from shorewalk.walk.looks import looks_of

from .plain import Seen, Went

OUTLETS = ("pedestal-30", "pedestal-20")


@dataclass(frozen=True)
class Meaning:
    """Reads events and facts with these facts of the site."""

    site: Site

    # Facts

    def may(self, ledger: Seen, facts: Facts) -> bool:
        """All of them may hold."""
        known = self.site.states
        return all(any(states.may(ledger.standing, name, one, known) for one in some) for name, some in facts)

    def must(self, ledger: Seen, facts: Facts) -> bool:
        """All of them surely hold."""
        return all(self._must(ledger, name, some) for name, some in facts)

    def _must(self, ledger: Seen, name: str, some: tuple[str, ...]) -> bool:
        if name == "slots":
            at = ledger.node.place if isinstance(ledger.node, Measure) else ""
            return not any(
                states.may(ledger.standing, one, at, self.site.states) for one in ("cord", "test-load")
            )
        if name in ("look", "judged"):
            outlets = self._outlets(ledger)
            taken = {
                key: one for key, one in ledger.taken.items() if name == "look" or key in ledger.judged
            }.values()
            return bool(outlets) and all(
                looks_of(outlet, taken, ledger.silent, ledger.happened, self.site)[look]
                for outlet in outlets
                for look in some
            )
        return any(states.must(ledger.standing, name, one, self.site.states) for one in some)

    def _outlets(self, ledger: Seen) -> set[str]:
        """The outlet plugged into here; else those the cord may be in; else the one in use."""
        into = {value for name, value in acts_of(ledger.node) if name == "cord"}
        may = {one for one in OUTLETS if states.may(ledger.standing, "cord", one, self.site.states)}
        here = ledger.outlet
        return (into or may) & set(OUTLETS) or ({here} if here in OUTLETS and here else set())

    # Events where a walk stands

    def at(self, event: Event, ledger: Seen) -> bool:
        """The event may happen where the walk stands."""
        return self._happens(event, ledger) and self.may(ledger, event.while_)

    def _happens(self, event: Event, ledger: Seen) -> bool:
        node = ledger.node
        match event.kind:
            case "touch":
                return bool(set(event.words) & set(self._touched(ledger)))
            case "measure":
                return isinstance(node, Measure) and self._measures(event, node)
            case "set":
                return any(self._is(event, act) for act in acts_of(node))
            case "energise":
                return self._energises(ledger)
            case "ask":
                return isinstance(node, Ask) and node.sign in event.words
            case "end":
                return isinstance(node, End) and bool({"any", node.verdict} & set(event.words))
        raise AssertionError(event)

    def _is(self, event: Event, act: tuple[str, str]) -> bool:
        name, value = act
        return name in event.words or any(
            name == each and value in states.values_of(name, one, self.site.states)
            for each, some in event.sets
            for one in some
        )

    def _touched(self, ledger: Seen) -> Iterator[str | None]:
        node = ledger.node
        if isinstance(node, Ask) and self.site.signs[node.sign].by == "hand":
            yield self.site.signs[node.sign].at
        if isinstance(node, Measure):
            yield self.site.places[node.place].touches
        for name, value in acts_of(node):
            touches = self.site.states[name].touches
            for one in self.site.states[name].values:
                if one == value or states.may(ledger.standing, name, one, self.site.states):
                    yield touches.get(one)

    def _measures(self, event: Event, node: Measure) -> bool:
        place = self.site.places[node.place]
        roles = {place.terminals[node.from_].role, place.terminals[node.to].role}
        return (
            bool({"any", node.place, place.kind} & set(event.words))
            and event.load in ((), (node.load.amount,))
            and (not event.between or set(event.between) == roles)
        )

    def _energises(self, ledger: Seen) -> bool:
        """Power comes with the breaker on or the plug in, where the other may be so already."""
        acts = acts_of(ledger.node)
        after = states.reach(ledger.standing, acts, self.site.states)
        brings = {("pedestal-breaker", "on"), *(("cord", outlet) for outlet in OUTLETS)}
        return bool(brings & set(acts)) and states.may(after, "energised", "yes", self.site.states)

    # Events that a walk has behind it

    def past(self, event: Event, went: Went, *, surely: bool) -> bool:
        """The event happened on this way: `surely`, or perhaps."""
        return self._happened(event, went, surely=surely) and self.may(went.before, event.while_)

    def _happened(self, event: Event, went: Went, *, surely: bool) -> bool:
        node = went.before.node
        if event.kind == "set" and any(self._is(event, act) for act in went.way.leaves if went.way):
            return True
        if event.kind == "grade":
            return self._graded(event, went, event.words[0])
        if event.kind == "measure" and event.grade:
            of = [
                each for each in counts_for(went) if isinstance(each, Measure) and self._measures(event, each)
            ]
            return bool(of) and self._graded(event, went, event.grade)
        if went.label == "spent":
            return False
        if event.kind == "sign":
            told = isinstance(node, Ask) and went.label in dict(event.sets).get(node.sign, ())
            return told and (event.grade is None or self._graded(event, went, event.grade))
        if event.kind == "set":
            return (went.label == "done" or not surely) and self._happens(event, went.before)
        if event.kind == "measure" and surely and (went.label != "read" or went.again):
            return False
        return self._happens(event, went.before)

    def _graded(self, event: Event, went: Went, least: str) -> bool:
        if went.grade is None or GRADES.index(went.grade) < GRADES.index(least):
            return False
        return event.side is None or any(self._side(node) == event.side for node in counts_for(went))

    def _side(self, node: Node) -> str | None:
        if isinstance(node, Ask):
            return self.site.signs[node.sign].side
        quantity = quantity_of(node, self.site) if isinstance(node, Measure) else None
        return quantity.side if quantity else None


def acts_of(node: Node) -> Pairs:
    """What doing a step changes."""
    return (*node.leaves, *node.done.leaves) if isinstance(node, Step) else ()


def counts_for(went: Went) -> list[Node]:
    """The nodes that a grade counts for: the one asked; of a judge those it is `of`, and those its row names."""
    node = went.before.node
    if not isinstance(node, Judge):
        return [node]
    row = row_of(went)
    names = {*node.of, *(one.node for one in row.when)} if row and node.of else set()
    return [went.before.tree.nodes[name] for name in names]


def row_of(went: Went) -> Row | None:
    """The row that a judge took."""
    node = went.before.node
    rows = node.rows if isinstance(node, Judge) and went.label != "spent" else ()
    return next((row for row in rows if row.way is went.way), None)
