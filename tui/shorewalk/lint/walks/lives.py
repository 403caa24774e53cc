"""What a walk has to remember at each node: answers some judge ahead still asks for, counts that can still rise.

It is kept in one number, a few bits for each node, so that walks which differ only in what no longer matters
become one by a single `and`. A reading that is compared with limits more than once is remembered as the set of
amounts (see `spread`) that it may be: one bit for each.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

import networkx as nx

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.facts import Site
from shorewalk.tree.graph import graph
from shorewalk.tree.model import GRADES, Condition, Judge, Jump, Measure, Node, Tally, Tree, Work, ways_out
from shorewalk.walk.interval import Amount

from ..names import answers_of
from ..reach import reach
from .spread import Kinds, Line

READ = "read"
"""What is remembered of a node that gave a number."""

MAYBE = "maybe"
"""What is remembered of arithmetic that this meter may have been too coarse for."""

OTHER = "other"
"""What is remembered of an answer that no row asks for: that there was one."""

NUMBER = (Measure, Work, Tally)


class Field(NamedTuple):
    """The bits of one node: a code (0 for nothing, else the place of the value in `values`, from 1), then the amounts.

    A number that is not followed has no amounts; its code says that there is one.
    """

    at: int
    mask: int
    values: tuple[str, ...]
    codes: int
    amounts: tuple[Amount, ...] = ()
    any: int = 0  # every amount
    fine: int = 0  # those that a meter which shows tenths can give

    @property
    def first(self) -> int:
        """The bit of the first amount."""
        return self.codes.bit_length()

    def code(self, value: str) -> int:
        """Return the bits of a value; one that nobody asks for by name counts as any other, or as nothing."""
        value = value if value in self.values else OTHER
        return (self.values.index(value) + 1) << self.at if value in self.values else 0

    def value(self, memory: int) -> str | None:
        """Return what is remembered, or `None`."""
        place = (memory & self.codes) >> self.at
        return self.values[place - 1] if place else None

    def may_be(self, memory: int) -> int:
        """Return the amounts that are possible, from bit 0."""
        return (memory & self.any) >> self.first if self.any else 0


class Alike:
    """Amounts of one field, in classes that nothing ahead tells apart."""

    def __init__(self, amounts: int, classes: list[int]) -> None:
        self.amounts = amounts
        self.told_apart = len(classes) > 1
        self._classes = classes
        self._widened: dict[int, int] = {0: 0}

    def widen(self, memory: int) -> int:
        """Return the memory with every amount that is alike to one that is possible."""
        mine = memory & self.amounts
        if mine not in self._widened:
            self._widened[mine] = sum(each for each in self._classes if each & mine)
        return memory | self._widened[mine]


class Lives:
    """The fields of a tree's memory: what was given, and how often a node was come to; and where each matters.

    `voided` says what a number takes with it when it is not known any more; `alike` which amounts nothing ahead tells
    apart; `worst` what is left of the worst grade (by rank); `coarse` where it still matters whether the meter shows
    tenths.
    """

    def __init__(self, tree: Tree, site: Site, kinds: Kinds) -> None:
        before = _Before(tree)
        readers: dict[str, set[str]] = {}
        for name, node in tree.nodes.items():
            for read in reads_of(node):
                readers.setdefault(read, set()).add(name)
        self._end = 0
        self.voided = voided(tree)
        answers, compared, killers = _asked(tree), _compared(tree), _killers(tree, self.voided)
        self.live: dict[str, int] = dict.fromkeys(tree.nodes, 0)
        self.alike: dict[str, list[Alike]] = {}
        self.given: dict[str, Field] = {}
        for name in [name for name in readers if name in tree.nodes]:
            node = tree.nodes[name]
            afresh, judges = killers.get(name, ()), compared.get(name, {})
            comparing = {each: before.until({each}, afresh, since=name) for each in judges}
            line: Line = ()
            if isinstance(node, Measure) and _again(tree, node, comparing):
                line = kinds.line(node, [asked for each in judges.values() for asked in each])
            field = self._field(_values(node, answers.get(name, set())), line)
            self.given[name] = field
            made: dict[tuple[str, ...], Alike] = {}
            for there in before.until(readers[name], afresh, since=name):
                self.live[there] |= field.mask
                if field.amounts:
                    ahead = tuple(each for each, where in comparing.items() if there in where)
                    if ahead not in made:
                        conditions = [asked for each in ahead for asked in judges[each]]
                        classes = kinds.classes(field.amounts, conditions)
                        made[ahead] = Alike(field.any, [bits << field.first for bits in classes])
                    self.alike.setdefault(there, []).append(made[ahead])
        self.count: dict[str, Field] = {}
        for name, node in tree.nodes.items():
            if node.at_most is not None and node.spent:
                self.count[name] = self._field(map(str, range(node.at_most)))
                for there in before.until({name}, since=name):
                    self.live[there] |= self.count[name].mask
        self.worst = _worst_asked(tree, before)
        self.coarse = before.until(
            {name for name, node in tree.nodes.items() if self._asks_tenths(node, site)}
        )

    def _field(self, values: Iterable[str], line: Line = ()) -> Field:
        names, amounts = tuple(values), tuple(amount for amount, _ in line)
        at, first = self._end, self._end + len(names).bit_length()
        self._end = first + len(amounts)
        codes, all_ = (1 << first) - (1 << at), (1 << self._end) - (1 << first)
        fine = sum(1 << first + place for place, (_, shown) in enumerate(line) if shown)
        return Field(at, codes | all_, names, codes, amounts, all_, fine)

    def _asks_tenths(self, node: Node, site: Site) -> bool:
        """Tell whether what comes after a node depends on how fine the meter is."""
        if isinstance(node, Work):
            formula, result = FUNCTIONS.get(node.using), site.results.get(node.out)
            return bool((formula and formula.small) or (result and result.small))
        return isinstance(node, Jump) or (node.name in self.given and bool(self.given[node.name].amounts))


def reads_of(node: Node) -> set[str]:
    """Return the nodes whose answer or number this one needs, to go on."""
    if isinstance(node, Judge):
        return {*node.of, *(asked.node for row in node.rows for asked in row.when)}
    return {name for _, name in node.inputs} if isinstance(node, Work) else set()


def _compared(tree: Tree) -> dict[str, dict[str, list[Condition]]]:
    """Return, for each number, the judges that compare it with limits, and how."""
    found: dict[str, dict[str, list[Condition]]] = {}
    for name, node in tree.nodes.items():
        for row in node.rows if isinstance(node, Judge) else ():
            for asked in row.when:
                if asked.choice is None:
                    found.setdefault(asked.node, {}).setdefault(name, []).append(asked)
    return found


def _killers(tree: Tree, voids: Mapping[str, frozenset[str]]) -> dict[str, set[str]]:
    """Return, for each node, those behind which what it gave counts no longer: it is given afresh or void there."""
    found: dict[str, set[str]] = {}
    for name, gone in voids.items():
        if not (tree.nodes[name].at_most and tree.nodes[name].spent):
            for each in gone:
                found.setdefault(each, set()).add(name)
    return found


def _again(tree: Tree, node: Measure, comparing: Mapping[str, set[str]]) -> bool:
    """Tell whether a number that was compared with limits may be so again before it is taken afresh."""
    first = {*comparing, *((node.name,) if node.bands else ())}
    return any(
        way.goto in where
        for name in first
        for _, way in ways_out(tree.nodes[name])
        for where in comparing.values()
    )


def _asked(tree: Tree) -> dict[str, set[str]]:
    """Return the answers that rows ask for by name."""
    asked: dict[str, set[str]] = {}
    for node in tree.nodes.values():
        for row in node.rows if isinstance(node, Judge) else ():
            for condition in row.when:
                if condition.choice is not None:
                    asked.setdefault(condition.node, set()).add(condition.choice)
    return asked


def _values(node: Node, asked: set[str]) -> tuple[str, ...]:
    answers = [answer for answer in answers_of(node) if answer in asked]
    if isinstance(node, NUMBER):
        return (READ, *((MAYBE,) if isinstance(node, Work) else ()), *answers)
    return (*answers, OTHER) if len(answers) < len(answers_of(node)) else tuple(answers)


class _Before:
    """What comes before what in a tree."""

    def __init__(self, tree: Tree) -> None:
        made = nx.DiGraph(graph(tree))
        self._ways: dict[str, list[str]] = {name: list(made.pred[name]) for name in made}
        circles = nx.condensation(made)
        self._place = {
            name: place
            for place, circle in enumerate(nx.topological_sort(circles))
            for name in circles.nodes[circle]["members"]
        }

    def until(
        self, where: Collection[str], afresh: Collection[str] = (), *, since: str | None = None
    ) -> set[str]:
        """Return everything from which one of these can be reached, themselves too.

        What a node gives is given `afresh` there: behind it the old does not matter. Nothing is known of it before
        a walk can have come to it: `since` it.
        """
        least = self._place[since] if since else -1
        found = {name for name in where if self._place.get(name, -1) >= least}
        waiting = list(found)
        while waiting:
            more = {
                name
                for name in self._ways.get(waiting.pop(), ())
                if name not in found and self._place[name] >= least
            }
            found |= more
            waiting += more.difference(afresh)
        return found.difference(set(afresh).difference(where))


def _worst_asked(tree: Tree, before: _Before) -> dict[str, tuple[int, ...]]:
    """Return, for each node and worst grade (by rank), the worst that a judge ahead asks for and that is met, or -1."""
    asking: dict[int, set[str]] = {}
    for name, node in tree.nodes.items():
        grades: Iterable[str] = GRADES if isinstance(node, Jump) else ()
        if isinstance(node, Judge):
            grades = [row.worst for row in node.rows if row.worst]
        for grade in grades:
            asking.setdefault(GRADES.index(grade), set()).add(name)
    asked: dict[str, list[int]] = {}
    for rank in sorted(asking):
        for name in before.until(asking[rank]):
            asked.setdefault(name, []).append(rank)
    return {
        name: tuple(
            max((each for each in ranks if each <= worst), default=-1) for worst in range(len(GRADES))
        )
        for name, ranks in asked.items()
    }


def voided(tree: Tree) -> Mapping[str, frozenset[str]]:
    """Return, for each node that gives a number, the nodes that know nothing any more without it."""
    users: dict[str, set[str]] = {}
    for name, node in tree.nodes.items():
        if isinstance(node, Work):
            for _, read in node.inputs:
                users.setdefault(read, set()).add(name)
    return {name: frozenset(reach([name], lambda here: users.get(here, ()))) for name in tree.nodes}
