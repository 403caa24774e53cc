"""When the site is asked for: once in a stay, never where somebody must act at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shorewalk.journal import Entry
from shorewalk.journal.where import GONE, Where, here, last
from shorewalk.tree.facts import Site

ACT_FIRST = "act-now"
"""The heading of trees that wait for nothing."""
COMING = "arrival"
"""The tree of those who just came: they are somewhere else than before."""


class Asking(NamedTuple):
    """The question for the site; `offered` is the one they were at last, if that may be it still."""

    offered: Where | None


def asking(tree: str, entries: Sequence[Entry], site: Site, now: str) -> Asking | None:
    """Return the question for the site before a walk in `tree`; None where it is not to be asked.

    `entries` are all kept walks, the latest first.
    """
    heading = site.headings.get(ACT_FIRST)
    if tree in GONE or (heading and tree in heading.trees):
        return None
    if here(entries, now) is not None and tree != COMING:
        return None
    return Asking(last(entries, now))
