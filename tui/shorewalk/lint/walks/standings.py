"""How things may stand, kept as numbers so that two walks that stand alike are one: the walk's own state, counted once.

Only the states asked for are kept. What is known of one never depends on what is known of another, so leaving
others out loses nothing.
"""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Pairs
from shorewalk.walk import state as states

Known = dict[str, frozenset[str]]


class Standings:
    """Standings by number, with what steps do to them; every step is worked out once."""

    def __init__(self, site: Site, kept: Iterable[str]) -> None:
        self.site, self.kept = site, frozenset(kept)
        if states.ENERGISED in self.kept:
            self.kept |= {"cord", "pedestal-breaker"}
        self._numbers: dict[frozenset[tuple[str, frozenset[str]]], int] = {}
        self._known: list[Known] = []
        self._after: dict[tuple[int, Pairs, bool], int] = {}
        self._cut: dict[tuple[int, frozenset[str]], int] = {}
        self._must: dict[tuple[int, str, str], bool] = {}
        self.nothing = self.number({})

    def known(self, number: int) -> Known:
        """Return what is known of each state; one that is not there may be anything."""
        return self._known[number]

    def after(self, number: int, leaves: Pairs, *, perhaps: bool = False) -> int:
        """Return how things stand after a step that was done, or (`perhaps`) done or not."""
        if not leaves:
            return number
        key = (number, leaves, perhaps)
        if key not in self._after:
            step = states.maybe if perhaps else states.reach
            self._after[key] = self.number(step(self._known[number], leaves, self.site.states))
        return self._after[key]

    def cut(self, number: int, names: frozenset[str]) -> int:
        """Return a standing with only these states known."""
        key = (number, names)
        if key not in self._cut:
            known = self._known[number]
            self._cut[key] = self.number({name: known[name] for name in known if name in names})
        return self._cut[key]

    def at_begin(self, starts: Pairs) -> int:
        """Return how things stand when a walk begins in a tree that starts so."""
        return self.number(states.at_begin(starts, self.site.states))

    def must(self, number: int, name: str, value: str) -> bool:
        """Tell whether a state surely has this value."""
        key = (number, name, value)
        if key not in self._must:
            self._must[key] = states.must(self._known[number], name, value, self.site.states)
        return self._must[key]

    def may(self, number: int, name: str, value: str) -> bool:
        """Tell whether a state may have this value."""
        return states.may(self._known[number], name, value, self.site.states)

    def possible(self, number: int, name: str) -> tuple[str, ...]:
        """Return the values a state may have, in the order of the facts."""
        if name == states.ENERGISED:
            return tuple(value for value in ("yes", "no") if self.may(number, name, value))
        state = self.site.states.get(name)
        known = self._known[number].get(name)
        if state is None:
            return tuple(sorted(known or ()))
        return tuple(value for value in state.values if known is None or value in known)

    def number(self, known: Known) -> int:
        """Return the number of a standing, cut down to what is kept."""
        kept = {name: values for name, values in known.items() if name in self.kept}
        key = frozenset(kept.items())
        if key not in self._numbers:
            self._numbers[key] = len(self._known)
            self._known.append(kept)
        return self._numbers[key]
