"""What is known about how things stand: which values each state may have.

A state is a set of possible values; a state that is not named may have any. `energised` is
derived: the cord is plugged in and the pedestal breaker is on, whatever the rig's main does.
"""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.tree.facts import State
from shorewalk.tree.model import Pairs

Standing = Mapping[str, frozenset[str]]
"""State name -> the values it may have."""

States = Mapping[str, State]

ENERGISED = "energised"


def values_of(name: str, value: str, states: States) -> frozenset[str]:
    """Return the values that `value` stands for: a group's members, else itself."""
    fact = states.get(name)
    if fact is not None and value not in fact.values and value in fact.groups:
        return frozenset(fact.groups[value])
    return frozenset({value})


def _reset(standing: dict[str, frozenset[str]], name: str, values: frozenset[str], states: States) -> None:
    """Apply what reaching `values` sets; where it was reached only perhaps, add instead of set."""
    fact = states.get(name)
    if fact is None:
        return
    for value in values & fact.resets.keys():
        for other, then in fact.resets[value]:
            new = values_of(other, then, states)
            if len(values) == 1:
                standing[other] = new
            elif other in standing:
                standing[other] |= new


def reach(standing: Standing, leaves: Pairs, states: States) -> dict[str, frozenset[str]]:
    """Return how things stand after `leaves`; what it names itself wins over resets."""
    after = dict(standing)
    for name, value in leaves:
        _reset(after, name, values_of(name, value, states), states)
    for name, value in leaves:
        after[name] = values_of(name, value, states)
    return after


def at_begin(starts: Pairs, states: States) -> dict[str, frozenset[str]]:
    """Return how things stand when a walk begins in a tree that starts so."""
    begins = tuple((name, fact.begins) for name, fact in states.items() if fact.begins)
    return reach(reach({}, begins, states), starts, states)


def maybe(standing: Standing, leaves: Pairs, states: States) -> dict[str, frozenset[str]]:
    """Return how things stand when `leaves` was reached or not: both stay possible."""
    after = reach(standing, leaves, states)
    both: dict[str, frozenset[str]] = {}
    for name in standing.keys() & after.keys():
        both[name] = standing[name] | after[name]
    return both


def may(standing: Standing, name: str, value: str, states: States) -> bool:
    """Tell whether the state may have this value (or one of this group)."""
    if name == ENERGISED:
        yes = may(standing, "cord", "plugged", states) and may(standing, "pedestal-breaker", "on", states)
        return yes if value == "yes" else not must(standing, name, "yes", states)
    return name not in standing or bool(standing[name] & values_of(name, value, states))


def must(standing: Standing, name: str, value: str, states: States) -> bool:
    """Tell whether the state surely has this value (or one of this group)."""
    if name == ENERGISED:
        yes = must(standing, "cord", "plugged", states) and must(standing, "pedestal-breaker", "on", states)
        return yes if value == "yes" else not may(standing, name, "yes", states)
    return name in standing and standing[name] <= values_of(name, value, states)


def shown(standing: Standing, states: States) -> dict[str, str]:
    """Return what is known in words of `states.yaml`: a value, or a group's name.

    What is unknown is left out, and what stands as it does when any walk begins.
    """
    known: dict[str, str] = {}
    for name in sorted(standing, key=[*states, *sorted(standing)].index):
        values = standing[name]
        if len(values) == 1:
            (value,) = values
            if name not in states or value != states[name].begins:
                known[name] = value
            continue
        for group, members in states[name].groups.items() if name in states else ():
            if values == frozenset(members):
                known[name] = group
    return known
