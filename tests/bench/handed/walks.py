"""Recorded walks, as a file hands them over."""

from __future__ import annotations

from typing import Any

from shorewalk.folders import demo_data
from shorewalk.handing import Handed
from shorewalk.journal import meter_text
from shorewalk.journal.content import content_of
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.walk import Walk, begin

AT = "2026-05-01T12:{:02}:{:02}Z"
"""Times of the answers, ten seconds apart."""
WRITTEN, SOON, LATER = "2026-05-01T13:00:00Z", "2026-05-01T13:01:00Z", "2026-05-01T17:00:00Z"
NAME = "0123456789abcdef0123456789abcdef"
LONG = "arrival-50-good"
"""A recorded walk of every kind of answer, with an ending that nothing but good readings lead to."""


def walked(name: str = LONG, upto: int | None = None) -> Walk:
    """Return a recorded walk, as far as its first `upto` answers, an answer every ten seconds."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for n, (_, _, answer, _) in enumerate(recorded.answers[:upto]):
        walk = walk.answer(answer, time=AT.format(n // 6, n % 6 * 10))
    return walk


def handed_of(walk: Walk, **other: object) -> Handed:
    """Return a walk as a file has it."""
    handed = Handed(
        id=NAME,
        tree=walk.tree,
        shipped=True,
        meter=meter_text(walk.meter),
        written=WRITTEN,
        answers=walk.answers,
        content=content_of(walk),
        site="14",
        park="Someday Flats",
    )
    values: dict[str, Any] = {name: getattr(handed, name) for name in Handed.__dataclass_fields__}
    return Handed(**(values | other))
