"""What going through every walk shows: states that do not hold where they must, and safety rules that are broken.

All walks are gone through once for all that how things stand can tell; a clause with a latch or a look goes over the
same web again, and only where it may be broken at all. Each fault is kept once for each place as written, by its
shortest walk.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from shorewalk.tree.facts import Site
from shorewalk.tree.model import End, Jump, Node, Tree
from shorewalk.tree.safety import Event, SafetyRule
from shorewalk.tree.source import Place

from ..finding import Related
from ..view import View
from .explore import Explorer, in_words
from .happen import Happening
from .latches import Latches
from .moves import At, Move
from .relevant import relevant
from .suspect import suspects
from .watch import LATCH, Watch
from .web import Web
from .where import Key, Where

NEEDS, STARTS = "needs", "starts"

Step = tuple[int, int]
"""A state by number, and the bits of a clause there."""


@dataclass(frozen=True, slots=True)
class Walked:
    """A walk that led somewhere, and where it stands: its states and ways, and the bits of the clause at each."""

    steps: tuple[tuple[At, str], ...]
    at: At
    bits: tuple[int, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """The walk in words."""
        return in_words(list(self.steps), self.at)


@dataclass(frozen=True, slots=True)
class Broken:
    """Something that must hold and may not: what a node needs or a tree starts with, or a rule's clause at an event."""

    place: Place
    tree: Tree
    node: Node
    walked: Walked
    used: tuple[Related, ...]
    state: str = ""
    value: str = ""
    rule: SafetyRule | None = None
    watch: Watch | None = None
    event: Event | None = None

    @property
    def order(self) -> tuple[int, tuple[str, ...]]:
        """The shorter walk comes first."""
        return len(self.walked.steps), self.walked.words


@dataclass(frozen=True, slots=True)
class Shown:
    """All that was found, by what must hold; and what it was found in, to be told in words."""

    explorer: Explorer
    needs: tuple[Broken, ...]
    starts: tuple[Broken, ...]
    rules: dict[str, tuple[Broken, ...]]


def proof(view: View, site: Site) -> Shown:
    """Return all that going through every walk shows; it is done once for each view."""
    if "proof" not in view.shown:
        view.shown["proof"] = _Proof(view, site).shown()
    found: Shown = view.shown["proof"]
    return found


class _Proof:
    def __init__(self, view: View, site: Site) -> None:
        self.view, self.site = view, site
        self.explorer = Explorer(view, site, site.states)
        trees = view.led_to()
        where = Where(trees, Happening(site, self.explorer.standings))
        self.watches = [
            (rule, Watch(clause, where)) for rule in site.safety.values() for clause in rule.clauses
        ]
        self.explorer.relevant = relevant(trees, [watch for _, watch in self.watches], where)
        for _ in self.explorer.walk(*view.trees):
            pass
        self.web = Web(self.explorer, trees)
        latched = [watch for _, watch in self.watches if not (watch.by_state or watch.looks)]
        self.broken = Latches(latched, self.web).broken()

    def shown(self) -> Shown:
        rules: dict[str, list[Broken]] = {}
        for rule, watch in self.watches:
            found = self._by_state(rule, watch) if watch.by_state else self._by_walk(rule, watch)
            rules.setdefault(rule.id, []).extend(_joined(found))
        return Shown(
            self.explorer,
            _joined(self._unmet(NEEDS)),
            _joined(self._unmet(STARTS)),
            {name: tuple(found) for name, found in rules.items()},
        )

    def _standings(self, key: Key) -> Iterator[int]:
        """Yield the first state at a node for each way things may stand there."""
        seen = set()
        for number in self.web.at.get(key, ()):
            standing = self.web.states[number].standing
            if standing not in seen and self.explorer.stands(number):
                seen.add(standing)
                yield number

    def _unmet(self, why: str) -> Iterator[Broken]:
        for tree in self.web.trees.values():
            for name, node in tree.nodes.items():
                other = self.view.tree(node.tree) if isinstance(node, Jump) else None
                wants = node.needs if why == NEEDS else other.starts if other else ()
                for state, value in wants:
                    for number in self._standings((tree.name, name)):
                        at = self.web.states[number]
                        if not self.explorer.standings.must(at.standing, state, value):
                            yield self._broken(tree, node, self._first(number), why, state=state, value=value)
                            break

    def _by_state(self, rule: SafetyRule, watch: Watch) -> Iterator[Broken]:
        for key in sorted(watch.forbidding):
            tree = self.web.trees[key[0]]
            node = tree.nodes[key[1]]
            for number in self._standings(key):
                if event := watch.broken(0, node, self.web.states[number]):
                    walked = self._first(number)
                    yield self._broken(tree, node, walked, rule=rule, watch=watch, event=event)
                    break

    def _by_walk(self, rule: SafetyRule, watch: Watch) -> Iterator[Broken]:
        told = set[Key]()  # by a walk that no other can be shorter than
        if not watch.forbidding or not (watch.looks or any(watch is each for each in self.broken)):
            return
        for pair, through in suspects(watch, self.web):
            for one in self._of_pair(rule, watch.of(pair), through, told):
                key = (one.tree.name, one.node.name)
                if len(one.walked.steps) == len(self.explorer.path(self.web.states[self.web.at[key][0]])):
                    told.add(key)
                yield one

    def _of_pair(
        self, rule: SafetyRule, watch: Watch, through: set[int] | None, short: set[Key]
    ) -> Iterator[Broken]:
        told = set(short)
        left = watch.forbidding & self.web.at.keys() - told
        before: dict[Step, tuple[Step, Move] | None] = {}
        waiting = deque[Step]()
        for number in self.explorer.begins:
            if through is not None and number not in through:
                continue
            begin = (number, watch.begin(self.web.states[number].standing))
            before[begin] = None
            waiting.append(begin)
        while waiting and left:
            here = waiting.popleft()
            at = self.web.states[here[0]]
            tree = self.web.trees[at.tree]
            node = tree.nodes.get(at.node)
            if node is None or (at.tree, at.node) not in watch.ahead:
                continue
            key = (at.tree, at.node)
            asks = key in watch.forbidding and key not in told and self.explorer.stands(here[0])
            event = watch.broken(here[1], node, at) if asks else None
            if event:
                told.add(key)
                left.discard(key)
                whole = watch.of(None)
                walked = self._walked(here, before, whole)
                yield self._broken(tree, node, walked, rule=rule, watch=whole, event=event)
            for target, move in self.web.ways(here[0]):
                if through is not None and target not in through:
                    continue
                if watch.may_take(move, here[1], at):
                    bits = watch.turn(here[1], tree, node, move, before=at, after=self.web.states[target])
                    there = (target, bits)
                    if there not in before:
                        before[there] = (here, move)
                        waiting.append(there)

    def _first(self, number: int) -> Walked:
        at = self.web.states[number]
        return Walked(tuple(self.explorer.path(at)), at, ())

    def _walked(self, here: Step, before: dict[Step, tuple[Step, Move] | None], watch: Watch) -> Walked:
        """Return the walk that came here, with all that the clause asks for at each of its steps."""
        way = [here[0]]
        moves = list[Move]()
        while step := before[here]:
            here = step[0]
            way.append(here[0])
            moves.append(step[1])
        states = [self.web.states[number] for number in reversed(way)]
        bits = [watch.begin(states[0].standing)]
        for at, after, move in zip(states, states[1:], reversed(moves), strict=False):
            tree = self.web.trees[at.tree]
            bits.append(watch.turn(bits[-1], tree, tree.nodes[at.node], move, before=at, after=after))
        labels = [move.label for move in reversed(moves)]
        return Walked(tuple(zip(states, labels, strict=False)), states[-1], tuple(bits))

    def _broken(
        self,
        tree: Tree,
        node: Node,
        walked: Walked,
        why: str = "",
        *,
        state: str = "",
        value: str = "",
        rule: SafetyRule | None = None,
        watch: Watch | None = None,
        event: Event | None = None,
    ) -> Broken:
        place = written_at(self.view, tree, node, why, state)
        used = self.view.used_at(tree, node.name)
        return Broken(place, tree, node, walked, used, state, value, rule, watch, event)


