"""All that the app does, in plain sentences, one thing at a time: for screen readers, simple terminals, and pipes."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from .talk import Talk

if TYPE_CHECKING:
    from shorewalk.exits import Exit
    from shorewalk.journal import Keeper
    from shorewalk.walk.meter import Meter
    from shorewalk.walk.walk import Walk

    from .session import Session
    from .voice import Room

__all__ = ["Talk", "start_in", "talk_of"]


def start_in(room: Room, meter: Meter | None = None, *, aloud: bool = False) -> Exit:
    """Begin at the start, on the usual streams; return what to exit with."""
    from .moving import converse
    from .start import Start

    session = _session(room, meter, aloud=aloud)
    return converse(Start(session).run, session)


def talk_of(
    walk: Walk, keeper: Keeper | None, room: Room, meter: Meter | None = None, *, aloud: bool = False
) -> Talk:
    """Return the talk about a walk, on the usual streams; without a keeper it is a new one."""
    from shorewalk.journal import Keeper

    session = _session(room, meter, keeper, aloud=aloud)
    return Talk(walk, keeper or Keeper(session.journal), session=session)


def _session(room: Room, meter: Meter | None = None, keeper: Keeper | None = None, *, aloud: bool) -> Session:
    from shorewalk.journal import Journal

    from .session import Session
    from .voice import Voice

    journal = keeper.journal if keeper else Journal.open()
    voice = Voice(sys.stdin, sys.stdout, room)
    session = Session(voice, journal, aloud=aloud, rules_out=voice.on_a_terminal())
    if meter is not None:
        session.meter, session.meter_set = meter, True
    return session
