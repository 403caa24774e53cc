"""The same readings once more: a short walk, begun with what has not changed since the last one here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from shorewalk.journal import Entry, Journal
from shorewalk.journal.journal import meter_of
from shorewalk.journal.where import Where, here, where_of
from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask
from shorewalk.tree.words import choose_from, quoted
from shorewalk.walk.answers import Answer, Choose
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.walk import Walk, begin

from .kept import Kept
from .stays import key_of

TREE = "read-again"
LASTING = ("outlet-used", "tenths")
"""Signs that are told once in a stay: the outlet of the cord, and what the meter shows. Nothing that one looks at."""
LOOKED_BACK = 5
"""So many walks are gone through for it."""


class Again(NamedTuple):
    """The walk to go on with, and where it is."""

    walk: Walk
    where: Where | None


def read_again(journal: Journal, library: Library, meter: Meter, where: Where | None = None) -> Again:
    """Begin to read again, at the first question that only the present can answer; `where` if not here.

    Without an earlier walk it begins at the first question, with `meter`. Raises `KeyError` where the tree is missing.
    """
    if TREE not in library.names():
        raise KeyError(f"There is no tree {quoted(TREE)}.{choose_from(TREE, library.names())}")
    now = journal.clock()
    where = where or here(journal.walks(), now)
    before = list(_before(journal, where))
    walk = begin(library, TREE, meter_of(before[0]) if before else meter)
    return Again(_answered(walk, _lasting(journal, before), now), where)


def _before(journal: Journal, where: Where | None) -> Iterator[Entry]:
    """Yield the last walks there that came to their end."""
    entries = [entry for entry in journal.finished() if where and key_of(where_of(entry)) == key_of(where)]
    yield from entries[:LOOKED_BACK]


def _lasting(journal: Journal, entries: Iterable[Entry]) -> dict[str, Answer]:
    found: dict[str, Answer] = {}
    for entry in entries:
        walk = Kept(journal, entry).walk
        if walk is None:
            continue
        for known in walk.now.known:
            answer = walk.answers[known.index].answer
            if known.sign in LASTING and isinstance(answer, Choose):
                found.setdefault(known.sign, answer)
    return found


def _answered(walk: Walk, lasting: Mapping[str, Answer], now: str) -> Walk:
    while isinstance(node := walk.now.node, Ask) and node.sign in lasting:
        walk = walk.answer(lasting[node.sign], time=now)
    return walk
