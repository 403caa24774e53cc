"""Opening a front end: the app, plain text or JSON lines, at the start or in a walk."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from .exits import Exit
from .starting import Usage, meter_of, narrate, start, take_up
from .tree.source import TreeError

if TYPE_CHECKING:
    from .journal import Keeper
    from .walk.walk import Walk

WIDEST = 100
"""A line of running text is not wider than this, however wide the terminal."""

NO_DRAWING = ("", "dumb", "unknown")
"""Names of terminals of which nothing is known that could draw."""

NO_TERMINAL = """\
shorewalk needs a terminal to open in, and there is none here. Instead:
  shorewalk --plain                plain questions and answers, one a line
  shorewalk walk SYMPTOM --jsonl   the same for programs, as JSON lines
  shorewalk --help                 everything else"""

NO_TERMINAL_OVER_SSH = """\
shorewalk needs a terminal to open in, and ssh asks for none where a command is named. Ask for one with -t:
  ssh -t HOST shorewalk"""


class Asked(NamedTuple):
    """What was asked for: words for a symptom (none: the start), a meter, a walk to go on with, a front end.

    `aloud`: questions in few words, to be read to somebody else. `possible`: after each reading, what it rules out.
    `look`: how the app looks.
    """

    symptom: str = ""
    meter: str | None = None
    resume: str | None = None
    plain: bool = False
    jsonl: bool = False
    aloud: bool = False
    possible: bool = False
    look: str | None = None


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
    if asked.look:
        _look(asked.look)
    if asked.jsonl:
        if asked.aloud:
            raise Usage("--aloud is for people who read to each other: leave it out with --jsonl.")
        return _by_lines(asked)
    if asked.plain or (sys.stdout.isatty() and draws_nothing()):
        return _in_plain_text(asked)
    return _in_app(asked)


def _look(name: str) -> None:
    """Let whatever is opened look so."""
    from .looks import ASKED, named

    try:
        os.environ[ASKED] = named(name, "--look")
    except ValueError as error:
        raise Usage(str(error)) from None


def draws_nothing() -> bool:
    """Tell whether no app can be shown here: no terminal, or one that can draw nothing."""
    plain = os.environ.get("TERM", "") in NO_DRAWING and os.name != "nt"
    return plain or not on_a_terminal()


def on_a_terminal() -> bool:
    """Tell whether somebody sits here: what is typed and what is shown both are a terminal's."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def _by_lines(asked: Asked) -> int:
    from . import jsonl

    walk, keeper = _begun(asked)
    return jsonl.run(walk, sys.stdin.buffer, sys.stdout, keeper, possible=asked.possible)


def open_walk(walk: Walk, keeper: Keeper, *, plain: bool, aloud: bool) -> int:
    """Go on with a walk that is kept already, in the app or in plain text."""
    if plain:
        from .plain import talk_of

        return talk_of(walk, keeper, columns, aloud=aloud).run()
    from .app import run

    return run(walk, keeper, aloud=aloud)


def _in_plain_text(asked: Asked) -> int:
    from .plain import start_in, talk_of

    meter = meter_of(asked.meter) if asked.meter else None
    if not (asked.symptom or asked.resume):
        return start_in(columns, meter, aloud=asked.aloud)
    walk, keeper = _begun(asked)
    return talk_of(walk, keeper, columns, meter, aloud=asked.aloud).run(offer=keeper is None)


def _in_app(asked: Asked) -> int:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise Usage(NO_TERMINAL_OVER_SSH if os.environ.get("SSH_CONNECTION") else NO_TERMINAL)
    if asked.meter:
        meter_of(asked.meter)
    walk, keeper = _begun(asked) if asked.symptom or asked.resume else (None, None)
    from .app import run

    return run(walk, keeper, meter=asked.meter, aloud=asked.aloud)


def columns() -> int:
    """Return how wide running text may be here."""
    from shutil import get_terminal_size

    return min(get_terminal_size().columns, WIDEST)


def _begun(asked: Asked) -> tuple[Walk, Keeper | None]:
    return take_up(asked.resume, asked.symptom) if asked.resume else (start(asked.symptom, asked.meter), None)
