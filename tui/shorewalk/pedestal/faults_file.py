"""A file of faults as it is written, and what is said of one that cannot be understood."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields
from pathlib import Path

from shorewalk.tree.library import shipped
from shorewalk.tree.model import Route
from shorewalk.tree.site import facts_of
from shorewalk.tree.source import Data, read_bytes, read_source
from shorewalk.tree.take import Mistake, take_list, take_map, take_number, take_only, take_word, take_words
from shorewalk.tree.words import choose_from, listed, quoted

from .edits import EDITS, Edit, Span
from .faults import Fault, Signs
from .faults_tried import try_fault
from .park import ANGLES, OUTLETS, Park

SIDES = ("park", "cord", "rig")
DANGERS = ("kills", "burns", "ruins", "none")
SERVICES = ("one-hot", *ANGLES)
KEYS = frozenset(field.name for field in fields(Fault)) - {"id", "service"}
WRITTEN = {"trips_at": "trips-at"}
"""Keys that a file writes otherwise."""


def faults_in(file: Path) -> dict[str, Fault]:
    """Return the faults in a file by id; raise `TreeError` for what cannot be understood."""
    return facts_of(read_source(read_bytes(file), str(file)), _fault)


def _fault(name: str, data: dict[str, Data], route: Route) -> Fault:
    take_only(data, frozenset(WRITTEN.get(key, key) for key in KEYS), route)
    park = take_map(data.get("park", {}), (*route, "park"))
    known = {each.name for each in fields(Park)}
    for key in park:
        if key not in known:
            what = f"The loop has no {quoted(key)}.{choose_from(key, known)}"
            raise Mistake((*route, "park", key), what, key=True)
    contacts = take_map(data.get("contacts", {}), (*route, "contacts"))
    fault = Fault(
        name,
        take_word(data.get("says"), (*route, "says")),
        _of(take_words(data, "names", route), shipped().site.faults, (*route, "names")),
        _one_of(data, "side", SIDES, route),
        _one_of(data, "danger", DANGERS, route),
        _of(take_words(data, "outlets", route), OUTLETS, (*route, "outlets")) or tuple(OUTLETS),
        _one_of(park, "service", SERVICES, (*route, "park")) if "service" in park else None,
        {key: _span(value, (*route, "park", key)) for key, value in park.items() if key != "service"},
        _edits(data, "edits", route),
        {key: _span(value, (*route, "contacts", key)) for key, value in contacts.items()},
        take_words(data, "stuck", route),
        int(take_number(data.get("idle", "0"), (*route, "idle"))),
        _one_of(data, "tripped", ("yes", "no"), route, "no") == "yes",
        _edits(data, "rig", route),
        _maybe_span(data, "load", route),
        _maybe_span(data, "trips-at", route),
        _one_of(data, "charger", ("alive", "dead"), route, "alive"),
        _maybe_span(data, "battery", route),
        _signs(data, "signs", route),
        _signs(data, "used", route),
        _of(take_words(data, "trees", route), shipped().names(), (*route, "trees")),
    )
    try_fault(fault, route)
    return fault


def _edits(data: dict[str, Data], key: str, route: Route) -> tuple[Edit, ...]:
    edits = take_list(data.get(key, []), (*route, key))
    return tuple(_edit(take_map(one, (*route, key, at)), (*route, key, at)) for at, one in enumerate(edits))


def _edit(data: dict[str, Data], route: Route) -> Edit:
    if len(data) != 1 or (kind := next(iter(data))) not in EDITS:
        raise Mistake(route, f"An edit is one of {listed(EDITS)}.")
    at, value = (*route, kind), data[kind]
    if kind == "open":
        return Edit(kind, (take_word(value, at),))
    if kind == "swap":
        names = take_words(data, kind, route)
        if len(names) != 2:
            raise Mistake(at, "Write two elements that change places.")
        return Edit(kind, names)
    inner = take_map(value, at)
    if len(inner) != 1:
        raise Mistake(at, "Write one element, and another edit for the next.")
    name, value = next(iter(inner.items()))
    if kind == "set":
        return Edit(kind, (name,), _span(value, (*at, name)))
    if kind == "move":
        return Edit(kind, (name, take_word(value, (*at, name))))
    ends = take_words(inner, name, at)
    if len(ends) != 4:
        raise Mistake((*at, name), "Write two nodes and the ohms between them, low and high.")
    return Edit(kind, (name, *ends[:2]), _span([*ends[2:]], (*at, name)))


def _signs(data: dict[str, Data], key: str, route: Route) -> Signs:
    known = shipped().site.signs
    found: dict[str, tuple[str, ...]] = {}
    for sign, value in take_map(data.get(key, {}), (*route, key)).items():
        at = (*route, key, sign)
        if sign not in known:
            what = f"There is no sign {quoted(sign)} in signs.yaml.{choose_from(sign, known)}"
            raise Mistake(at, what, key=True)
        answers = (
            take_words({sign: value}, sign, at[:-1]) if isinstance(value, list) else (take_word(value, at),)
        )
        found[sign] = _of(answers, known[sign].answers, at)
    return found


def _of(
    words: tuple[str, ...], allowed: Iterable[str] | Mapping[str, object], route: Route
) -> tuple[str, ...]:
    """Return the words, each of them allowed."""
    known = list(allowed)
    for at, word in enumerate(words):
        if word not in known:
            here = (*route, at) if len(words) > 1 or route[-1] in KEYS else route
            raise Mistake(here, f"{quoted(word)} is not known here.{choose_from(word, known)}")
    return words


def _one_of(
    data: dict[str, Data], key: str, allowed: tuple[str, ...], route: Route, usual: str | None = None
) -> str:
    word = take_word(data.get(key, usual), (*route, key))
    if word not in allowed:
        raise Mistake((*route, key), f"{quoted(word)} is not known here.{choose_from(word, allowed)}")
    return word


def _maybe_span(data: dict[str, Data], key: str, route: Route) -> Span | None:
    return _span(data[key], (*route, key)) if key in data else None


def _span(data: Data, route: Route) -> Span:
    """Return one number as a range, or the two of a list."""
    ends = data if isinstance(data, list) else [data, data]
    if len(ends) != 2:
        raise Mistake(route, "Write one number, or two: the low one and the high one.")
    low, high = (take_number(each, route) for each in ends)
    if not 0 < low <= high:
        raise Mistake(route, "Write numbers over 0, the low one first.")
    return low, high
