"""What happens at a node and when it is left, in the words of `site/safety.yaml`; derived from facts.

What may be so counts as so: of a state that is not known any value, of a step that could not be done its doing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shorewalk.tree.facts import Site
from shorewalk.tree.model import GRADES, Ask, End, Judge, Measure, Node, Pairs, Step, Tree
from shorewalk.tree.safety import ANY, Event, Facts
from shorewalk.walk import state as states
from shorewalk.walk.evidence import quantity_of

from .moves import SPENT, Move
from .standings import Standings


class Happening:
    """Tells whether events happen. Standings are those of the exploration, by number."""

    def __init__(self, site: Site, standings: Standings) -> None:
        self.site, self.standings = site, standings

    def at(self, event: Event, node: Node, standing: int) -> bool:
        """Tell whether the event may happen while a walk stands at the node."""
        return self._happens(event, node, standing) and self.may_hold(event.while_, standing)

    def may_hold(self, facts: Facts, standing: int) -> bool:
        """Tell whether all these facts may hold."""
        return all(
            any(self.standings.may(standing, name, value) for value in values) for name, values in facts
        )

    def must_hold(self, name: str, values: tuple[str, ...], standing: int) -> bool:
        """Tell whether a state surely has one of these values."""
        wanted = {each for value in values for each in states.values_of(name, value, self.site.states)}
        if name == states.ENERGISED or name not in self.site.states:
            return any(self.standings.must(standing, name, value) for value in values)
        return set(self.standings.possible(standing, name)) <= wanted

    def past(self, event: Event, tree: Tree, node: Node, move: Move, standing: int, *, surely: bool) -> bool:
        """Tell whether the event has happened when a move was made; `surely`, or perhaps."""
        passed = move.label == SPENT  # come to too often, a node is passed by
        match event.kind:
            case "grade":
                found = self._graded(event, tree, node, move)
            case "sign":
                found = self._told(event, tree, node, move)
            case "measure":
                of = subjects(tree, node, move) if event.grade else [node]
                found = not passed and any(self._happens(event, each, standing) for each in of)
                found = found and (
                    self._graded(event, tree, node, move) if event.grade else takes_number(move) or not surely
                )
            case "set":
                done = move.label == "done" or not (surely or passed)
                found = done and self._happens(event, node, standing)
                found = found or any(self._sets(move.leaves, name, values) for name, values in event.sets)
            case _:
                found = not passed and self._happens(event, node, standing)
        return found and self.may_hold(event.while_, standing)

    def _happens(self, event: Event, node: Node, standing: int) -> bool:
        match event.kind, node:
            case "touch", _:
                touched = set(self._touched(node, standing))
                return bool(touched) and (ANY in event.words or bool(touched & set(event.words)))
            case "measure", Measure():
                return self._measures(event, node)
            case "set", Step():
                acts = acts_of(node)
                if event.words:
                    return any(name in event.words for name, _ in acts)
                return any(self._sets(acts, name, values) for name, values in event.sets)
            case "energise", Step():
                return self._energises(node, standing)
            case "ask", Ask():
                return node.sign in event.words
            case "end", End():
                fits = ANY in event.words or node.verdict in event.words
                return fits and event.call in (None, node.call)
        return False

    def _sets(self, acts: Pairs, name: str, values: tuple[str, ...]) -> bool:
        wanted = {each for value in values for each in states.values_of(name, value, self.site.states)}
        return any(
            states.values_of(name, value, self.site.states) & wanted for act, value in acts if act == name
        )

    def _touched(self, node: Node, standing: int) -> Iterator[str]:
        match node:
            case Ask():
                sign = self.site.signs.get(node.sign)
                if sign and sign.touches and sign.at:
                    yield sign.at
            case Measure():
                place = self.site.places.get(node.place)
                if place and place.touches:
                    yield place.touches
            case Step():
                for name, value in acts_of(node):
                    if fact := self.site.states.get(name):
                        near = (value, *self.standings.possible(standing, name))
                        yield from (fact.touches[each] for each in near if each in fact.touches)

    def _measures(self, event: Event, node: Measure) -> bool:
        place = self.site.places.get(node.place)
        kinds = {ANY, node.place, *((place.kind,) if place else ())}
        if not kinds & set(event.words):
            return False
        if event.between:
            ends = [
                place.terminals[end].role if place and end in place.terminals else ""
                for end in (node.from_, node.to)
            ]
            if sorted(ends) != sorted(event.between):
                return False
        return (
            event.what in (None, node.what)
            and event.meter in (None, node.meter)
            and (not event.load or node.load.amount in event.load)
        )

    def _energises(self, node: Step, standing: int) -> bool:
        acts = acts_of(node)
        if not any(
            (name, value) == ("pedestal-breaker", "on") or (name == "cord" and value != "unplugged")
            for name, value in acts
        ):
            return False
        after = self.standings.after(standing, acts)
        return self.standings.may(after, states.ENERGISED, "yes")

    def _graded(self, event: Event, tree: Tree, node: Node, move: Move) -> bool:
        grade = event.words[0] if event.kind == "grade" else event.grade or "ok"
        if move.grade < GRADES.index(grade):
            return False
        return event.side is None or any(
            self._side(each) == event.side for each in subjects(tree, node, move)
        )

    def _side(self, node: Node) -> str | None:
        if isinstance(node, Ask):
            sign = self.site.signs.get(node.sign)
            return sign.side if sign else None
        quantity = quantity_of(node, self.site) if isinstance(node, Measure) else None
        return quantity.side if quantity else None

    def _told(self, event: Event, tree: Tree, node: Node, move: Move) -> bool:
        if event.grade and not self._graded(event, tree, node, move):
            return False
        if not isinstance(node, Ask):
            return False
        wanted = next((values for name, values in event.sets if name == node.sign), ())
        return move.label.removeprefix("choose ") in wanted


def acts_of(node: Step) -> Pairs:
    """Return the states that doing a step changes."""
    return (*node.leaves, *node.done.leaves)


def subjects(tree: Tree, node: Node, move: Move) -> list[Node]:
    """Return the nodes that a grade given here counts for."""
    if not isinstance(node, Judge):
        return [node]
    if not move.label.startswith("row "):
        return []
    row = node.rows[int(move.label.removeprefix("row ")) - 1]
    names: Iterable[str] = (*node.of, *(condition.node for condition in row.when)) if node.of else ()
    return [tree.nodes[name] for name in dict.fromkeys(names) if name in tree.nodes]


def takes_number(move: Move) -> bool:
    """Tell whether a measurement was left with a reading that counts."""
    return move.label.startswith(("next", "band")) and not move.again
