"""What can be wrong at a make-believe pedestal or a rig, as `demo_data/pedestals/faults.yaml` has it.

A fault is other values of the loop, edits of its circuit and of ours, each within a range, and what there is to see
of it; `stand_with` draws one variant.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from shorewalk import folders
from shorewalk.tree.facts import Site as SiteFacts
from shorewalk.walk.ending import Ending

from .battery import REST, Battery
from .edits import Draw, Edit, Span, edited
from .park import OUTLETS, Park, build, usual
from .rig import RUNNING
from .stand import Stand
from .trips import AFTER_A_WHILE

__all__ = [
    "NOTHING",
    "Draw",
    "Edit",
    "Fault",
    "Span",
    "fits",
    "park_with",
    "read_faults",
    "shipped_faults",
    "stand_drawn",
    "stand_with",
]

MAINS = 120.0
"""Volts at which loads are told."""
Signs = Mapping[str, tuple[str, ...]]
"""By sign, the answers that somebody may give; each as likely as the others."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong; `names` are the ids of `trees/site/faults.yaml` that stand for it in an ending.

    `side`: park, cord or rig. `rig`: edits of our side. `load`: what runs, as a share of the breaker's number;
    `trips_at`: the share at which the breaker trips after a while. `battery`: volts at rest. `signs`: what there is to
    see at any time; `used`: what there is once it was in use. `trees`: what somebody with this fault complains of.
    """

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
    rig: tuple[Edit, ...] = ()
    load: Span | None = None
    trips_at: Span | None = None
    charger: str = "alive"
    battery: Span | None = None
    signs: Signs = field(default_factory=dict)
    used: Signs = field(default_factory=dict)
    trees: tuple[str, ...] = ()

    def named_in(self, end: Ending, site: SiteFacts) -> bool:
        """Tell whether an ending says that this was not ruled out."""
        words = {site.faults[name].says for name in self.names if name in site.faults}
        return bool(words & set(end.not_ruled_out))

    def seen(self, chance: Random, *, used: bool) -> dict[str, str]:
        """Return what somebody sees of one variant. `used`: the rig was in use before."""
        signs = {**self.signs, **(self.used if used else {})}
        return {sign: chance.choice(answers) for sign, answers in signs.items()}


NOTHING = Fault("nothing", "Nothing is wrong.")


def park_with(fault: Fault, outlet: str, chance: Random, loop: Callable[[Random], Park] = usual) -> Park:
    """Return a loop, a usual one where nothing else is said, that can have the fault at this outlet."""
    park = loop(chance)
    while not fits(fault, park, outlet):
        park = loop(chance)
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
    words = names_at(park, outlet)
    return Stand(
        park,
        edited(build(park), [edit.drawn(words, draw) for edit in fault.edits]),
        frozenset(name.format(**words) for name in fault.stuck),
        {slot.format(**words): draw(span) for slot, span in fault.contacts.items()},
        fault.idle,
        fault.tripped,
        outlet=outlet,
        rig_edits=tuple(edit.drawn(words, draw) for edit in fault.rig),
        running=MAINS / (draw(fault.load) * int(outlet)) if fault.load else RUNNING,
        trips_at=draw(fault.trips_at) if fault.trips_at else AFTER_A_WHILE,
        battery=Battery(draw(fault.battery) if fault.battery else REST, fault.charger),
    )


def names_at(park: Park, outlet: str) -> dict[str, str]:
    """Return what the words in braces stand for at an outlet of a loop."""
    hot, hot2 = ("L1", "L2") if outlet == "50" else ("L", "L")
    leg = park.fed_by(outlet, hot)
    other = "L2" if leg == "L1" else "L1"
    return {"outlet": outlet, "hot": hot, "hot2": hot2, "leg": leg, "other": other}


def fits(fault: Fault, park: Park, outlet: str) -> bool:
    """Tell whether a loop can have the fault at this outlet."""
    if outlet not in fault.outlets or outlet not in park.outlets:
        return False
    return len(park.hots) == 2 or (not needs_two(fault) and fault.service is None)


def needs_two(fault: Fault) -> bool:
    """Tell whether an edit names the other leg."""
    return any("{other}" in name for edit in fault.edits for name in edit.names)


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
    from .faults_file import faults_in  # it knows faults

    return faults_in(file)
