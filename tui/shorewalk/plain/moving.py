"""Going from one place of plain text to another: the start, a walk, practice."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.exits import Exit
from shorewalk.hangup import end_with_terminal

from .leaving import gone_at_last, interrupted
from .session import Session
from .voice import Gone

Place = Callable[[], object]
"""Where one is: it says and listens until somebody leaves it."""


class GoTo(Exception):  # noqa: N818 (no error: somebody goes somewhere else)
    """Leave where one is for another place."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


def converse(place: Place, session: Session) -> Exit:
    """Be at a place, and wherever it leads, until somebody leaves; return what to exit with."""
    end_with_terminal()
    while True:
        try:
            try:
                place()
            except KeyboardInterrupt:
                interrupted(session)
        except GoTo as go:
            place = go.place
        except Gone as gone:
            return gone_at_last(session) if gone.code is None else gone.code
