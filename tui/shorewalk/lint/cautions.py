"""Which cautions were surely read before a node, on every path there, jumps from other trees included."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Ask, Judge, Jump, Measure, Node, Pairs, Row, Step, Tree, ways_out

from .must import Edge, Edges, on_every_path, path_without
from .view import View

Spot = tuple[str, str, bool]
"""A tree, a node, and whether the state `cautions` is known to be read there."""

STATE, READ = "cautions", "read"

PROBES = {"ac-volts": "probe", "hertz": "probe", "dc-volts": "probe-battery"}
"""What it is to measure each of these; ohms and amps are read where nothing is live."""


def events_of(node: Node, site: Site) -> list[str]:
    """Return what happens at a node that cautions may be wanted for, in the words of `facts.CAUTIONED`; its sign."""
    if isinstance(node, Measure):
        return [PROBES[node.what]] if node.what in PROBES else []
    if isinstance(node, Ask):
        sign = site.signs.get(node.sign)
        touched = ["touch-pedestal"] if sign and sign.touches and sign.at == "pedestal" else []
        return [*touched, f"sign {node.sign}"]
    done = node.leaves if isinstance(node, Step) else ()
    if not done:
        return []
    plugged = site.states["cord"].groups.get("plugged", ()) if "cord" in site.states else ()
    happens = {
        "touch-pedestal": any(
            site.states[name].touches.get(value) == "pedestal" for name, value in done if name in site.states
        ),
        "switch-breaker": any(name == "pedestal-breaker" for name, _ in done),
        "plug-in": any(name == "cord" and value in (*plugged, "plugged") for name, value in done),
        "power-the-rig": ("pedestal-breaker", "on") in done and ("cord", "unplugged") not in node.needs,
    }
    return [event for event, does in happens.items() if does]


@dataclass
class CautionsRead:
    """What was read where, as bits of the cautions; worked out once for all trees looked at."""

    view: View
    site: Site

    @cached_property
    def trees(self) -> Mapping[str, Tree]:
        """The trees looked at and those they lead to, by name."""
        return {tree.name: tree for tree in self.view.led_to()}

    @cached_property
    def bits(self) -> Mapping[str, int]:
        """A bit for each caution."""
        return {name: 1 << at for at, name in enumerate(self.site.cautions)}

    @cached_property
    def begins(self) -> Mapping[Hashable, int]:
        """Where walks begin: with nothing read, or with all, where a tree begins only after that."""
        return {
            (tree.name, tree.begin, read): -1 if read else 0
            for tree in self.trees.values()
            for read in [(STATE, READ) in tree.starts]
        }

    @cached_property
    def edges(self) -> Edges:
        return cache(lambda spot: tuple(self._out(spot)))

    @cached_property
    def held(self) -> Mapping[Hashable, int]:
        return on_every_path(self.edges, self.begins)

    @cached_property
    def wanted(self) -> Mapping[str, int]:
        """By what is done (`probe`), or asked for (`sign smell`): the cautions that are read by then."""
        found: dict[str, int] = {}
        for caution in self.site.cautions.values():
            for event in (*caution.when, *(f"sign {sign}" for sign in caution.asked)):
                found[event] = found.get(event, 0) | self.bits[caution.id]
        return found

    def missing(self, tree: Tree, node: Node) -> int:
        """Return the cautions wanted at a node that some path to it has not brought, and that it has not itself."""
        want = 0
        for event in events_of(node, self.site):
            want |= self.wanted.get(event, 0)
        if not want:
            return 0
        here = sum(self.bits.get(name, 0) for name in node.cautions)
        held = -1
        for read in (False, True):
            held &= self.held.get((tree.name, node.name, read), -1)
        return want & ~here & ~held

    def path(self, tree: Tree, node: Node, caution: str) -> tuple[str, ...]:
        """Return a shortest path to a node on which a caution was not read, in words; empty if there is none."""
        bit = self.bits[caution]
        for read in (False, True):
            spot: Spot = (tree.name, node.name, read)
            if spot in self.held and not self.held[spot] & bit:
                steps = path_without(self.edges, self.begins, spot, bit)
                begins = _of(steps[0][0]) if steps else (tree.name, node.name)
                words = (f"{_of(at)[1]} ({label})" for at, label in steps)
                return (f"{begins[0]} begins", *words, node.name)
        return ()

    def _out(self, spot: Hashable) -> Iterator[Edge]:
        assert isinstance(spot, tuple)  # noqa: S101 - a Spot
        tree, read = self.trees[spot[0]], spot[2]
        if spot[1] not in tree.nodes:
            return
        node = tree.nodes[spot[1]]
        shown = sum(self.bits.get(name, 0) for name in node.cautions)
        if isinstance(node, Jump):
            if other := self.trees.get(node.tree):
                yield Edge(f"on to {other.name}", (other.name, other.begin, read))
            return
        met = list(_rows(node.rows, read=read)) if isinstance(node, Judge) else []
        for label, way in ways_out(node):
            kind = label.partition(" ")[0]
            if kind == "row" and int(label.partition(" ")[2]) - 1 not in met:
                continue
            after = _after(read, node.leaves) if isinstance(node, Step) and kind == "done" else read
            after = _after(after, way.leaves) if way.leaves else after
            yield Edge(label, (tree.name, way.goto, after), put=0 if kind == "spent" else shown)


def _of(spot: Hashable) -> tuple[str, str]:
    assert isinstance(spot, tuple)  # noqa: S101 - a Spot
    return spot[0], spot[1]


def _after(read: bool, leaves: Pairs) -> bool:  # noqa: FBT001 - a state, not a switch
    return dict(leaves).get(STATE, READ if read else "") == READ


def _rows(rows: tuple[Row, ...], *, read: bool) -> Iterator[int]:
    """Yield the rows that may be met, as far as the state `cautions` tells."""
    for at, row in enumerate(rows):
        asked = dict(row.while_).get(STATE)
        if read and asked is not None and asked != READ:
            continue
        yield at
        alone = len(row.while_) == 1 and not (row.when or row.worst or row.lacks)
        if alone and asked is not None:
            return  # a state that is not known may be so: the row is met
