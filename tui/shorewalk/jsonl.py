"""A walk for other programs: one JSON object a line each way, and nothing else on stdout.

What costs time to import and is not needed for the first question (the journal, the ending) is imported
after that question is out; every answer is on disk before the next question is printed.
"""

from __future__ import annotations

import json
from typing import IO, TYPE_CHECKING, Any

from .exits import Exit
from .starting import narrate
from .walk.answers import Read
from .walk.walk import Refused
from .wire import as_end, as_possible, as_question, as_worked, read_line, read_object, take

if TYPE_CHECKING:
    from .journal import Keeper
    from .ruling import Ruling
    from .walk.walk import Walk

ELSEWHERE = 'The walk goes on all the same. To keep it elsewhere: {"keep": "FOLDER"}'


def run(
    walk: Walk, given: IO[bytes], out: IO[str], keeper: Keeper | None = None, *, possible: bool = False
) -> Exit:
    """Walk on from `walk`, answers from `given`, questions to `out`. `keeper`: where it is kept already.

    `possible`: say after each reading which faults all readings leave possible.
    """
    ruling = _ruling() if possible else None
    _tell(walk, out, ruling, first=True)
    if walk.ended:
        if keeper:
            _news(keeper)
        return Exit.CLEAN
    if keeper is None:
        from .journal import Journal, Keeper

        keeper = Keeper(Journal.open())
    _news(keeper)
    try:
        return _walk_on(walk, given, out, keeper, ruling)
    except OSError:
        raise
    except Exception:
        _how_to_go_on(keeper)  # whatever went wrong, the answers before it are kept
        raise


def _walk_on(walk: Walk, given: IO[bytes], out: IO[str], keeper: Keeper, ruling: Ruling | None) -> Exit:
    """Take answers until the walk ends, or the lines do."""
    doubted: object = None  # a reading that counts if it comes once more
    while line := read_line(given):
        data: dict[str, Any] = {}
        try:
            data = read_object(line)
            if data.keys() == {"keep"}:
                narrate(keeper.keep_in(str(data["keep"])))
                continue
            walk = take(walk, data, doubted, keeper.clock)
        except Refused as refused:
            doubted = data.get("reading") if refused.confirm else None
            _say({"error": refused.reason} | ({"confirm": True} if refused.confirm else {}), out)
            continue
        doubted = None
        keeper.keep(walk)
        _news(keeper)
        _tell(walk, out, ruling)
        if walk.ended:
            return Exit.CLEAN
    _how_to_go_on(keeper)
    return Exit.UNFINISHED


def _how_to_go_on(keeper: Keeper) -> None:
    if how := keeper.how_to_go_on("--jsonl"):
        narrate(how)


def _tell(walk: Walk, out: IO[str], ruling: Ruling | None = None, *, first: bool = False) -> None:
    """Say what was worked out since the last answer, what is possible, then the question or the ending.

    What is possible comes after a reading, at the end, and `first` of a walk that was taken up with readings.
    """
    for worked in walk.now.worked:
        _say({"worked": as_worked(worked)}, out)
    end = as_end(walk) if walk.ended else None
    read = [isinstance(answered.answer, Read) for answered in walk.answers]
    if ruling and read and (end or (any(read) if first else read[-1])):
        ruled = ruling.look(walk, telling=True)
        _say({"possible": as_possible(ruled)}, out)
        if end:
            end["not_ruled_out"] += ruling.also(walk)
    _say({"end": end} if end else as_question(walk), out)


def _ruling() -> Ruling:
    from .ruling import Ruling

    return Ruling()


def _say(data: dict[str, Any], out: IO[str]) -> None:
    print(json.dumps(data), file=out, flush=True)


def _news(keeper: Keeper) -> None:
    if news := keeper.news(ELSEWHERE):
        narrate(news)
