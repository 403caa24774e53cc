"""Opening a front end: the app, plain text or JSON lines, at the start or in a walk."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from .exits import Exit
from .starting import Usage, narrate, start, take_up
from .tree.source import TreeError

if TYPE_CHECKING:
    from .journal import Keeper
    from .walk.walk import Walk

WIDEST = 100
"""A line of running text is not wider than this, however wide the terminal."""

NO_TERMINAL = """\
shorewalk needs a terminal to open in, and there is none here. Instead:
  shorewalk walk SYMPTOM --plain   plain questions and answers, one a line
  shorewalk walk SYMPTOM --jsonl   the same for programs, as JSON lines
  shorewalk --help                 everything else"""


class Asked(NamedTuple):
    """What was asked for: words for a symptom (none: the start), a meter, a walk to go on with, a front end.

    `aloud`: questions in few words, to be read to somebody else. `possible`: after each reading, what it rules out.
    """

    symptom: str = ""
    meter: str | None = None
    resume: str | None = None
    plain: bool = False
    jsonl: bool = False
    aloud: bool = False
    possible: bool = False


def told(task: Callable[[], int]) -> int:
    """Run a task; where it cannot be done, say why and return the exit code for that."""
    try:
        return task()
    except Usage as error:
        narrate(str(error))
        return Exit.USAGE
    except TreeError as error:
        narrate(str(error))
        return Exit.UNFINISHED


def open_front(asked: Asked) -> int:
    """Open the front end that was asked for; raise `Usage` or `TreeError` where that cannot be done."""
    if asked.plain and asked.jsonl:
        raise Usage("--plain and --jsonl are two ways to talk. Take one.")
    if asked.meter and asked.resume:
        raise Usage("A walk goes on with the meter it began with: leave --meter out.")
    if asked.possible and not asked.jsonl:
        raise Usage("--possible goes with --jsonl. In the app and in plain text type i.")
    if asked.jsonl:
        if asked.aloud:
            raise Usage("--aloud is for people who read to each other: leave it out with --jsonl.")
        return _by_lines(asked)
    if asked.plain or (os.environ.get("TERM") == "dumb" and (asked.symptom or asked.resume)):
        return _in_plain_text(asked)
    return _in_app(asked)


def _by_lines(asked: Asked) -> int:
    from . import jsonl

    walk, keeper = _begun(asked)
    return jsonl.run(walk, sys.stdin.buffer, sys.stdout, keeper, possible=asked.possible)


def open_walk(walk: Walk, keeper: Keeper, *, plain: bool, aloud: bool) -> int:
    """Go on with a walk that is kept already, in the app or in plain text."""
    if plain:
        return _talk(walk, keeper, aloud=aloud)
    from .app import run

    return run(walk, keeper, aloud=aloud)


def _in_plain_text(asked: Asked) -> int:
    walk, keeper = _begun(asked)
    return _talk(walk, keeper, aloud=asked.aloud)


def _talk(walk: Walk, keeper: Keeper | None, *, aloud: bool) -> int:
    from .journal import Journal, Keeper
    from .plain import Talk

    talk = Talk(walk, keeper or Keeper(Journal.open()), sys.stdin, sys.stdout, columns())
    talk.aloud = aloud
    talk.rules_out = sys.stdout.isatty()
    return talk.run(offer=keeper is None)


def _in_app(asked: Asked) -> int:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise Usage(NO_TERMINAL)
    walk, keeper = _begun(asked) if asked.symptom or asked.resume else (None, None)
    from .app import run

    return run(walk, keeper, meter=asked.meter, aloud=asked.aloud)


def columns() -> int:
    """Return how wide running text may be here."""
    from shutil import get_terminal_size

    return min(get_terminal_size().columns, WIDEST)


def _begun(asked: Asked) -> tuple[Walk, Keeper | None]:
    return take_up(asked.resume, asked.symptom) if asked.resume else (start(asked.symptom, asked.meter), None)
