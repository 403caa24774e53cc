"""What a walk has gathered so far, from which its position is drawn.

A ledger is copied for every answer, then written on by `taking` and `passing`; nobody outside
this package sees one change.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Protocol

from shorewalk.tree.facts import Site
from shorewalk.tree.model import End, Measure, Node, Pairs, Tree, Way, worse

from . import state as states
from .age import Clock
from .fallback import lost
from .interval import Amount
from .known import Known, Worked
from .looks import Happened, Silent, Taken, looks_of
from .meter import Meter
from .outlook import Outlook

Key = tuple[str, str]
"""A tree and a node of it."""


VOID = "Counts for nothing."


class Trees(Protocol):
    """Where trees and the facts they share come from; a `tree.library.Library` is one."""

    @property
    def site(self) -> Site:
        """The facts all trees share."""

    def tree(self, name: str, /) -> Tree:
        """Return a tree; raise `KeyError` or `TreeError` if there is none."""


@dataclass(slots=True)
class Ledger:
    """See the module. `moment` counts answers; places in the walk are compared by it."""

    trees: Trees
    site: Site
    meter: Meter
    tree: Tree
    node: Node
    standing: states.Standing
    moment: int = 0
    clock: Clock = field(default_factory=Clock)
    clock_at_power: Clock | None = None  # as it stood when the power came on, while it surely is
    worst: str | None = None
    entered: frozenset[str] = frozenset()
    arrivals: dict[Key, int] = field(default_factory=dict)
    given: dict[Key, str] = field(default_factory=dict)
    taken: dict[Key, Taken] = field(default_factory=dict)
    results: dict[Key, Amount] = field(default_factory=dict)
    unjudged: dict[Key, str | None] = field(
        default_factory=dict
    )  # readings no judge has seen: their least grade
    known: dict[Key, Known] = field(default_factory=dict)
    worked: dict[Key, Worked] = field(default_factory=dict)
    fresh: dict[Key, None] = field(default_factory=dict)  # worked out since the last answer
    notes: list[str] = field(default_factory=list)
    acknowledged: frozenset[str] = frozenset()
    reached: dict[tuple[str, str], int] = field(default_factory=dict)
    changed: dict[str, int] = field(default_factory=dict)
    silent: Silent | None = None
    probing: tuple[str, ...] = ()  # cautions last listed for measuring, to be reminded of
    outlooks: dict[str, Outlook] = field(default_factory=dict)  # shared by all copies; one a tree
    outlet_answer: str | None = None
    outlet_looked_at: str | None = None

    def copy(self) -> Ledger:
        """Return a ledger to write on; this one stays as it is."""
        return replace(
            self,
            arrivals=dict(self.arrivals),
            given=dict(self.given),
            taken=dict(self.taken),
            results=dict(self.results),
            unjudged=dict(self.unjudged),
            known=dict(self.known),
            worked=dict(self.worked),
            fresh={},
            notes=[],
            reached=dict(self.reached),
            changed=dict(self.changed),
        )

    def key(self, name: str | None = None) -> Key:
        """Return the key of a node of this tree, else of the present one."""
        return (self.tree.name, self.node.name if name is None else name)

    def amount(self, name: str) -> Amount | None:
        """Return the reading or result of a node, if there is one in force."""
        key = self.key(name)
        taken = self.taken.get(key)
        return taken.amount if taken else self.results.get(key)

    def note(self, *notes: str) -> None:
        """Keep what the screen should say of the last judgement, once."""
        self.notes += [note for note in notes if note not in self.notes]

    def raise_to(self, grade: str | None) -> None:
        """Let the worst grade so far be at least this."""
        self.worst = worse(self.worst, grade)

    def grade(self, key: Key, grade: str | None) -> None:
        """Grade what is shown of a reading or result; a grade only gets worse."""
        if key in self.known:
            known = self.known[key]
            self.known[key] = replace(known, grade=worse(known.grade, grade))
        elif key in self.worked:
            worked = self.worked[key]
            self.worked[key] = replace(worked, grade=worse(worked.grade, grade))

    def annotate(self, key: Key, note: str) -> None:
        """Add to what is shown of a reading or result what its judgement said."""
        if key in self.known and self.known[key].note is None:
            self.known[key] = replace(self.known[key], note=note)
        elif key in self.worked and self.worked[key].note is None:
            self.worked[key] = replace(self.worked[key], note=note)

    def void(self, keys: Iterable[Key]) -> None:
        """Let readings, results and answers count for nothing, and what was worked out from them."""
        gone = set()
        for key in keys:
            gone.add("/".join(key))
            for kept in (self.taken, self.results, self.unjudged, self.given):
                kept.pop(key, None)
            if key in self.known:
                self.known[key] = replace(self.known[key], grade=None, note=VOID, void=True)
        for key in [key for key, amount in self.results.items() if gone & amount.bases.keys()]:
            del self.results[key]
            self.unjudged.pop(key, None)

    def acknowledge(self) -> None:
        """The cautions of this node were on the screen when it was answered."""
        listed = self.node.cautions
        if listed:
            self.acknowledged |= frozenset(listed)
            if isinstance(self.node, Measure):
                self.probing = listed

    def reach(self, leaves: Pairs) -> None:
        """Let these states come to hold."""
        self._stand(states.reach(self.standing, leaves, self.site.states))

    def perhaps(self, leaves: Pairs) -> None:
        """These states came to hold, or not."""
        self._stand(states.maybe(self.standing, leaves, self.site.states))

    def _stand(self, after: states.Standing) -> None:
        if not states.must(after, states.ENERGISED, "yes", self.site.states):
            self.clock_at_power = None
        elif self.clock_at_power is None:
            self.clock_at_power = self.clock
        for name in self.standing.keys() | after.keys():
            before, now = self.standing.get(name), after.get(name)
            if before != now:
                self.changed[name] = self.moment
            if now is not None:
                for value in now - (before or frozenset()) if before else now:
                    self.reached[(name, value)] = self.moment
            elif before is not None and name in self.site.states:
                for value in self.site.states[name].values:
                    self.reached[(name, value)] = self.moment
        self.standing = after

    def go(self, way: Way | None) -> None:
        """Go a way: its grade, its states, its node. Where it leads nowhere the walk ends safely."""
        if way is None:
            self.give_up(f"The tree has no way on from '{self.node.name}'.")
            return
        self.raise_to(way.grade)
        self.reach(way.leaves)
        node = self.tree.nodes.get(way.goto)
        if node is None:
            self.give_up(f"The tree leads to '{way.goto}', which is not there.")
            return
        self.node = node

    def give_up(self, because: str) -> None:
        """End the walk where the tree is at fault."""
        self.node = lost(self.node, because, self.standing, self.worst, self.site)

    @property
    def outlet(self) -> str | None:
        """The outlet in use: the one the cord is in, the one it is meant for, else the last one read."""
        cord = self.standing.get("cord", frozenset())
        if len(cord) == 1 and (plugged := next(iter(cord))) in self.site.places:
            return plugged
        return self.outlet_answer or self.outlet_looked_at

    @property
    def outlet_at_hand(self) -> str | None:
        """The outlet a question about a breaker is about: the cord's, else the last one read."""
        if states.may(self.standing, "cord", "plugged", self.site.states):
            return self.outlet if states.must(self.standing, "cord", "plugged", self.site.states) else None
        return self.outlet_looked_at

    @property
    def happened(self) -> Happened:
        return Happened(self.reached, self.changed)

    def looks(self, *, aging: bool = True) -> dict[str, bool]:
        """Return the looks of the outlet in use, held or not; without `aging` whatever their readings' age.

        With the power on a reading is as old as it was when it came on: a plug hides its slots.
        """
        clock = (self.clock_at_power or self.clock) if aging else None
        return looks_of(self.outlet, self.taken.values(), self.silent, self.happened, self.site, clock=clock)

    @property
    def nth(self) -> int:
        """How often the present node was come to, this time included."""
        return self.arrivals.get(self.key(), 1)

    @property
    def ended(self) -> bool:
        return isinstance(self.node, End)
