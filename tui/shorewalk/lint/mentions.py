"""Every word in a file that names something: what kind of thing, where, and what it belongs to.

A rule asks of each mention whether there is such a thing. In a part a mention may be a `$parameter`; what it
then names is asked where the part is put in.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from shorewalk.tree.fill import PLACEHOLDER
from shorewalk.tree.model import (
    Ask,
    Band,
    Choice,
    End,
    Judge,
    Jump,
    Measure,
    Node,
    Pairs,
    Route,
    Row,
    Step,
    Tally,
    Use,
    Way,
    Work,
    Written,
)


class Mention(NamedTuple):
    """`of` is what the word belongs to: the place of a terminal, the state of a value ...; `key`: it is a key."""

    kind: str
    word: str
    route: Route
    of: str = ""
    key: bool = False


def mentions(written: Written) -> Iterator[Mention]:
    """Yield every name in the file, in the order of its keys as far as that is known."""
    yield from _pairs(written.starts, ("starts",))
    for node in written.nodes.values():
        yield from mentions_of(node)


def mentions_of(node: Node) -> Iterator[Mention]:
    """Yield every name in a node."""
    yield from _common(node)
    yield from _own(node)


def _common(node: Node) -> Iterator[Mention]:
    for at, caution in enumerate(node.cautions):
        yield Mention("caution", caution, (*node.route, "cautions", at))
    yield from _pairs(node.needs, (*node.route, "needs"))
    yield from _way(node.spent, (*node.route, "spent"))
    for key in ("why", "hint", "group"):
        yield from _text(getattr(node, key), (*node.route, key))


def _own(node: Node) -> Iterator[Mention]:
    route = node.route
    match node:
        case Ask():
            yield from _text(node.text, (*route, "ask"))
            yield Mention("sign", node.sign, (*route, "sign"))
            for choice in node.choices:
                yield from _choice(choice, node.sign, (*route, "choices", choice.id))
            yield from _way(node.unsure, (*route, "unsure"))
        case Step():
            yield from _text(node.text, (*route, "step"))
            yield from _pairs(node.leaves, (*route, "leaves"))
            yield from _way(node.done, (*route, "done"))
            yield from _way(node.cannot, (*route, "cannot"))
        case Measure():
            yield from _measure(node)
        case Work():
            yield from _work(node)
        case Tally():
            yield from _tally(node)
        case Judge():
            for at, row in enumerate(node.rows):
                yield from _row(row, (*route, "judge", at))
            for at, name in enumerate(node.of):
                yield Mention("known", name, (*route, "of", at))
            yield from _way(node.missing, (*route, "missing"))
        case Use():
            yield Mention("part", node.part, (*route, "part"))
            for name, _ in node.with_:
                yield Mention("parameter", name, (*route, "with", name), node.part, key=True)
            for name, way in node.exits:
                yield from _way(way, (*route, "exits", name))
        case Jump():
            yield Mention("tree", node.tree, (*route, "tree"))
        case End():
            for key in ("because", "safe_action", "call_when", "say"):
                yield from _text(getattr(node, key), (*route, key))
            for at, fault in enumerate(node.not_ruled_out):
                yield Mention("fault", fault, (*route, "not_ruled_out", at))


def _measure(node: Measure) -> Iterator[Mention]:
    inner = (*node.route, "measure")
    yield Mention("place", node.place, (*inner, "place"))
    yield Mention("terminal", node.from_, (*inner, "from"), node.place)
    yield Mention("terminal", node.to, (*inner, "to"), node.place)
    if node.load.at:
        yield Mention("place", node.load.at, (*inner, "load", "at"))
    yield from _text(node.text, (*node.route, "says"))
    yield from _text(node.normal, (*node.route, "normal"))
    yield from _bands(node.bands, node.next, node.route)
    yield from _way(node.unable, (*node.route, "unable"))


def _work(node: Work) -> Iterator[Mention]:
    inner = (*node.route, "work")
    yield Mention("result", node.out, (*inner, "out"))
    yield Mention("function", node.using, (*inner, "using"))
    for argument, name in node.inputs:
        yield Mention("argument", argument, (*inner, "from", argument), node.using, key=True)
        yield Mention("number", name, (*inner, "from", argument))
    yield from _bands(node.bands, node.next, node.route)
    yield from _way(node.missing, (*node.route, "missing"))


def _tally(node: Tally) -> Iterator[Mention]:
    yield from _text(node.text, (*node.route, "tally"))
    for at, load in enumerate(node.loads):
        yield Mention("load", load, (*node.route, "from", at))
    if node.at_voltage:
        yield Mention("number", node.at_voltage, (*node.route, "at_voltage"))
    yield Mention("result", node.out, (*node.route, "out"))
    yield from _bands(node.bands, node.next, node.route)
    yield from _way(node.unsure, (*node.route, "unsure"))


def _choice(choice: Choice, sign: str, route: Route) -> Iterator[Mention]:
    yield Mention("answer", choice.id, route, sign, key=True)
    yield from _text(choice.says, (*route, "says"))
    yield from _way(choice.way, route)


def _bands(bands: tuple[Band, ...], following: Way | None, route: Route) -> Iterator[Mention]:
    yield from _way(following, (*route, "next"))
    for at, band in enumerate(bands):
        inner = (*route, "bands", at)
        for key, limit in (("below", band.below), ("upto", band.upto)):
            if limit:
                yield Mention("limit", limit, (*inner, key))
        yield from _way(band.way, inner)


def _row(row: Row, route: Route) -> Iterator[Mention]:
    for asked in row.when:
        inner = (*route, "when", asked.node)
        if asked.choice:
            yield Mention("answered", asked.node, inner, asked.choice, key=True)
            continue
        yield Mention("number", asked.node, inner, key=True)
        cuts = (("from", asked.from_), ("above", asked.above), ("below", asked.below), ("upto", asked.upto))
        for key, limit in cuts:
            if limit:
                yield Mention("limit", limit, (*inner, key))
    yield from _pairs(row.while_, (*route, "while"))
    yield from _way(row.way, route)


def _way(way: Way | None, route: Route) -> Iterator[Mention]:
    if way:
        yield Mention("goto", way.goto, (*route, "goto"))
        yield from _pairs(way.leaves, (*route, "leaves"))


def _pairs(pairs: Pairs, route: Route) -> Iterator[Mention]:
    for state, value in pairs:
        yield Mention("state", state, (*route, state), key=True)
        yield Mention("value", value, (*route, state), state)


def _text(text: str | None, route: Route) -> Iterator[Mention]:
    if text and text.startswith("$"):
        yield Mention("words", text, route)
    names: Iterable[str] = PLACEHOLDER.findall(text) if text else ()
    for name in names:
        yield Mention("placeholder", name, route)
