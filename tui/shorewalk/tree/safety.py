"""Safety rules as they stand in `site/safety.yaml`: what must hold at an event, what must not come after another.

A clause is a small automaton. `before EVENT, need FACTS`: at every such event the facts surely hold.
`after EVENT, until EVENT, never EVENT`: one latch, open when a walk begins and kept over jumps. The linter goes
through every walk with them; nothing that walks reads this.
"""

from __future__ import annotations

from .model import Route
from .record import record
from .source import Data
from .take import Mistake, maybe, take_list, take_map, take_word, take_words
from .words import listed

Facts = tuple[tuple[str, tuple[str, ...]], ...]
"""States (or energised, look, judged, slots) and the values that will do for each."""

EVENTS = ("touch", "measure", "set", "energise", "ask", "end", "sign", "grade", "state")
"""What can happen. The last three are told, and can only be what came before."""

HAPPENS = EVENTS[:6]

ANY = "any"
"""Stands for every place, hand or verdict."""

LOOK_FACTS = ("look", "judged")
SLOTS = "slots"
"""Facts that are not states: of looks, and of what holds a plug."""

SKIN_LOOK = "skin"
"""The look at the rig's metal, which is no outlet's."""


@record()
class Event:
    """Something that happens at a node, or when it is left. `words` and `sets` say of what kind.

    `while_` and the rest narrow it. A reading or sign that was graded: `grade` or worse, and `side` whose it is.
    """

    kind: str
    words: tuple[str, ...] = ()
    sets: Facts = ()
    while_: Facts = ()
    what: str | None = None
    meter: str | None = None
    between: tuple[str, ...] = ()
    load: tuple[str, ...] = ()
    call: str | None = None
    grade: str | None = None
    side: str | None = None


@record()
class Clause:
    """One automaton of a rule; `need` lists sets of facts, any of which will do."""

    route: Route
    before: tuple[Event, ...] = ()
    need: tuple[Facts, ...] = ()
    after: tuple[Event, ...] = ()
    until: tuple[Event, ...] = ()
    never: tuple[Event, ...] = ()
    but: tuple[Event, ...] = ()


@record()
class SafetyRule:
    """A rule by name. One without clauses is `held_by` the program itself: lint or walk."""

    id: str
    says: str
    why: str | None = None
    clauses: tuple[Clause, ...] = ()
    held_by: str | None = None
    bad: str | None = None
    good: str | None = None


def make_safety(name: str, data: dict[str, Data], route: Route) -> SafetyRule:
    """Return a safety rule."""
    holds = take_list(data.get("holds", []), (*route, "holds"))
    return SafetyRule(
        name,
        take_word(data.get("says"), (*route, "says")),
        maybe(take_word, data, "why", route),
        tuple(
            _clause(take_map(one, (*route, "holds", at)), (*route, "holds", at))
            for at, one in enumerate(holds)
        ),
        *(maybe(take_word, data, key, route) for key in ("held_by", "bad", "good")),
    )


def _clause(data: dict[str, Data], route: Route) -> Clause:
    events = {key: _events(data, key, route) for key in ("before", "after", "until", "never", "but")}
    needs = data.get("need", [])
    each = (
        [(needs, (*route, "need"))]
        if isinstance(needs, dict)
        else [(need, (*route, "need", at)) for at, need in enumerate(take_list(needs, (*route, "need")))]
    )
    return Clause(
        route,
        events["before"],
        tuple(_facts(need, at) for need, at in each),
        events["after"],
        events["until"],
        events["never"],
        events["but"],
    )


def _events(data: dict[str, Data], key: str, route: Route) -> tuple[Event, ...]:
    """Return the event at a key, or any of several."""
    if key not in data:
        return ()
    found = data[key]
    if isinstance(found, dict):
        return (_event(found, (*route, key)),)
    some = take_list(found, (*route, key))
    return tuple(_event(take_map(one, (*route, key, at)), (*route, key, at)) for at, one in enumerate(some))


def _event(data: dict[str, Data], route: Route) -> Event:
    kinds = [kind for kind in EVENTS if kind in data]
    if len(kinds) > 1 and kinds[-1] == "grade":
        kinds.remove("grade")  # there it narrows
    if len(kinds) != 1:
        found = listed(kinds, "and") if kinds else "none of them"
        raise Mistake(route, f"An event has one of {listed(EVENTS)}; here stands {found}.")
    (kind,) = kinds
    inner = data[kind]
    mapped = isinstance(inner, dict)
    return Event(
        kind,
        () if mapped else words_of(data, kind, route),
        _facts(inner, (*route, kind)) if mapped else (),
        _facts(data.get("while", {}), (*route, "while")),
        maybe(take_word, data, "what", route),
        maybe(take_word, data, "meter", route),
        take_words(data, "between", route),
        words_of(data, "load", route) if "load" in data else (),
        maybe(take_word, data, "call", route),
        maybe(take_word, data, "grade", route) if kind != "grade" else None,
        maybe(take_word, data, "side", route),
    )


def _facts(data: Data, route: Route) -> Facts:
    found = take_map(data, route)
    return tuple((name, words_of(found, name, route)) for name in found)


def words_of(data: dict[str, Data], key: str, route: Route) -> tuple[str, ...]:
    """Return the word at a key, or its words."""
    if isinstance(data[key], list):
        return take_words(data, key, route)
    return (take_word(data[key], (*route, key)),)
