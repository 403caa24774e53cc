"""Feeding recorded answers to a tree, and saying where it went otherwise than recorded."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from .exits import Exit
from .recorded import Recorded, read_recorded
from .tree.library import Library, shipped
from .tree.source import Place, Problem, TreeError
from .tree.words import quoted
from .walk.message import Ending, ending
from .walk.walk import Refused, begin

__all__ = ["Recorded", "differences", "read_recorded", "replay", "replay_files"]


def replay(recorded: Recorded, library: Library | None = None) -> tuple[Ending | None, list[Problem]]:
    """Return the ending that the recorded answers lead to, and where it went otherwise than recorded."""
    walk = begin(library or recorded.library or shipped(), recorded.walk, recorded.meter)
    for place, at, answer, time in recorded.answers:
        asked = walk.now.node.name
        if walk.ended:
            return ending(walk), [Problem(place, f'The walk ended before this answer, at "{asked}".')]
        if at not in (None, asked):
            return None, [Problem(place, f'The answer is to {quoted(at)}, but "{asked}" is asked here.')]
        try:
            walk = walk.answer(answer, time=time)
        except Refused as refused:
            return None, [Problem(place, f'"{asked}" refuses this answer: {refused.reason}')]
    if not walk.ended:
        place = recorded.answers[-1][0] if recorded.answers else Place(recorded.file, 1, 1)
        return None, [Problem(place, f'After this answer the walk goes on: "{walk.now.node.name}" is asked.')]
    end = ending(walk)
    return end, list(differences(recorded, end))


def replay_files(
    files: Iterable[Path], tell: Callable[[str], object], narrate: Callable[[str], object]
) -> int:
    """Replay every file; tell each ending or what went otherwise. Returns the worst of what they come to."""
    code = Exit.CLEAN
    for file in files:
        try:
            end, problems = replay(read_recorded(file))
        except TreeError as error:
            narrate(str(error))
            code = Exit.UNFINISHED
            continue
        for problem in problems:
            tell(str(problem))
        if problems:
            code = max(code, Exit.FINDINGS)
        elif end is not None:
            tell(f"{file}: {end.at}, {end.verdict}, call {end.call}")
    return code


def differences(recorded: Recorded, end: Ending) -> Iterable[Problem]:
    """Yield in what an ending is otherwise than recorded."""
    for place, name, wanted in recorded.ends:
        found = getattr(end, name) or "none"
        if found != wanted:
            yield Problem(place, f"The walk ends with {name} {quoted(found)}; {quoted(wanted)} is recorded.")
