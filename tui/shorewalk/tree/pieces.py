"""The pieces of nodes from plain data: ways, choices, loads, bands, rows and their conditions."""

from __future__ import annotations

from .model import Band, Choice, Condition, Load, Route, Row, Way
from .source import Data
from .take import Mistake, maybe, take_list, take_map, take_only, take_pairs, take_word
from .words import quoted


def make_way(data: Data | None, route: Route) -> Way:
    """Return a way out, from a name or from keys."""
    return way_among(data, route) if isinstance(data, dict) else Way(take_word(data, route))


def way_among(data: dict[str, Data], route: Route, *beside: str) -> Way:
    """Return the way among the keys of something that may have others `beside`."""
    take_only(data, frozenset({"goto", "grade", "leaves", *beside}), route)
    return Way(
        take_word(data.get("goto"), (*route, "goto")),
        maybe(take_word, data, "grade", route),
        take_pairs(data, "leaves", route),
    )


def make_choice(name: str, data: Data, route: Route) -> Choice:
    """Return an answer with its way."""
    choice = take_map(data, route)
    return Choice(name, take_word(choice.get("says"), (*route, "says")), way_among(choice, route, "says"))


def make_load(data: Data, route: Route) -> Load:
    """Return what current flows while a reading is taken."""
    load = take_map(data, route)
    take_only(load, frozenset({"amount", "at"}), route)
    return Load(take_word(load.get("amount"), (*route, "amount")), maybe(take_word, load, "at", route))


def make_bands(node: dict[str, Data], route: Route) -> tuple[Band, ...]:
    """Return the bands of a node, none where there are none."""
    inner = (*route, "bands")
    return tuple(
        Band(
            way_among(band := take_map(data, (*inner, at)), (*inner, at), "below", "upto"),
            maybe(take_word, band, "below", (*inner, at)),
            maybe(take_word, band, "upto", (*inner, at)),
        )
        for at, data in enumerate(take_list(node.get("bands", []), inner))
    )


def make_row(data: Data, route: Route) -> Row:
    """Return a row of a judge."""
    row = take_map(data, route)
    when = take_map(row.get("when", {}), (*route, "when"))
    return Row(
        way_among(row, route, "when", "while", "worst", "lacks"),
        tuple(make_condition(name, asked, (*route, "when", name)) for name, asked in when.items()),
        take_pairs(row, "while", route),
        maybe(take_word, row, "worst", route),
        maybe(take_word, row, "lacks", route),
    )


def make_condition(node: str, data: Data, route: Route) -> Condition:
    """Return what a row asks of one node."""
    if isinstance(data, str):
        return Condition(node, choice=take_word(data, route))
    span = take_map(data, route)
    take_only(span, frozenset({"from", "above", "below", "upto"}), route)
    cuts = {
        ("from_" if key == "from" else key): take_word(value, (*route, key)) for key, value in span.items()
    }
    return Condition(node, **cuts)


def take_count(data: Data, route: Route) -> int:
    """Return a whole number from 1 to 99."""
    word = take_word(data, route)
    if not (word.isascii() and word.isdigit() and 0 < int(word) < 100):
        raise Mistake(route, f"{quoted(word)} is not a count. Write a whole number from 1 to 99.")
    return int(word)
