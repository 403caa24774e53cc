"""Many damages to one tree proved in one exploration.

Each damage is a bit; the first stands for the undamaged tree. A way out of a damaged node goes along with the bits
of the damages that have it; a state has the bits of all damages in which a walk comes there, and so has each latch
of a safety rule that may be set there. A damage that was found goes no further.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import replace
from heapq import heappop, heappush
from typing import NamedTuple

import networkx as nx

from shorewalk.lint.view import View
from shorewalk.lint.walks.happen import Happening
from shorewalk.lint.walks.moves import At, Move, Moves
from shorewalk.lint.walks.relevant import relevant
from shorewalk.lint.walks.spread import Kinds
from shorewalk.lint.walks.standings import Standings
from shorewalk.lint.walks.watch import LATCH, Watch
from shorewalk.lint.walks.where import Where
from shorewalk.tree.facts import Site
from shorewalk.tree.graph import graph
from shorewalk.tree.model import Jump, Node, Tree

from .cone import asked_by, cut, cut_node, through
from .versions import Versions, looks_elsewhere

SOUND = 1
"""The bit of the undamaged tree."""


class Damaged(NamedTuple):
    """A tree as one damage leaves it: the nodes that are not as they were, where it begins and how."""

    nodes: Mapping[str, Node]
    begin: str
    starts: tuple[tuple[str, str], ...]


class Version(NamedTuple):
    """A node as some damages have it. `told` stands for it before looks: a reading of something else serves none."""

    bits: int
    node: Node
    moves: Moves
    told: Node


class Edge(NamedTuple):
    """A way that some damages go, the latches (in blocks) that it sets and closes, and where it leads."""

    bits: int
    node: Node  # as looks are told of it
    move: Move
    target: int
    opens: int
    closes: int


class Together:
    """The walks of a tree through some nodes, damaged in many ways. `found` holds rule and node by damage, from 1."""

    def __init__(
        self, view: View, site: Site, sound: Tree, damages: Sequence[Damaged], at: Iterable[str]
    ) -> None:
        self.site, self.standings = site, Standings(site, site.states)
        self.all = (1 << len(damages) + 1) - 1
        self.width = len(damages) + 1
        whole = Versions(sound.nodes, _by_name(damage.nodes for damage in damages))
        kept = through([_with(sound, whole)], at)
        asked = asked_by(node for name, node in whole.items() if name in kept)
        self.sound = cut(sound, kept, asked, jumps=True)
        self._kept = kept
        others: dict[str, list[tuple[int, Node]]] = {}
        for bit, damage in enumerate(damages, 1):
            for name, node in damage.nodes.items():
                if name in self.sound.nodes:
                    others.setdefault(name, []).append((1 << bit, cut_node(node, kept, jumps=True)))
        nodes = Versions(
            self.sound.nodes, {name: [node for _, node in found] for name, found in others.items()}
        )
        self.tree = _with(self.sound, nodes)
        led_to = [tree for tree in View(view.library, [sound.name]).led_to() if tree.name != sound.name]
        self.view, self.led_to = view, {tree.name: tree for tree in led_to}
        where = Where([self.tree, *led_to], Happening(site, self.standings))
        where.trees = [self.sound, *led_to]  # a reading is taken once, however many versions there are
        self.watches = [
            (rule.id, Watch(clause, where)) for rule in site.safety.values() for clause in rule.clauses
        ]
        kept_states = relevant([self.tree, *led_to], [watch for _, watch in self.watches], where)
        base = Moves(self.tree, site, self.standings, kept_states, Kinds(site.limits))
        self.versions = {
            name: [Version(self.all, node, base, node)] for name, node in self.sound.nodes.items()
        }
        for name, found in others.items():
            left = self.all & ~sum(bits for bits, _ in found)
            self.versions[name] = [
                Version(left, self.sound.nodes[name], base, self.sound.nodes[name]),
                *(
                    Version(bits, node, self._moves(base, name, node), self._told(name, node))
                    for bits, node in found
                ),
            ]
        self.base = base
        self._rank = _ranks(self.tree)
        self.found: dict[int, tuple[str, str]] = {}
        self.alive = self.all
        self._latches()
        self._forget()
        self._begin(damages)

    def _moves(self, base: Moves, name: str, node: Node) -> Moves:
        mine = copy(base)
        mine.tree = _with(self.sound, {**self.sound.nodes, name: node})
        mine._widened, mine._known, mine._missing, mine._doubtful = {}, {}, {}, {}
        mine._spent, mine._tables, mine._rows = {}, {}, {}
        return mine

    def _told(self, name: str, node: Node) -> Node:
        return replace(node, name=f"{name}#") if looks_elsewhere(self.sound.nodes[name], node) else node

    def _latches(self) -> None:
        """Number the clauses that have a latch, and say at which nodes each is asked for."""
        self.latched = [(rule, watch) for rule, watch in self.watches if watch.clause.after]
        self.looking = [(rule, watch) for rule, watch in self.watches if watch.looks]
        assert not any(watch.looks for _, watch in self.latched)
        self.at_latched: dict[str, list[tuple[int, str, Watch]]] = {}
        self.at_state: dict[str, list[tuple[str, Watch]]] = {}
        self.ahead: dict[str, int] = {}
        self.concerned: dict[str, list[tuple[int, Watch]]] = {}
        for number, (rule, watch) in enumerate(self.latched):
            concerned = None if watch.of_states else watch.concerned()
            for tree, name in watch.ahead:
                if tree == self.sound.name and (concerned is None or (tree, name) in concerned):
                    self.concerned.setdefault(name, []).append((number, watch))
            for tree, name in watch.forbidding:
                if tree == self.sound.name:
                    self.at_latched.setdefault(name, []).append((number, rule, watch))
            for tree, name in watch.ahead:
                if tree == self.sound.name:
                    self.ahead[name] = self.ahead.get(name, 0) | self.block(number, self.all)
        for rule, watch in self.watches:
            for tree, name in watch.forbidding if watch.by_state else ():
                if tree == self.sound.name:
                    self.at_state.setdefault(name, []).append((rule, watch))

    def block(self, number: int, bits: int) -> int:
        """Return bits in the place of a latch."""
        return bits << number * self.width

    def _forget(self) -> None:
        self.states: list[At] = []
        self.bits: list[int] = []
        self.latches: list[int] = []
        self.out: list[list[Edge]] = []
        self.stands: list[bool] = []
        self._gone: list[int] = []
        self._numbers: dict[At, int] = {}
        self._waiting: list[tuple[int, int]] = []
        self._is_waiting = set[int]()
        self._spread: dict[int, int] = {}
        self._turns: dict[tuple[int, str, int, int], tuple[int, int]] = {}
        self._may: dict[tuple[int, str], list[tuple[int, Watch]]] = {}

    def _begin(self, damages: Sequence[Damaged]) -> None:
        self.begins = set[int]()
        for bit, (begin, starts) in enumerate(
            [(self.sound.begin, self.sound.starts), *((each.begin, each.starts) for each in damages)]
        ):
            standing = self.standings.at_begin(starts)
            for coarse in (False, True):
                number = self._number(At(self.sound.name, begin, standing, coarse=coarse))
                self.begins.add(number)
                latches = sum(
                    self.block(place, 1 << bit)
                    for place, (_, watch) in enumerate(self.latched)
                    if watch.begin(standing)
                )
                self._come(number, 1 << bit, latches)

    def _number(self, at: At) -> int:
        number = self._numbers.get(at)
        if number is None:
            number = self._numbers[at] = len(self.states)
            self.states.append(at)
            self.bits.append(0)
            self.latches.append(0)
            self.out.append([])
            self.stands.append(True)
            self._gone.append(0)
        return number

    def _come(self, number: int, bits: int, latches: int) -> None:
        latches &= self.ahead.get(self.states[number].node, 0)
        if bits & ~self.bits[number] or latches & ~self.latches[number]:
            self.bits[number] |= bits
            self.latches[number] |= latches
            if number not in self._is_waiting:
                self._is_waiting.add(number)
                heappush(self._waiting, (self._rank.get(self.states[number].node, 0), number))

    def run(self, most: int) -> bool:
        """Go through every walk, what comes first in the tree first; not to the end past so many states."""
        while self._waiting and self.alive & ~SOUND:
            if len(self.states) > most:
                return False
            number = heappop(self._waiting)[1]
            self._is_waiting.discard(number)
            at = self.states[number]
            versions = self.versions.get(at.node)
            if versions and self.bits[number] & self.alive:
                arrived = self.base.arrive(at)
                self.stands[number] = arrived is not None
                if arrived:
                    self._check(number, at, versions)
                self._expand(number, at, arrived, versions)
                self._go(number)
        return True

    def _check(self, number: int, at: At, versions: list[Version]) -> None:
        for version in versions:
            here = self.bits[number] & version.bits & self.alive
            if not here:
                continue
            node = version.node
            wants = node.needs
            if isinstance(node, Jump) and node.tree in self.led_to:
                wants = (*wants, *self.led_to[node.tree].starts)
            for state, value in wants:
                if not self.standings.must(at.standing, state, value):
                    self.find(here, "needs-hold", at.node)
            for rule, watch in self.at_state.get(at.node, ()):
                if watch.broken(0, node, at):
                    self.find(here, rule, at.node)
            for place, rule, watch in self.at_latched.get(at.node, ()):
                set_ = self.latches[number] >> place * self.width & here
                if set_ and watch.broken(LATCH, node, at):
                    self.find(set_, rule, at.node)

    def find(self, bits: int, rule: str, node: str) -> None:
        bits &= self.alive
        self.alive &= ~bits
        for bit in _each(bits):
            self.found[bit] = (rule, node)

    def _expand(self, number: int, at: At, arrived: At | None, versions: list[Version]) -> None:
        """Find the ways of versions with which nobody came here yet."""
        for version in versions:
            if not self.bits[number] & version.bits & self.alive or version.bits & self._gone[number]:
                continue
            self._gone[number] |= version.bits
            node, moves = version.node, version.moves
            if isinstance(node, Jump):
                continue
            for move in moves.out(arrived) if arrived else (moves.spent(node),):
                after = moves.go(arrived or at, move)
                opens, closes = self._turn(node, move, at, after)
                self.out[number].append(
                    Edge(version.bits, version.told, move, self._number(after), opens, closes)
                )

    def _turn(self, node: Node, move: Move, at: At, after: At) -> tuple[int, int]:
        key = (id(node), move.label, at.standing, after.standing)
        if key in self._turns:
            return self._turns[key]
        if key[:2] not in self._may:
            self._may[key[:2]] = [
                (place, watch)
                for place, watch in self.concerned.get(at.node, ())
                if watch.of_states
                or (move.grade >= watch.least and any(watch.may_turn(self.tree, node, move)))
            ]
        opens = closes = 0
        for place, watch in self._may[key[:2]]:
            if watch.turn(0, self.tree, node, move, before=at, after=after) & LATCH:
                opens |= self.block(place, self.all)
            if not watch.turn(LATCH, self.tree, node, move, before=at, after=after) & LATCH:
                closes |= self.block(place, self.all)
        self._turns[key] = opens, closes
        return opens, closes

    def _go(self, number: int) -> None:
        bits, latches = self.bits[number] & self.alive, self.latches[number]
        for edge in self.out[number]:
            if here := bits & edge.bits:
                blocks = self.blocks(here)
                self._come(edge.target, here, (latches & ~edge.closes | edge.opens) & blocks)

    def blocks(self, bits: int) -> int:
        """Return bits in the place of every latch."""
        if bits not in self._spread:
            self._spread[bits] = sum(self.block(place, bits) for place in range(len(self.latched)))
        return self._spread[bits]

    def elsewhere(self) -> int:
        """Return the damages in which a walk jumps as no walk of the undamaged tree does."""
        found = 0
        jumps = [n for n, at in enumerate(self.states) if isinstance(self.sound.nodes.get(at.node), Jump)]
        for number in jumps:
            if not self.bits[number] & SOUND:
                found |= self.bits[number]
            else:
                for place in range(len(self.latched)):
                    set_ = self.latches[number] >> place * self.width & self.all
                    found |= 0 if set_ & SOUND else set_
        return found & self.alive & ~SOUND


def _each(bits: int) -> Iterator[int]:
    while bits:
        yield (bits & -bits).bit_length() - 1
        bits &= bits - 1


def _with(tree: Tree, nodes: Mapping[str, Node]) -> Tree:
    changed = copy(tree)
    changed.__dict__["nodes"] = nodes
    return changed


def _by_name(damages: Iterable[Mapping[str, Node]]) -> dict[str, list[Node]]:
    found: dict[str, list[Node]] = {}
    for nodes in damages:
        for name, node in nodes.items():
            found.setdefault(name, []).append(node)
    return found


def _ranks(tree: Tree) -> dict[str, int]:
    """Return an order in which what leads to a node comes before it, but for loops."""
    made = nx.DiGraph(graph(tree))
    return {name: -place for place, name in enumerate(nx.dfs_postorder_nodes(made, tree.begin))}
