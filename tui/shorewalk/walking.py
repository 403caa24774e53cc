"""Starting the front ends that walk by lines: plain text and JSON."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from .exits import Exit
from .starting import Usage, narrate, start, take_up
from .tree.source import TreeError

if TYPE_CHECKING:
    from .journal import Keeper
    from .walk.walk import Walk

WIDEST = 100
"""A line of running text is not wider than this, however wide the terminal."""


def by_lines(symptom: str, meter: str | None, resume: str | None) -> int:
    """Walk by JSON lines on stdin and stdout."""
    from . import jsonl

    try:
        walk, keeper = _begun(symptom, meter, resume)
    except Usage as error:
        narrate(str(error))
        return Exit.USAGE
    except TreeError as error:
        narrate(str(error))
        return Exit.UNFINISHED
    return jsonl.run(walk, sys.stdin.buffer, sys.stdout, keeper)


def in_plain_text(symptom: str, meter: str | None, resume: str | None) -> int:
    """Walk in plain sentences on stdin and stdout."""
    from shutil import get_terminal_size

    from .journal import Journal, Keeper
    from .plain import Talk

    walk, keeper = _begun(symptom, meter, resume)
    room = min(get_terminal_size().columns, WIDEST)
    talk = Talk(walk, keeper or Keeper(Journal.open()), sys.stdin, sys.stdout, room)
    return talk.run() if keeper else talk.offer_unfinished().run()


def _begun(symptom: str, meter: str | None, resume: str | None) -> tuple[Walk, Keeper | None]:
    return take_up(resume, symptom) if resume else (start(symptom, meter), None)
