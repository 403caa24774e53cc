"""A walk as the journal lists it."""

from __future__ import annotations

import json
from typing import Any, NamedTuple


class Entry(NamedTuple):
    """Times are ISO 8601 in UTC; `ending` is None while the walk is unfinished.

    `uuid` is the same wherever a walk is carried. `content` is what its trees were when it was last answered.
    `park`, `site`, `outlet` and `visited` are where and when, as somebody put it; None where nobody did.
    `placed` tells how the walk came to be there: `SAID` of it, `HANDED` with it, None: as the walk before.
    """

    id: int
    tree: str
    folder: str | None  # of trees that are not the shipped ones
    meter: str
    begun: str
    changed: str
    answers: int
    ending: dict[str, Any] | None = None
    uuid: str = ""
    content: str | None = None
    park: str | None = None
    site: str | None = None
    outlet: str | None = None
    visited: str | None = None
    placed: str | None = None


SAID, HANDED = "said", "handed"
LABELS = ("park", "site", "outlet", "visited")


def entry_of(row: tuple[Any, ...]) -> Entry:
    """Return the entry for a row of the listing."""
    entry = Entry._make(row)
    return entry._replace(ending=None if entry.ending is None else _object_in(str(entry.ending)))


def _object_in(text: str) -> dict[str, Any]:
    """Return the object that a text is; an empty one where it is none: the walk did end, however damaged that is."""
    try:
        data = json.loads(text)
    except ValueError:
        return {}
    return data if isinstance(data, dict) else {}
