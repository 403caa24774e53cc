"""What safety rules say of other facts that does not hold: names that mean nothing, clauses that say nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from .facts import Site
from .model import Route
from .safety import ANY, HAPPENS, LOOK_FACTS, SKIN_LOOK, SLOTS, Clause, Event, Facts, SafetyRule
from .words import choose_from, quoted

DERIVED = {"energised": ("yes", "no"), SLOTS: ("free",)}


class Slip(NamedTuple):
    """Something wrong at a route in safety.yaml."""

    route: Route
    message: str
    key: bool = False


def slips(site: Site) -> Iterator[Slip]:
    """Yield everything that is wrong with the names and the make of safety rules."""
    for rule in site.safety.values():
        yield from _of_rule(rule, site)


def _of_rule(rule: SafetyRule, site: Site) -> Iterator[Slip]:
    if bool(rule.clauses) == bool(rule.held_by):
        yield Slip((rule.id,), "A rule has either holds or held_by.", key=True)
    for clause in rule.clauses:
        yield from _of_make(clause)
        for key in ("before", "after", "until", "never", "but"):
            for at, event in enumerate(getattr(clause, key)):
                if event.kind not in HAPPENS and key not in ("after", "until"):
                    what = f"{quoted(event.kind)} is told, not done: it can stand under after or until only."
                    yield Slip((*clause.route, key), what)
                yield from _of_event(event, site, (*clause.route, key, at))
        for at, need in enumerate(clause.need):
            yield from _of_facts(need, site, (*clause.route, "need", at), looks=True)


def _of_make(clause: Clause) -> Iterator[Slip]:
    if bool(clause.before) == bool(clause.never):
        yield Slip(clause.route, "A clause has either before and need, or never.")
    elif bool(clause.before) != bool(clause.need):
        yield Slip(clause.route, "before and need stand together.")
    elif clause.before and (clause.after or clause.until):
        yield Slip(clause.route, "after and until go with never.")
    elif clause.until and not clause.after:
        yield Slip(clause.route, "until goes with after.")


def _of_event(event: Event, site: Site, route: Route) -> Iterator[Slip]:
    match event.kind:
        case "sign":
            for name, values in event.sets:
                yield from _unknown(name, site.signs, "sign", (*route, "sign", name), key=True)
                if sign := site.signs.get(name):
                    for value in values:
                        known = (*sign.answers, "unsure")
                        yield from _unknown(value, known, f"answer of {name}", (*route, "sign", name))
        case "ask":
            for name in event.words:
                yield from _unknown(name, site.signs, "sign", (*route, event.kind))
        case "set" | "state":
            yield from _of_facts(event.sets, site, (*route, event.kind))
            for name in event.words:
                yield from _unknown(name, site.states, "state", (*route, event.kind))
        case "measure":
            kinds = {place.kind for place in site.places.values()}
            for name in event.words:
                yield from _unknown(name, (ANY, *kinds, *site.places), "place", (*route, event.kind))
    yield from _of_ends(event, site, route)
    yield from _of_facts(event.while_, site, (*route, "while"))


def _of_ends(event: Event, site: Site, route: Route) -> Iterator[Slip]:
    roles = {terminal.role for place in site.places.values() for terminal in place.terminals.values()}
    for at, name in enumerate(event.between):
        yield from _unknown(name, roles, "role of a terminal", (*route, "between", at))
    if event.between and len(event.between) != 2:
        what = f"between names the roles of two terminals; here {_count(len(event.between))}."
        yield Slip((*route, "between"), what)


def _count(number: int) -> str:
    return "stands one" if number == 1 else f"stand {number}"


def _of_facts(facts: Facts, site: Site, route: Route, *, looks: bool = False) -> Iterator[Slip]:
    for name, values in facts:
        here = (*route, name)
        if name in LOOK_FACTS:
            if not looks:
                yield Slip(here, f"{quoted(name)} can stand under need only.", key=True)
            known = sorted({SKIN_LOOK, *(look for place in site.places.values() for look in place.looks)})
            for value in values:
                yield from _unknown(value, known, "look", here)
            continue
        if name in DERIVED:
            for value in values:
                yield from _unknown(value, DERIVED[name], f"value of {name}", here)
            continue
        yield from _unknown(name, (*site.states, *DERIVED, *LOOK_FACTS), "state", here, key=True)
        if state := site.states.get(name):
            for value in values:
                yield from _unknown(value, (*state.values, *state.groups), f"value of {name}", here)


def _unknown(
    name: str, known: Iterable[str], what: str, route: Route, *, key: bool = False
) -> Iterator[Slip]:
    known = tuple(known)
    if name not in known:
        yield Slip(route, f"There is no {what} {quoted(name)}.{choose_from(name, known)}", key)
