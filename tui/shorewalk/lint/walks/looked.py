"""Which readings still count as evidence, for each walk: the walk's own looks, as bits.

One bit for each node that serves a look, set where the reading was taken as the look wants it and cleared by what
voids the look; one more where it was judged ok or watch; and which outlet the walk is about.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from shorewalk.tree.facts import Site
from shorewalk.tree.model import GRADES, Ask, Judge, Measure, Node, Tree
from shorewalk.tree.safety import SKIN_LOOK
from shorewalk.walk import state as states
from shorewalk.walk.looks import SKIN, SKIN_VOIDED, STORM, THROUGH_PLUG, TRIPPED

from .happen import subjects, takes_number
from .moves import Move
from .standings import Standings

WATCH = GRADES.index("watch")
Key = tuple[str, str]
"""A tree and a node of it."""

Serves = tuple[str, str]
"""An outlet and a look; an empty outlet for what is read through the plug, wherever that is."""


class Pair(NamedTuple):
    """One slot pair of a look at an outlet (`None`: wherever the plug is), or that it was judged well; its bits."""

    look: str
    outlet: str | None
    bits: int
    judging: bool = False


class Looked:
    """The bits of some looks, from bit 1 on, and what becomes of them."""

    def __init__(
        self, site: Site, standings: Standings, trees: Iterable[Tree], looks: Collection[str]
    ) -> None:
        self.site, self.standings, self.looks = site, standings, looks
        first = 1  # the bit before is another's
        self.outlets = [name for name, place in site.places.items() if place.looks]
        width = len(self.outlets).bit_length()
        self._answered = (first, ((1 << width) - 1) << first)
        self._last = (first + width, ((1 << width) - 1) << (first + width))
        self.about = self._answered[1] | self._last[1]
        """The bits of what the walk is about."""
        self._silent = 1 << (first + 2 * width)
        self._end = first + 2 * width + 1
        self.taken: dict[Key, dict[Serves, int]] = {}
        self.judged: dict[Key, int] = {}
        self._pairs: dict[tuple[str, str], list[int]] = {}
        self._judged: dict[tuple[str, str], list[int]] = {}
        self._voids: dict[tuple[str, str], list[tuple[str, int]]] = defaultdict(list)
        self._served = self._serving()
        for tree in trees:
            for name, node in tree.nodes.items():
                if isinstance(node, Measure):
                    self._measure((tree.name, name), node)
        for pair, value in SKIN_VOIDED:
            self._voids[pair, value].append(("", self._silent))
        self._lost: dict[tuple[int, int], int] = {}
        self._skin = self._silent
        for mine in self.taken.values():
            self._skin |= mine.get(("", SKIN_LOOK), 0)

    def _serving(self) -> dict[tuple[str, frozenset[str], str], list[tuple[str, str, int]]]:
        """Return outlet, look and pair by place, terminals and load."""
        served = defaultdict(list)
        for outlet in self.outlets:
            for look in self.site.places[outlet].looks.values():
                if look.id not in self.looks:
                    continue
                self._pairs[outlet, look.id] = [0] * len(look.pairs)
                self._judged[outlet, look.id] = [0] * len(look.pairs)
                for at, pair in enumerate(look.pairs):
                    served[pair.place, frozenset((pair.from_, pair.to)), look.load].append(
                        (outlet, look.id, at)
                    )
        return served

    def _measure(self, key: Key, node: Measure) -> None:
        if node.what != "ac-volts" or node.meter != "normal":
            return
        mine: dict[Serves, int] = {}
        for outlet, look, at in self._served.get(
            (node.place, frozenset((node.from_, node.to)), node.load.amount), ()
        ):
            if not self._could(outlet, look, node):
                continue
            serves = ("" if look in THROUGH_PLUG else outlet, look)
            if serves not in mine:
                mine[serves] = self._bit()
            self._pairs[outlet, look][at] |= mine[serves]
            for name, value in self.site.places[outlet].looks[look].voided_by:
                self._voids[name, value].append((outlet, mine[serves]))
            self.judged.setdefault(key, self._bit())
            self._judged[outlet, look][at] |= self.judged[key]
        if node.place == SKIN and SKIN_LOOK in self.looks:
            mine["", SKIN_LOOK] = self._bit()
            for name, value in SKIN_VOIDED:
                self._voids[name, value].append(("", mine["", SKIN_LOOK]))
        if mine:
            self.taken[key] = mine

    def _could(self, outlet: str, look: str, node: Measure) -> bool:
        """Tell whether a reading there could count, as the breaker stands by what the node needs."""
        wanted = self.site.places[outlet].looks[look].breaker
        return dict(node.needs).get("pedestal-breaker", wanted) == wanted

    def _bit(self) -> int:
        self._end += 1
        return 1 << (self._end - 1)

    def pairs(self, look: str, *, judged: bool) -> Iterator[Pair]:
        """Yield each pair of a look, and, where asked, the judging of it."""
        if look == SKIN_LOOK:
            yield Pair(look, None, self._skin)
        for outlet, name in self._pairs:
            if name == look:
                yield from (Pair(look, outlet, bits) for bits in self._pairs[outlet, name])
                yield from (
                    Pair(look, outlet, bits, judging=True) for bits in self._judged[outlet, name] if judged
                )

    def last_read(self, outlet: str | None) -> int:
        """Return the bits that say another outlet than this was the last that was read; 0 where there is none."""
        others = [other for other in self.outlets if other != outlet] if outlet else []
        return self._name(0, self._last, others[0]) if others else 0

    def outlet(self, seen: int, standing: int) -> str | None:
        """Return the outlet in use, as a walk sees it."""
        cord = self.standings.known(standing).get("cord", frozenset())
        if len(cord) == 1 and (plugged := next(iter(cord))) in self.site.places:
            return plugged
        return self._named(seen, self._answered) or self._named(seen, self._last)

    def held(self, seen: int, outlet: str | None, look: str) -> bool:
        """Tell whether a look at an outlet is held."""
        if look == SKIN_LOOK:
            return outlet is not None and bool(seen & self._skin)
        pairs = self._pairs.get((outlet or "", look))
        return bool(pairs) and all(seen & pair for pair in pairs or ())

    def judged_well(self, seen: int, outlet: str, look: str) -> bool:
        """Tell whether each pair of a look was read, and judged ok or watch since."""
        pairs, judged = self._pairs.get((outlet, look), []), self._judged.get((outlet, look), [])
        return bool(pairs) and all(
            seen & pair and seen & mine for pair, mine in zip(pairs, judged, strict=True)
        )

    def turn(self, seen: int, tree: Tree, node: Node, move: Move, *, before: int, after: int) -> int:
        """Return the bits after a move between two standings."""
        match node:
            case Measure():
                seen = self._measured(seen, (tree.name, node.name), node, move, before)
            case Judge():
                seen = self._judges(seen, tree, node, move)
            case Ask():
                seen = self._told(seen, node, move, before)
        return seen if before == after else seen & ~self._lost_by(before, after)

    def _measured(self, seen: int, key: Key, node: Measure, move: Move, before: int) -> int:
        mine = self.taken.get(key)
        if takes_number(move) and node.place in self.outlets:
            seen = self._name(seen, self._last, node.place)
        if mine is None:
            return seen
        for (outlet, look), bit in mine.items():
            seen &= ~bit
            if takes_number(move) and self._counts(outlet, look, before):
                seen |= bit
        if key in self.judged:
            seen &= ~self.judged[key]
            if takes_number(move) and 0 <= move.grade <= WATCH:
                seen |= self.judged[key]
        return seen

    def _counts(self, outlet: str, look: str, standing: int) -> bool:
        if outlet or look not in (SKIN_LOOK, *THROUGH_PLUG):
            wanted = self.site.places[outlet].looks[look].breaker if outlet else "on"
            return self.standings.must(standing, "pedestal-breaker", wanted)
        cord = self.standings.known(standing).get("cord", frozenset())
        return len(cord) == 1 and self.standings.must(standing, states.ENERGISED, "yes")

    def _judges(self, seen: int, tree: Tree, node: Judge, move: Move) -> int:
        for each in (tree.nodes[name] for name in node.of if name in tree.nodes) if move.again else ():
            for bit in self.taken.get((tree.name, each.name), {}).values():
                seen &= ~bit
            seen &= ~self.judged.get((tree.name, each.name), 0)
        if not move.again and 0 <= move.grade <= WATCH:
            for each in subjects(tree, node, move):
                seen |= self.judged.get((tree.name, each.name), 0)
        return seen

    def _told(self, seen: int, node: Ask, move: Move, before: int) -> int:
        answer = move.label.removeprefix("choose ")
        if node.sign == "outlet-used":
            return self._name(seen, self._answered, f"pedestal-{answer}")
        if node.sign == "near-voltage":
            seen &= ~self._silent
            return seen | self._silent if answer == "silent" and self._counts("", SKIN_LOOK, before) else seen
        if (node.sign, answer) == ("breaker-position", TRIPPED):
            hand = self._at_hand(seen, before)
            for outlet, bit in self._voids[TRIPPED, "yes"]:
                seen &= ~bit if hand in (None, outlet) or not outlet else -1
        told = [*self._voids.get((node.sign, answer), ())]
        if (node.sign, answer) == STORM:
            told += self._voids["storm", "yes"]
        for _, bit in told:
            seen &= ~bit
        return seen

    def _at_hand(self, seen: int, standing: int) -> str | None:
        """Return the outlet whose breaker a question is about, or `None` where that is not known."""
        if self.standings.may(standing, "cord", "plugged"):
            plugged = self.standings.must(standing, "cord", "plugged")
            return self.outlet(seen, standing) if plugged else None
        return self._named(seen, self._last)

    def _lost_by(self, before: int, after: int) -> int:
        """Return the bits that a change of how things stand clears."""
        key = (before, after)
        if key not in self._lost:
            self._lost[key] = self._lose(before, after)
        return self._lost[key]

    def _lose(self, before: int, after: int) -> int:
        was, now = self.standings.known(before), self.standings.known(after)
        lost = 0
        for (name, value), voided in self._voids.items():
            if name not in was and name not in now:
                continue
            if was.get(name) == now.get(name):
                continue
            reached = self._reached(name, was.get(name), now.get(name))
            for outlet, bit in voided:
                if value in ("changed", "moved"):
                    gone = True
                elif value == "another":
                    gone = bool(reached - {outlet, "unplugged"})
                else:
                    gone = value in reached
                lost |= bit if gone else 0
        return lost

    def _reached(self, name: str, was: frozenset[str] | None, now: frozenset[str] | None) -> set[str]:
        if now is not None:
            return set(now - was) if was else set(now)
        return set(self.site.states[name].values) if name in self.site.states else set()

    def _named(self, seen: int, field: tuple[int, int]) -> str | None:
        place = (seen & field[1]) >> field[0]
        return self.outlets[place - 1] if place else None

    def _name(self, seen: int, field: tuple[int, int], outlet: str) -> int:
        place = self.outlets.index(outlet) + 1 if outlet in self.outlets else 0
        return seen & ~field[1] | place << field[0]
