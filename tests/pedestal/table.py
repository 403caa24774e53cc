"""Every fault of a pedestal that a walk has to find or to name, each in a park, and what must come of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from shorewalk.pedestal.park import Park, build
from shorewalk.pedestal.stand import Stand

from . import edits
from .edits import Edit, hot, nothing, ohms, opened, swapped

ALL = ("50", "30", "20")
ONE_HOT = ("30", "20")
SOUND = Park()


def loop(**changes: Any) -> Park:
    return replace(SOUND, **changes)


ALONE = loop(neighbour1=0.0, neighbour2=0.0)
BALANCED = loop(neighbour1=14.9, neighbour2=15.1, volts1=122.3, volts2=122.3)
UNEQUAL = loop(neighbour1=19.4, neighbour2=15.0)
Y208 = loop(service="208", volts1=122.4, volts2=121.6)
Y208_BALANCED = replace(Y208, volts1=122.0, volts2=122.0, neighbour1=15.0, neighbour2=15.0)
HIGH_LEG = loop(service="high-leg", volts1=121.7, volts2=211.3, neighbour2=0.0)
HIGH_LEG_ONLY = replace(HIGH_LEG, leg_of_30="L2", leg_of_20="L2")
LOPSIDED = loop(neighbour1=2.6, neighbour2=0.0, volts1=124.0, volts2=121.7)
ONE_HOT_LOOP = loop(service="one-hot", neighbour2=0.0)


@dataclass(frozen=True)
class Fault:
    """One row: the park it stands in, the edit (the outlet in use is given), and the expectation.

    `use`: the honest walk ends in use; else it ends in no use. `call`: who is called first.
    `through_plug`: only a load through our own plug shows it; else it must show before the cord is in.
    `named`: ids of faults.yaml, of which one must stand in `not_ruled_out` of an end that allows use.
    """

    id: str
    edit: Edit = nothing
    park: Park = SOUND
    outlets: tuple[str, ...] = ALL
    use: bool = False
    call: str = "park"
    named: tuple[str, ...] = ()
    stuck: Callable[[str], frozenset[str]] = lambda _: frozenset()
    contacts: Callable[[str], dict[str, float]] = lambda _: {}
    through_plug: bool = False
    idle: int = 0
    tripped: bool = False

    def stand(self, outlet: str) -> Stand:
        """Return the site with this fault at the outlet in use, nothing plugged in, all handles off."""
        return Stand(
            self.park,
            self.edit(build(self.park), outlet),
            self.stuck(outlet),
            self.contacts(outlet),
            self.idle,
            self.tripped,
            outlet=outlet,
        )


@dataclass(frozen=True)
class Case:
    fault: Fault
    outlet: str

    def __str__(self) -> str:
        return f"{self.fault.id} at the {self.outlet}"


def cases(rows: list[Fault]) -> list[Case]:
    return [Case(row, outlet) for row in rows for outlet in row.outlets if outlet in row.park.outlets]


def neutral_slot(_: str) -> dict[str, float]:
    return {"N": 2.0}


def hot_slot(outlet: str) -> dict[str, float]:
    return {hot(outlet): 0.8}


UPSTREAM = ("neutral-open-upstream",)
LOOSE = ("neutral-loose",)
BURNT = ("neutral-contact-burnt",)
FALSE = ("false-ground",)
HIDDEN = ("ground-open-upstream",)

STOPS = [
    Fault("supply low", park=loop(volts1=101.4, volts2=100.7), named=("supply-low",)),
    Fault("supply high", park=loop(volts1=132.4, volts2=131.7), named=("supply-high",)),
    Fault("neutral open upstream, neighbours unequal", opened("feeder.N"), UNEQUAL, named=UPSTREAM),
    Fault("neutral open upstream, balanced", opened("feeder.N"), BALANCED, named=UPSTREAM),
    Fault("neutral open upstream, nobody else", opened("feeder.N"), ALONE, named=UPSTREAM),
    Fault("neutral open at the outlet", opened("branch.{o}.N"), named=("neutral-open",)),
    Fault("neutral loose at the outlet", ohms("branch.{o}.N", 2.0), through_plug=True, named=LOOSE),
    Fault("neutral contact burnt", contacts=neutral_slot, through_plug=True, named=BURNT),
    Fault("neutral loose upstream", ohms("feeder.N", 1.0), named=LOOSE),
    Fault("hot contact burnt", contacts=hot_slot, through_plug=True, named=("hot-contact-burnt",)),
    Fault("ground open at the outlet", opened("branch.{o}.G"), named=("ground-open",)),
    Fault("ground open upstream, one-hot loop", opened("feeder.G"), ONE_HOT_LOOP, ONE_HOT, named=HIDDEN),
    Fault("ground open upstream, 208Y", opened("feeder.G"), Y208, named=HIDDEN),
    Fault("ground live from elsewhere", edits.ground_live, named=("ground-live",)),
    Fault("hot and neutral reversed", swapped("{h}", "N"), named=("reversed",)),
    Fault("hot and ground swapped", swapped("{h}", "G"), named=("swapped",)),
    Fault("false ground", edits.false_ground, outlets=ONE_HOT, named=FALSE),
    Fault("false ground of all outlets", edits.false_ground_upstream, ONE_HOT_LOOP, ONE_HOT, named=FALSE),
    Fault("no service bond, a neighbour's fault", edits.no_bond, named=("ground-live",)),
    Fault(
        "neutral and ground both open", opened("branch.{o}.N", "branch.{o}.G"),
        named=("neutral-open", "ground-open", "live-but-looks-dead"),
    ),
    Fault("240 V on it", edits.wired_for_240, outlets=ONE_HOT, named=("wired-for-240",)),
    Fault("one leg lost", opened("branch.50.L2"), outlets=("50",), named=("leg-lost",)),
    Fault("one leg lost, back-fed", edits.back_fed(15.0), outlets=("50",), named=("leg-lost",)),
    Fault("one leg lost, back-fed, bare", edits.back_fed(inf), outlets=("50",), named=("leg-lost",)),
    Fault("both hots from one leg", edits.one_leg_twice, outlets=("50",), named=("one-leg-twice",)),
    Fault("one pole stays closed", stuck=lambda outlet: frozenset({f"breaker.{outlet}.{hot(outlet)}"})),
    Fault("208Y, neutral open", opened("feeder.N"), Y208_BALANCED, named=UPSTREAM),
    Fault("high leg", park=HIGH_LEG, outlets=("50",), named=("high-leg",)),
    Fault("high leg at one hot", park=HIGH_LEG_ONLY, outlets=ONE_HOT, named=("supply-high",)),
    Fault("floating neutral, as of a generator", edits.generator, ONE_HOT_LOOP, ONE_HOT),
    Fault("breaker trips again at once", idle=9, tripped=True),
]  # fmt: skip
"""Rows that the table calls seen, or that a named look shows: no use, and the call as it says."""

SEEN_BY_NONE = [
    Fault("ground open upstream", opened("feeder.G"), use=True, named=HIDDEN),
    Fault("ground open upstream, own rod", edits.own_rod, use=True, named=HIDDEN),
    Fault("neutral tied to ground", edits.tied, use=True, named=("neutral-tied-to-ground",)),
    Fault("neutral and ground swapped", swapped("N", "G"), use=True, named=("neutral-ground-swapped",)),
    Fault("208Y", park=Y208, use=True, named=HIDDEN),
]
"""No look shows them: use, and the ending says what was not ruled out."""

GOOD = [
    Fault("none", use=True),
    Fault("nobody else on the loop", park=ALONE, use=True),
    Fault("lopsided loop", park=LOPSIDED, use=True),
    Fault(
        "very lopsided loop", park=loop(neighbour1=2.0, neighbour2=0.0, volts1=125.4, volts2=121.4), use=True
    ),
    Fault("busy loop", park=loop(neighbour1=3.2, neighbour2=3.0, volts1=124.0, volts2=124.0), use=True),
    Fault("one-hot loop", park=ONE_HOT_LOOP, outlets=ONE_HOT, use=True),
    Fault("breaker found off, then on", idle=1, use=True),
    Fault("breaker found tripped, then on", idle=1, tripped=True, use=True),
]
