"""What can be wrong at a make-believe pedestal, as `demo_data/pedestals/faults.yaml` has it.

A fault is other values of the loop and edits of its circuit, each within a range; `stand_with` draws one variant.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields, replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from shorewalk import folders
from shorewalk.tree.facts import Site as SiteFacts
from shorewalk.tree.model import Route
from shorewalk.tree.site import facts_of
from shorewalk.tree.source import Data, read_bytes, read_source
from shorewalk.tree.take import Mistake, take_list, take_map, take_number, take_only, take_word, take_words
from shorewalk.tree.words import choose_from, listed, quoted
from shorewalk.walk.ending import Ending

from .circuit import Circuit, Element
from .park import OUTLETS, Park, build, usual
from .stand import Stand

DANGERS = ("kills", "burns", "ruins", "none")
EDITS = ("open", "swap", "set", "move", "join")
KEYS = frozenset(
    ("says", "names", "side", "danger", "outlets", "park", "edits", "contacts", "stuck", "idle", "tripped")
)
Span = tuple[float, float]
Draw = Callable[[Span], Any]
"""What takes a value from a range."""


@dataclass(frozen=True, slots=True)
class Edit:
    """One edit: what is done, to which elements or nodes, within which ohms."""

    kind: str
    names: tuple[str, ...]
    ohms: Span = (math.inf, math.inf)


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong; `names` are the ids of `trees/site/faults.yaml` that stand for it in an ending."""

    id: str
    says: str
    names: tuple[str, ...] = ()
    side: str = "park"
    danger: str = "none"
    outlets: tuple[str, ...] = tuple(OUTLETS)
    service: str | None = None
    park: Mapping[str, Span] = field(default_factory=dict)
    edits: tuple[Edit, ...] = ()
    contacts: Mapping[str, Span] = field(default_factory=dict)
    stuck: tuple[str, ...] = ()
    idle: int = 0
    tripped: bool = False

    def named_in(self, end: Ending, site: SiteFacts) -> bool:
        """Tell whether an ending says that this was not ruled out."""
        words = {site.faults[name].says for name in self.names if name in site.faults}
        return bool(words & set(end.not_ruled_out))


NOTHING = Fault("nothing", "Nothing is wrong.")


def park_with(fault: Fault, outlet: str, chance: Random) -> Park:
    """Return a usual loop that can have the fault at this outlet."""
    park = usual(chance)
    while not fits(fault, park, outlet):
        park = usual(chance)
    return park


def stand_with(fault: Fault, park: Park, outlet: str, chance: Random) -> Stand:
    """Return a pedestal of this loop with one variant of the fault at an outlet, nothing plugged in."""
    return stand_drawn(fault, park, outlet, lambda span: _draw(span, chance))


def stand_drawn(fault: Fault, park: Park, outlet: str, draw: Draw) -> Stand:
    """Return the same with what `draw` takes from each range: a number, or an array with one a variant."""
    values: dict[str, Any] = {name: draw(span) for name, span in fault.park.items()}
    if fault.service:
        values["service"] = fault.service
    park = replace(park, **values)
    hot = "L1" if outlet == "50" else "L"
    leg = park.fed_by(outlet, hot)
    words = {"outlet": outlet, "hot": hot, "leg": leg, "other": "L2" if leg == "L1" else "L1"}
    circuit = build(park)
    for edit in fault.edits:
        circuit = _edited(circuit, edit, words, draw)
    return Stand(
        park,
        circuit,
        frozenset(name.format(**words) for name in fault.stuck),
        {slot.format(**words): draw(span) for slot, span in fault.contacts.items()},
        fault.idle,
        fault.tripped,
    )


def fits(fault: Fault, park: Park, outlet: str) -> bool:
    """Tell whether a loop can have the fault at this outlet."""
    if outlet not in fault.outlets or outlet not in park.outlets:
        return False
    two_legs = any("{other}" in name for edit in fault.edits for name in edit.names)
    return len(park.hots) == 2 or (not two_legs and fault.service is None)


