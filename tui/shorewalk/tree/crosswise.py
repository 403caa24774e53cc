"""What no shape can say: keys that go together or exclude each other, and names that site files share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from .facts import Cut, Site
from .model import Pairs, Route
from .safety_crosswise import slips
from .scope import RUN_TIME
from .source import Data
from .words import choose_from, listed, quoted


class Told(NamedTuple):
    """A problem by the route of what it is about (its key with `key`); the place is found later."""

    route: Route
    message: str
    key: bool = False


def told_of_tree(data: dict[str, Data]) -> Iterator[Told]:
    """Yield what is wrong across the keys of a tree or part, whatever its shapes are like."""
    nodes, exits = _map(data, "nodes"), _list(data, "exits")
    begin = data.get("begin")
    if isinstance(begin, str) and begin and nodes and begin not in nodes:
        yield Told(("begin",), f"No node is called {quoted(begin)}.{choose_from(begin, nodes)}")
    for name in nodes:
        if name in exits:
            yield Told(
                ("nodes", name), f"{quoted(name)} is a node and an exit. Give one another name.", key=True
            )
        if name in RUN_TIME:
            what = f"{quoted(name)} is a placeholder that every walk fills ({listed(RUN_TIME, 'and')})."
            yield Told(("nodes", name), f"{what} Give the node another name.", key=True)
        yield from _told_of_node(_map(nodes, name), ("nodes", name))
    for key in ("takes", "exits"):
        for at, word in enumerate(words := _list(data, key)):
            if word in words[:at]:
                yield Told((key, at), f"{quoted(word)} stands here twice. Take one out.")


def _told_of_node(node: Mapping[str, Any], route: Route) -> Iterator[Told]:
    kind = next((kind for kind in ("measure", "work", "tally") if kind in node), None)
    if kind and ("next" in node) == ("bands" in node):
        found = "both `next` and `bands`" if "next" in node else "neither `next` nor `bands`"
        what = f"This {kind} has {found}. Write `next` to judge it later, or `bands` to judge it here."
        yield Told(route, what, key=True)
    for one, other in (("at_most", "spent"), ("spent", "at_most")):
        if one in node and other not in node:
            yield Told((*route, one), f"`{one}` stands alone. Write `{other}` too, or take it out.", key=True)
    for key, ends in (("bands", ("below", "upto")), ("judge", ())):
        for at, row in enumerate(_list(node, key)):
            yield from _both(row, (*route, key, at), ends)
            for asked, span in _map(row, "when").items():
                inner = (*route, key, at, "when", asked)
                yield from _both(span, inner, ("from", "above"))
                yield from _both(span, inner, ("below", "upto"))
                if span == {}:
                    yield Told(inner, "No limit stands here. Write from, above, below or upto.", key=True)


def _both(data: Any, route: Route, ends: tuple[str, ...]) -> Iterator[Told]:
    if ends and isinstance(data, dict) and all(end in data for end in ends):
        yield Told((*route, ends[1]), f"Both {listed(ends, 'and')} stand here. Keep one.", key=True)


def _map(data: Any, key: str) -> dict[str, Any]:
    found = data.get(key) if isinstance(data, dict) else None
    return found if isinstance(found, dict) else {}


def _list(data: Any, key: str) -> list[Any]:
    found = data.get(key) if isinstance(data, dict) else None
    return found if isinstance(found, list) else []


def told_of_site(site: Site) -> Iterator[tuple[str, Told]]:
    """Yield, each with the file's name, what the facts say of each other that does not hold."""
    for group, facts in (("quantities", site.quantities), ("results", site.results)):
        for name, fact in facts.items():
            yield from (("grades", told) for told in _told_of_floor(fact.floor, site, (group, name, "floor")))
    for place in site.places.values():
        yield from (("places", told) for told in _told_of_place(place.id, site))
    for caution in site.cautions.values():
        for at, sign in enumerate(caution.asked):
            yield from (
                ("cautions", told) for told in _unknown(sign, site.signs, "sign", (caution.id, "asked", at))
            )
    for state in site.states.values():
        for value, pairs in state.resets.items():
            yield from (
                ("states", told)
                for told in _unknown(value, state.values, "value", (state.id, "resets", value))
            )
            yield from (("states", told) for told in _told_of_pairs(pairs, site, (state.id, "resets", value)))
        if state.begins:
            told_ = _unknown(state.begins, state.values, "value", (state.id, "begins"))
            yield from (("states", told) for told in told_)
        for group, values in state.groups.items():
            for at, value in enumerate(values):
                route = (state.id, "groups", group, at)
                yield from (("states", told) for told in _unknown(value, state.values, "value", route))
    yield from (("safety", Told(*slip)) for slip in slips(site))


def _told_of_floor(floor: tuple[Cut, ...], site: Site, route: Route) -> Iterator[Told]:
    before: float | None = None
    for at, cut in enumerate(floor):
        if cut.below and cut.upto:
            yield Told((*route, at), "Both below and upto stand here. Keep one.")
        name = cut.below or cut.upto
        if (name is None) != (at == len(floor) - 1):
            found = (
                "The last stretch has a limit; it goes on without end."
                if name
                else "A limit is missing here."
            )
            yield Told((*route, at), f"{found} Every stretch but the last has below or upto.")
        if name is None:
            continue
        yield from _unknown(name, site.limits, "limit", (*route, at, "below" if cut.below else "upto"))
        if limit := site.limits.get(name):
            if before is not None and limit.value < before:
                yield Told(
                    (*route, at),
                    f"{quoted(name)} is {limit.value:g}, under the {before:g} above. Let them rise.",
                )
            before = limit.value


def _told_of_place(name: str, site: Site) -> Iterator[Told]:
    place = site.places[name]
    for key, look in place.looks.items():
        route: Route = (name, "looks", key)
        for at, pair in enumerate(look.pairs):
            yield from _unknown(pair.place, site.places, "place", (*route, "pairs", at))
            if there := site.places.get(pair.place):
                for end in (pair.from_, pair.to):
                    yield from _unknown(
                        end, there.terminals, f"terminal of {there.id}", (*route, "pairs", at)
                    )
        for at, fault in enumerate(look.shows):
            yield from _unknown(fault, site.faults, "fault", (*route, "shows", at))
    for at, fault in enumerate(place.hidden):
        yield from _unknown(fault, site.faults, "fault", (name, "hidden", at))


def _told_of_pairs(pairs: Pairs, site: Site, route: Route) -> Iterator[Told]:
    for name, value in pairs:
        yield from _unknown(name, site.states, "state", (*route, name), key=True)
        if state := site.states.get(name):
            yield from _unknown(value, (*state.values, *state.groups), f"value of {name}", (*route, name))


def _unknown(
    name: str, known: Iterable[str], what: str, route: Route, *, key: bool = False
) -> Iterator[Told]:
    known = tuple(known)
    if name not in known:
        yield Told(route, f"There is no {what} {quoted(name)}.{choose_from(name, known)}", key)
