"""Going from one place of plain text to another: the start, a walk, practice."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.exits import Exit
from shorewalk.hangup import end_with_terminal

from .voice import Gone

Place = Callable[[], object]
"""Where one is: it says and listens until somebody leaves it."""


class GoTo(Exception):  # noqa: N818 (no error: somebody goes somewhere else)
    """Leave where one is for another place."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


def converse(place: Place) -> Exit:
    """Be at a place, and wherever it leads, until somebody leaves; return what to exit with."""
    end_with_terminal()
    while True:
        try:
            place()
        except GoTo as go:
            place = go.place
        except Gone as gone:
            return Exit.CLEAN if gone.code is None else gone.code
        except KeyboardInterrupt:
            return Exit.CLEAN
