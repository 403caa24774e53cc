"""From the plain data of one node to its frozen dataclass; one function a kind, and the table of kinds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from .model import Ask, End, Judge, Jump, Load, Measure, Node, Route, Step, Tally, Use, Work
from .pieces import make_bands, make_choice, make_load, make_row, make_way, take_count
from .source import Data
from .take import Mistake, maybe, take_list, take_map, take_only, take_pairs, take_word, take_words, take_yes
from .words import quoted

COMMON = frozenset({"why", "hint", "group", "cautions", "needs", "at_most", "spent", "allows"})
KEYS: Mapping[str, frozenset[str]] = {
    "ask": frozenset({"sign", "choices", "unsure"}),
    "step": frozenset({"leaves", "done", "cannot"}),
    "measure": frozenset({"says", "normal", "next", "bands", "unable"}),
    "work": frozenset({"next", "bands", "missing"}),
    "tally": frozenset({"from", "at_voltage", "out", "next", "bands", "unsure", "nothing"}),
    "judge": frozenset({"of", "missing"}),
    "part": frozenset({"with", "exits"}),
    "tree": frozenset(),
    "end": frozenset({"because", "safe_action", "call", "call_when", "first", "say", "not_ruled_out"}),
}
"""Kinds of node by the key that makes them one, and the keys each may have beside `COMMON`."""


def build_node(name: str, data: Data, file: str) -> Node:
    """Return the node `name`; raise `Mistake` at what cannot be understood."""
    route: Route = ("nodes", name)
    node = take_map(data, route)
    kinds = [kind for kind in KEYS if kind in node]
    if len(kinds) != 1:
        found = f"has {' and '.join(kinds)}" if kinds else "has none of them"
        raise Mistake(route, f"A node is one of {', '.join(KEYS)}; {quoted(name)} {found}.", key=True)
    kind = kinds[0]
    take_only(node, COMMON | KEYS[kind] | {kind}, route)
    common: dict[str, Any] = {"name": name, "file": file, "route": route}
    if not COMMON.isdisjoint(node):
        common |= {
            "why": maybe(take_word, node, "why", route),
            "hint": maybe(take_word, node, "hint", route),
            "group": maybe(take_word, node, "group", route),
            "cautions": take_words(node, "cautions", route),
            "needs": take_pairs(node, "needs", route),
            "at_most": maybe(take_count, node, "at_most", route),
            "spent": maybe(make_way, node, "spent", route),
            "allows": take_pairs(node, "allows", route),
        }
    return MAKERS[kind](node, route, common)


def _ask(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    choices = take_map(node.get("choices"), (*route, "choices"))
    return Ask(
        **common,
        text=take_word(node["ask"], (*route, "ask")),
        sign=take_word(node.get("sign"), (*route, "sign")),
        choices=tuple(
            make_choice(name, choice, (*route, "choices", name)) for name, choice in choices.items()
        ),
        unsure=maybe(make_way, node, "unsure", route),
    )


def _step(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    return Step(
        **common,
        text=take_word(node["step"], (*route, "step")),
        leaves=take_pairs(node, "leaves", route),
        done=make_way(node.get("done"), (*route, "done")),
        cannot=maybe(make_way, node, "cannot", route),
    )


def _measure(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    inner = (*route, "measure")
    measure = take_map(node["measure"], inner)
    take_only(measure, frozenset({"what", "place", "from", "to", "load", "meter"}), inner)
    return Measure(
        **common,
        what=take_word(measure.get("what"), (*inner, "what")),
        place=take_word(measure.get("place"), (*inner, "place")),
        from_=take_word(measure.get("from"), (*inner, "from")),
        to=take_word(measure.get("to"), (*inner, "to")),
        load=maybe(make_load, measure, "load", inner) or Load(),
        meter=maybe(take_word, measure, "meter", inner) or "normal",
        text=maybe(take_word, node, "says", route),
        normal=maybe(take_word, node, "normal", route),
        next=maybe(make_way, node, "next", route),
        bands=make_bands(node, route),
        unable=maybe(make_way, node, "unable", route),
    )


def _work(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    inner = (*route, "work")
    work = take_map(node["work"], inner)
    take_only(work, frozenset({"out", "using", "from"}), inner)
    return Work(
        **common,
        out=take_word(work.get("out"), (*inner, "out")),
        using=take_word(work.get("using"), (*inner, "using")),
        inputs=take_pairs(work, "from", inner),
        next=maybe(make_way, node, "next", route),
        bands=make_bands(node, route),
        missing=maybe(make_way, node, "missing", route),
    )


def _tally(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    return Tally(
        **common,
        text=take_word(node["tally"], (*route, "tally")),
        loads=take_words(node, "from", route),
        at_voltage=maybe(take_word, node, "at_voltage", route),
        out=maybe(take_word, node, "out", route) or "total-amps",
        next=maybe(make_way, node, "next", route),
        bands=make_bands(node, route),
        unsure=maybe(make_way, node, "unsure", route),
        nothing=bool(maybe(take_yes, node, "nothing", route)),
    )


def _judge(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    inner = (*route, "judge")
    rows = enumerate(take_list(node["judge"], inner))
    return Judge(
        **common,
        rows=tuple(make_row(row, (*inner, at)) for at, row in rows),
        of=take_words(node, "of", route),
        missing=maybe(make_way, node, "missing", route),
    )


def _use(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    exits = take_map(node.get("exits", {}), (*route, "exits"))
    return Use(
        **common,
        part=take_word(node["part"], (*route, "part")),
        with_=take_pairs(node, "with", route),
        exits=tuple((name, make_way(way, (*route, "exits", name))) for name, way in exits.items()),
    )


def _jump(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    return Jump(**common, tree=take_word(node["tree"], (*route, "tree")))


def _end(node: dict[str, Data], route: Route, common: dict[str, Any]) -> Node:
    return End(
        **common,
        verdict=take_word(node["end"], (*route, "end")),
        because=take_word(node.get("because"), (*route, "because")),
        safe_action=maybe(take_word, node, "safe_action", route),
        call=maybe(take_word, node, "call", route),
        call_when=maybe(take_word, node, "call_when", route),
        first=maybe(take_word, node, "first", route),
        say=maybe(take_word, node, "say", route),
        not_ruled_out=take_words(node, "not_ruled_out", route),
    )


MAKERS: Mapping[str, Callable[[dict[str, Data], Route, dict[str, Any]], Node]] = {
    "ask": _ask,
    "step": _step,
    "measure": _measure,
    "work": _work,
    "tally": _tally,
    "judge": _judge,
    "part": _use,
    "tree": _jump,
    "end": _end,
}