def _joined(found: Iterable[Broken]) -> tuple[Broken, ...]:
    """Return one fault for each place and what must hold there: by the shortest walk, with every use."""
    joined: dict[tuple[Place, str], Broken] = {}
    for one in found:
        known = joined.get((one.place, one.state))
        if known is None:
            joined[one.place, one.state] = one
            continue
        used = tuple(sorted({*known.used, *one.used}, key=lambda related: (related.place, related.label)))
        joined[one.place, one.state] = replace(min(known, one, key=lambda each: each.order), used=used)
    return tuple(joined[key] for key in sorted(joined))


def since(view: View, explorer: Explorer, one: Broken) -> Related:
    """Return the step since which things are as they are: the latch is set, or the state is known so."""
    walked = one.walked
    steps = list(walked.steps)
    at = -1
    if one.watch and one.watch.clause.after:
        at = next(
            (at for at, (was, is_) in reversed([*enumerate(pairwise(walked.bits))]) if is_ & ~was & LATCH), -1
        )
        says = "has been so"
    else:
        state = one.state
        stands = [explorer.standings.possible(step.standing, state) for step, _ in steps]
        now = explorer.standings.possible(walked.at.standing, state)
        at = next((at for at in reversed(range(len(stands))) if stands[at] != now), -1)
        says = f"{state} has been so"
    if at >= 0:
        before, label = steps[at]
        if tree := view.tree(before.tree):
            node = tree.nodes[before.node]
            return Related(view.of(node), f"{says} since {node.name} ({label})")
    first = view.tree(steps[0][0].tree if steps else walked.at.tree) or one.tree
    return Related(view.place(first.file, ("starts",), key=True), f"{says} since the tree begins")


def written_at(view: View, tree: Tree, node: Node, why: str, state: str) -> Place:
    """Return where it was written: a need in its node, or where the part it begins was put in."""
    if why == STARTS:
        return view.of(node, "tree")
    if why != NEEDS:
        return view.of(node, "end") if isinstance(node, End) else view.of(node)
    prefix = node.name
    here: Node | None = node
    while here and not view.has(here, "needs", state) and "." in prefix:
        prefix = prefix.rpartition(".")[0]
        here = view.use(tree, prefix)
    return view.of(here, "needs", state, key=True) if here else view.of(node)
