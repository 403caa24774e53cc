"""What goes wrong in a shared login shows a line, and neither paths nor answers."""

from __future__ import annotations

import io
import sys
from contextlib import nullcontext
from pathlib import Path

import pytest

from shorewalk.app import ShorewalkApp
from shorewalk.exits import Exit
from shorewalk.guard import keys, opening
from shorewalk.guard.asking import Wish
from shorewalk.guard.command import _open
from shorewalk.journal import Journal
from shorewalk.journal.store import connect_in_memory
from shorewalk.reach import WENT_WRONG


class Tty(io.StringIO):
    """Text that says it is a terminal."""

    def isatty(self) -> bool:
        return True

    def fileno(self) -> int:
        return 0


def test_plain_text_that_fails_says_so_in_a_line(ann: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error nobody thought of ends the login with that line, and no traceback."""
    del ann

    def fail(_: Wish) -> int:
        raise ZeroDivisionError("at /home/family/secret")

    said = Tty()
    monkeypatch.setattr(opening, "open_wish", fail)
    monkeypatch.setattr(keys, "keys_taken", lambda _: nullcontext())
    monkeypatch.setattr(sys, "stdin", Tty())
    monkeypatch.setattr(sys, "stdout", Tty())
    monkeypatch.setattr(sys, "stderr", said)
    assert _open(Wish(), plain=True) == Exit.UNFINISHED
    assert said.getvalue() == f"{WENT_WRONG}\n"


async def test_the_app_that_fails_says_so_in_a_line(ann: Path) -> None:
    """The library would print a traceback with all that its functions hold; here it prints that line."""
    app = ShorewalkApp(journal=Journal(connect_in_memory()), folder=ann)
    async with app.run_test():
        app._fatal_error()
        said = "".join(
            segment.text
            for shown in app._exit_renderables
            for segment in app.console.render(shown, app.console.options)
        )
    assert " ".join(said.split()) == WENT_WRONG