def _edited(circuit: Circuit, edit: Edit, words: dict[str, str], draw: Draw) -> Circuit:
    names = [name.format(**words) for name in edit.names]
    match edit.kind:
        case "open":
            return circuit.open(names[0])
        case "swap":
            return circuit.swap(*names)
        case "set":
            return circuit.change(names[0], ohms=draw(edit.ohms))
        case "move":
            return circuit.change(names[0], a=names[1])
    return circuit.put(names[0], Element(names[1], names[2], draw(edit.ohms)))


def _draw(span: Span, chance: Random) -> float:
    """Return a value in a range, evenly by its logarithm."""
    low, high = span
    return low if low == high else math.exp(chance.uniform(math.log(low), math.log(high)))


@cache
def shipped_faults() -> dict[str, Fault]:
    """Return the faults of the invented campground by id."""
    return read_faults(folders.demo_data() / "pedestals" / "faults.yaml")


def read_faults(file: Path) -> dict[str, Fault]:
    """Return the faults in a file by id; raise `TreeError` for what cannot be understood."""
    return facts_of(read_source(read_bytes(file), str(file)), _fault)


def _fault(name: str, data: dict[str, Data], route: Route) -> Fault:
    take_only(data, KEYS, route)
    park = take_map(data.get("park", {}), (*route, "park"))
    known = {each.name for each in fields(Park)}
    for key in park:
        if key not in known:
            what = f"The loop has no {quoted(key)}.{choose_from(key, known)}"
            raise Mistake((*route, "park", key), what, key=True)
    edits = take_list(data.get("edits", []), (*route, "edits"))
    contacts = take_map(data.get("contacts", {}), (*route, "contacts"))
    return Fault(
        name,
        take_word(data.get("says"), (*route, "says")),
        take_words(data, "names", route),
        _one_of(data, "side", ("park", "rig"), route),
        _one_of(data, "danger", DANGERS, route),
        take_words(data, "outlets", route) or tuple(OUTLETS),
        take_word(park["service"], (*route, "park", "service")) if "service" in park else None,
        {key: _span(value, (*route, "park", key)) for key, value in park.items() if key != "service"},
        tuple(
            _edit(take_map(one, (*route, "edits", at)), (*route, "edits", at)) for at, one in enumerate(edits)
        ),
        {key: _span(value, (*route, "contacts", key)) for key, value in contacts.items()},
        take_words(data, "stuck", route),
        int(take_number(data.get("idle", "0"), (*route, "idle"))),
        data.get("tripped") == "yes",
    )


def _edit(data: dict[str, Data], route: Route) -> Edit:
    if len(data) != 1 or (kind := next(iter(data))) not in EDITS:
        raise Mistake(route, f"An edit is one of {listed(EDITS)}.")
    at, value = (*route, kind), data[kind]
    match kind:
        case "open":
            return Edit(kind, (take_word(value, at),))
        case "swap":
            return Edit(kind, take_words(data, kind, route))
    ((name, inner),) = take_map(value, at).items()
    if kind == "set":
        return Edit(kind, (name,), _span(inner, (*at, name)))
    if kind == "move":
        return Edit(kind, (name, take_word(inner, (*at, name))))
    ends = take_words(take_map(value, at), name, at)
    if len(ends) != 4:
        raise Mistake((*at, name), "Write two nodes and the ohms between them, low and high.")
    low, high = (take_number(each, (*at, name)) for each in ends[2:])
    return Edit(kind, (name, *ends[:2]), (low, high))


def _one_of(data: dict[str, Data], key: str, allowed: tuple[str, ...], route: Route) -> str:
    word = take_word(data.get(key), (*route, key))
    if word not in allowed:
        raise Mistake((*route, key), f"{quoted(word)} is not known here.{choose_from(word, allowed)}")
    return word


def _span(data: Data, route: Route) -> Span:
    """Return one number as a range, or the two of a list."""
    ends = data if isinstance(data, list) else [data, data]
    if len(ends) != 2:
        raise Mistake(route, "Write one number, or two: the low one and the high one.")
    low, high = (take_number(each, route) for each in ends)
    if not 0 < low <= high:
        raise Mistake(route, "Write numbers over 0, the low one first.")
    return low, high
