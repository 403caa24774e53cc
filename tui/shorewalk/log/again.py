"""The same readings once more: a short walk, begun with what has not changed since the last one here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from shorewalk.journal import Entry, Journal
from shorewalk.journal.ago import minutes_between
from shorewalk.journal.journal import meter_of
from shorewalk.journal.where import MONTH, Where, here, stay_at, where_of
from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask
from shorewalk.tree.words import choose_from, quoted
from shorewalk.walk.answers import Answer, Choose
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk, begin

from .kept import Kept
from .stays import key_of

TREE = "read-again"
OUTLET, TENTHS = "outlet-used", "tenths"
"""Signs that are told once in a stay: the outlet of the cord, and what this meter shows. Nothing that one looks at."""
LOOKED_BACK = 5
"""So many walks are gone through for it."""


class Again(NamedTuple):
    """The walk to go on with, and where it is."""

    walk: Walk
    where: Where | None


def read_again(
    journal: Journal, library: Library, meter: Meter, where: Where | None = None, *, own: bool = False
) -> Again:
    """Begin to read again, at the first question that only the present can answer; `where` if not here.

    `meter` is for where no walk of this stay has one, or the person set it: their `own`. Without an earlier walk of
    the stay it begins at the first question. Raises `KeyError` where the tree is missing.
    """
    if TREE not in library.names():
        raise KeyError(f"There is no tree {quoted(TREE)}.{choose_from(TREE, library.names())}")
    now, kept = journal.clock(), journal.walks()
    if where and not any(
        _same_stay(one, where) and minutes_between(one.changed, now) < MONTH for one in kept
    ):
        where = stay_at([], where, now)._replace(outlet=None)
    where = where or here(kept, now)
    before = list(_before(journal, where))
    if before and not own:
        meter = meter_of(before[0])
    return Again(_answered(begin(library, TREE, meter), _lasting(journal, before, meter), now), where)


def _same_stay(entry: Entry, where: Where) -> bool:
    there = where_of(entry)
    return (key_of(there), there.visited) == (key_of(where), where.visited)


def _before(journal: Journal, where: Where | None) -> Iterator[Entry]:
    """Yield the last walks of this stay that came to their end."""
    entries = [entry for entry in journal.finished() if where and _same_stay(entry, where)]
    yield from entries[:LOOKED_BACK]


def _lasting(journal: Journal, entries: Iterable[Entry], meter: Meter) -> dict[str, Answer]:
    found: dict[str, Answer] = {}
    for entry in entries:
        walk = Kept(journal, entry).walk
        if walk is None:
            continue
        lasts = (OUTLET, TENTHS) if walk.meter == meter else (OUTLET,)
        for known in walk.now.known:
            answer = walk.answers[known.index].answer
            if known.sign and known.sign in lasts and isinstance(answer, Choose):
                found.setdefault(known.sign, answer)
    return found


def _answered(walk: Walk, lasting: Mapping[str, Answer], now: str) -> Walk:
    while isinstance(node := walk.now.node, Ask) and node.sign in lasting:
        walk = walk.answer(lasting[node.sign], time=now)
    return walk
