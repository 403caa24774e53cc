"""What still bears on a walk at each node of a tree: the answers, numbers, counts, looks and grades asked for ahead."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from shorewalk.lint.reach import reach
from shorewalk.tree.facts import Look, Pair, Site
from shorewalk.tree.model import GRADES, Judge, Measure, Node, Row, Tally, Tree, Work, ways_out

from .claims import Claims, Test

AGING = ("full-look", "earth-look", "look-a")
"""Looks that time takes away, as long as the power is off."""

Ways = Mapping[str, Collection[str]]


class Ahead:
    """What matters at each node, by its name.

    `names`: nodes whose answer or number is still read; `bases`: the numbers those are made of; `counts`: nodes whose
    count can still rise; `worst`: grades that are still asked for.

    `aging`: judges that ask for a look which time takes away.

    `asked`: the answers that rows ask for by name; `states`: those that judges ask about; `fine`: where it still
    matters whether the meter shows tenths; `tests`: what judges ahead ask of numbers,
    `numbers`: and of which.
    """

    def __init__(self, tree: Tree, site: Site, claims: Claims) -> None:
        self.tree, self.site = tree, site
        before = ways_to(tree)
        readers: dict[str, set[str]] = {}
        for name, node in tree.nodes.items():
            for read in _reads(node):
                readers.setdefault(read, set()).add(name)
        rows = list(_rows(tree))
        self.asked = {(c.node, c.choice) for _, row in rows for c in row.when if c.choice is not None}
        self.states = {name for _, row in rows for name, _ in row.while_}
        self.looks = {row.lacks for _, row in rows if row.lacks}
        if self.looks:
            self.states |= {"cord", "pedestal-breaker"}
        self.names = _of_each(tree, {name: until(before, where, name) for name, where in readers.items()})
        counted = [name for name, node in tree.nodes.items() if node.at_most is not None and node.spent]
        self.counts = _of_each(tree, {name: until(before, {name}) for name in counted})
        self.bases = {
            name: frozenset(base for one in names for base in claims.bases(one))
            for name, names in self.names.items()
        }
        graded = {
            row.worst: {j.name for j, other in rows if other.worst == row.worst}
            for _, row in rows
            if row.worst
        }
        self.worst = _of_each(tree, {grade: until(before, where) for grade, where in graded.items()})
        asking: dict[Test, set[str]] = {}
        for judge, row in rows:
            for asked in row.when:
                if asked.choice is None:
                    asking.setdefault(claims.test(asked.node, asked), set()).add(judge.name)
        tests: dict[str, set[Test]] = {name: set() for name in tree.nodes}
        for test, where in asking.items():
            for there in until(before, where):
                tests[there].add(test)
        self.tests = {name: frozenset(found) for name, found in tests.items()}
        self.numbers = {name: frozenset(test.node for test in found) for name, found in tests.items()}
        self.aging = {judge.name for judge, row in rows if row.lacks in AGING}
        self._lacking = until(before, {judge.name for judge, row in rows if row.lacks})
        looks = [
            (look, at)
            for at, place in site.places.items()
            for name, look in place.looks.items()
            if name in self.looks
        ]
        measures = {name: node for name, node in tree.nodes.items() if isinstance(node, Measure)}
        self._pairs = {
            name: {
                (at, look.id, pair) for look, at in looks for pair in look.pairs if reads(node, look, pair)
            }
            for name, node in measures.items()
        }
        self._looks = [frozenset((at, look.id, pair) for pair in look.pairs) for look, at in looks]
        parts = {name: until(before, {name}) for name in measures if self._pairs[name]}
        self._measures = _of_each(tree, parts)
        self._kept: dict[tuple[frozenset[str], str], frozenset[str]] = {}
        fine = {
            n
            for n, node in tree.nodes.items()
            if isinstance(node, Measure | Work) or getattr(node, "sign", "") == "tenths"
        }
        self.fine = until(before, fine)

    def worst_kept(self, worst: int, at: str) -> int:
        """Return the worst grade so far as far as a judge ahead can tell it from others."""
        if worst < 0 or not self.worst[at]:
            return -1
        return max((rank for grade in self.worst[at] if (rank := GRADES.index(grade)) <= worst), default=-1)

    def seen(self, node: Measure) -> bool:
        """Tell whether a reading there may be part of a look that some judge ahead asks for."""
        return bool(self._pairs[node.name])

    def kept(self, seen: set[str], at: str) -> frozenset[str]:
        """Return the readings that still matter for a look at a node: not of a look that cannot be had any more."""
        if not seen or at not in self._lacking:
            return frozenset()
        key = (frozenset(seen), at)
        if key not in self._kept:
            pairs = [
                {one: self._pairs[one] for one in seen},
                {one: self._pairs[one] for one in self._measures[at]},
            ]
            have, may = (set().union(*some.values()) for some in pairs)
            wanted = {pair for look in self._looks if look <= have | may for pair in look}
            self._kept[key] = frozenset(one for one in seen if self._pairs[one] & wanted)
        return self._kept[key]

    def held(self, name: str, outlet: str, seen: Iterable[str]) -> bool:
        """Tell whether a look of an outlet is held with these readings; what voids one is left out of account."""
        place = self.site.places.get(outlet)
        look = place.looks.get(name) if place else None
        taken = [node for one in seen if isinstance(node := self.tree.nodes[one], Measure)]
        return look is not None and all(any(reads(node, look, pair) for node in taken) for pair in look.pairs)


def _rows(tree: Tree) -> Iterator[tuple[Judge, Row]]:
    for node in tree.nodes.values():
        if isinstance(node, Judge):
            yield from ((node, row) for row in node.rows)


def _reads(node: Node) -> set[str]:
    match node:
        case Judge():
            return {*node.of, *(asked.node for row in node.rows for asked in row.when)}
        case Work():
            return {name for _, name in node.inputs}
        case Tally(at_voltage=str(volts)):
            return {volts}
    return set()


def ways_to(tree: Tree) -> Ways:
    """Return, for each node, those with a way to it."""
    before: dict[str, set[str]] = {name: set() for name in tree.nodes}
    for name, node in tree.nodes.items():
        for _, way in ways_out(node):
            before.setdefault(way.goto, set()).add(name)
    return before


def until(before: Ways, where: Collection[str], afresh: str | None = None) -> set[str]:
    """Return everything from which one of these can be reached, they too; not past where it is given afresh."""
    return reach(where, lambda here: () if here == afresh and here not in where else before.get(here, ()))


def _of_each(tree: Tree, found: Mapping[str, Collection[str]]) -> dict[str, frozenset[str]]:
    """Return for each node the names under which it was found."""
    each: dict[str, set[str]] = {name: set() for name in tree.nodes}
    for name, where in found.items():
        for there in where:
            each.setdefault(there, set()).add(name)
    return {name: frozenset(names) for name, names in each.items()}


def reads(node: Measure, look: Look, pair: Pair) -> bool:
    """Tell whether a reading counts for a pair of a look."""
    alike = node.what == "ac-volts" and node.meter == "normal" and node.load.amount == look.load
    return alike and pair.place == node.place and {pair.from_, pair.to} == {node.from_, node.to}
