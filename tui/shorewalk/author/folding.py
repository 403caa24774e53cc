"""Many recorded walks folded at once: what several have in common from the beginning is folded once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shorewalk.journal import meter_text
from shorewalk.recorded import Recorded
from shorewalk.tree.library import Library
from shorewalk.tree.source import Problem
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk

from .trail import Timed, tracing


def folded(library: Library, recorded: Iterable[Recorded]) -> Iterator[tuple[Recorded, Walk | Problem]]:
    """Yield each walk after all its answers, with the ways it went, or the problem of the answer that is refused."""
    begun: tuple[str, str] | None = None
    path: list[tuple[Timed, Walk]] = []
    for one in sorted(recorded, key=_order):
        if begun != (begun := (one.walk, meter_text(one.meter))):
            first, path = tracing(library, one.walk, one.meter), []
        yield one, _fold(one, first, path)


def _order(one: Recorded) -> tuple[str, str, list[tuple[str, str]]]:
    answers = [(repr(answer), time or "") for _, _, answer, time in one.answers]
    return one.walk, meter_text(one.meter), answers


def _fold(one: Recorded, first: Walk, path: list[tuple[Timed, Walk]]) -> Walk | Problem:
    """Fold a walk, and leave in `path` every answer with the walk after it."""
    for at, (place, _, answer, time) in enumerate(one.answers):
        timed = (answer, time)
        if at < len(path) and path[at][0] == timed:
            continue
        del path[at:]
        try:
            path.append((timed, (path[-1][1] if path else first).answer(answer, time)))
        except Refused as refused:
            return Problem(place, f"This answer is refused: {refused.reason}")
    del path[len(one.answers) :]
    return path[-1][1] if path else first
