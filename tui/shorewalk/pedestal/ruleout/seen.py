"""What a walk has read so far, and how all stood when it was read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from shorewalk.pedestal.circuit import Circuit
from shorewalk.pedestal.park import Park
from shorewalk.pedestal.stand import Stand, Switched
from shorewalk.tree.model import Ask, Measure, Node
from shorewalk.walk.answers import Answer, Choose, Read
from shorewalk.walk.typed import parse_typed
from shorewalk.walk.walk import Walk, resume

UNKNOWN_OUTLET = "30"

MOVES_SHARE, MOVES_VOLTS = 0.008, 0.2
"""How far a supply moves while somebody measures, as neighbours switch: 1 V at 120 V, and a little at any reading
(common practice; the trees have a reading done again where it moved by more)."""


IN_RIG = frozenset({"rig-outlet-a", "rig-outlet-b"})
PLACES = IN_RIG | {"rig-skin", "pedestal-50", "pedestal-30", "pedestal-20"}
"""Places that the circuits have; what is read elsewhere tells nothing here."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A reading of AC volts: where, how all stood, lowest and highest that may be behind it but for the gain.

    The gain of the meter is the same in all readings; it is fitted together with the supply's volts.
    """

    place: str
    one: str
    other: str
    now: Switched
    low_impedance: bool
    low: float
    high: float


@dataclass
class Asked:
    """A question that was answered: the node, and what was known of how all stood before."""

    node: Node
    state: dict[str, str]
    answer: Answer

    @property
    def place(self) -> str:
        """Where it was measured, if it was."""
        return self.node.place if isinstance(self.node, Measure) else ""


@dataclass
class Watcher:
    """Follows a walk, answer by answer; only the last one is folded again where it can be."""

    _walk: Walk | None = None
    _asked: list[Asked] = field(default_factory=list)
    _stand: Stand | None = None

    def ahead(self, walk: Walk) -> Seen | None:
        """Return what the open question would see, were it answered with 0 V; `see` has seen this walk."""
        node, stand = walk.now.node, self._stand
        if stand is None or not isinstance(node, Measure) or node.place not in PLACES:
            return None
        stand.follow(walk.now.state)
        return next(iter(_seen(node, Read("0.0"), stand.switched, walk)), None)

    def see(self, walk: Walk) -> list[Seen]:
        """Return the readings of a walk that still count."""
        self._follow(walk)
        read = (outlet for asked in self._asked if (outlet := outlet_at(asked.place)))
        outlet = outlet_of(walk) or next(read, UNKNOWN_OUTLET)
        void = {known.index for known in walk.now.known if known.void}
        counts = {known.index for known in walk.now.known} - void
        stand = Stand(Park(), Circuit({}))
        if self._asked and self._asked[0].state.get("cord") not in ("unplugged", None):
            stand.switched = Switched(breaker=True, cord=outlet, main=True, branches="on")
        seen: list[Seen] = []
        through = False
        self._stand = stand
        for index, asked in enumerate(self._asked):
            stand.follow(asked.state)
            if isinstance(asked.node, Ask) and asked.node.sign == "protector-state":
                through = asked.answer == Choose("connected")
            if asked.state.get("protector") == "fitted" and not through and asked.place in IN_RIG:
                continue  # whatever it reads there is the protector's doing
            if asked.place not in PLACES:
                continue
            if index in counts and isinstance(asked.node, Measure) and isinstance(asked.answer, Read):
                seen += _seen(asked.node, asked.answer, stand.switched, walk)
        return seen

    def _follow(self, walk: Walk) -> None:
        """Note what was asked since, from the walk that was followed last where this one goes on from it."""
        before = self._walk
        if (
            before is None
            or before.tree != walk.tree
            or before.answers != walk.answers[: len(before.answers)]
        ):
            before = resume(walk.library, walk.tree, walk.meter, ())[0]
            self._asked = []
        for answered in walk.answers[len(before.answers) :]:
            self._asked.append(Asked(before.now.node, dict(before.now.state), answered.answer))
            last = len(self._asked) == len(walk.answers)
            before = walk if last else before.again(answered)
        self._walk = walk


def outlet_of(walk: Walk) -> str | None:
    """Return the outlet that is in use or will be, where a walk knows."""
    return outlet_at(walk.now.outlet or "")


def outlet_at(place: str) -> str | None:
    """Return the outlet that a place is, if it is one."""
    return place.split("-")[1] if place.startswith("pedestal-") else None


def _seen(node: Measure, answer: Read, now: Switched, walk: Walk) -> list[Seen]:
    typed = parse_typed(answer.text)
    if node.what != "ac-volts" or typed.over:
        return []
    meter = walk.now.meter
    off = meter.counts * meter.step("V") + MOVES_VOLTS
    loaded = replace(now, load_on=node.load.amount != "none")
    return [
        Seen(
            node.place,
            node.from_,
            node.to,
            loaded,
            node.meter == "low-impedance",
            typed.low * (1 - MOVES_SHARE) - off,
            typed.high * (1 + MOVES_SHARE) + off,
        )
    ]
