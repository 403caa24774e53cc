"""The message alone, and as a picture for a phone's camera."""

from __future__ import annotations

import io
from base64 import b64decode

import pytest

from shorewalk.pages.code import QUIET, modules, pieces, side
from shorewalk.plain.code import draw_code, show_codes
from shorewalk.plain.message import COPIED, asking_to_copy, say_message
from shorewalk.plain.voice import Voice
from shorewalk.seen import seen

MESSAGE = "Our outlet reads 98.2 V. Please look at it today. Site 14. " * 5


class Screen(io.StringIO):
    """A stream that is a terminal."""

    def isatty(self) -> bool:
        return True


class Filtered(io.StringIO):
    """A stream that lets through what can be seen alone, to the terminal under it."""

    def __init__(self) -> None:
        super().__init__()
        self.under = Screen()

    def isatty(self) -> bool:
        return True

    def write(self, text: str, /) -> int:
        return self.under.write(seen(text))


def said(out: io.StringIO, *typed: str, room: int = 80) -> Voice:
    """Return a voice that hears these lines."""
    return Voice(io.StringIO("".join(f"{line}\n" for line in typed)), out, room)


def test_the_message_stands_alone() -> None:
    """Between empty lines, with where it ends; in a pipe nothing but text."""
    out = io.StringIO()
    say_message(said(out, room=400), MESSAGE)
    assert f"\n\n{MESSAGE.strip()}\n\nEnd of the message.\n" in out.getvalue()
    assert out.getvalue().isprintable() is False  # line ends alone
    assert "\x1b" not in out.getvalue()


def test_a_terminal_is_asked_to_copy_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Round the stream that lets only text through, with the words that it was asked."""
    monkeypatch.setenv("TERM", "xterm-256color")
    out = Filtered()
    say_message(said(out, room=400), MESSAGE)
    text = out.under.getvalue()
    assert asking_to_copy(MESSAGE) in text
    assert b64decode(text.partition("52;c;")[2].partition("\x07")[0]).decode() == MESSAGE
    assert COPIED in text


@pytest.mark.parametrize("term", ["dumb", "linux", "", "vt100"])
def test_a_terminal_that_would_show_it_is_not_asked(monkeypatch: pytest.MonkeyPatch, term: str) -> None:
    """There it would be letters on the screen, and read aloud."""
    monkeypatch.setenv("TERM", term)
    out = Screen()
    say_message(said(out), MESSAGE)
    assert "\x1b" not in out.getvalue()
    assert COPIED not in out.getvalue()


@pytest.mark.parametrize("letters", [False, True])
@pytest.mark.parametrize("dark_ground", [False, True])
def test_a_code_is_drawn_module_for_module(*, letters: bool, dark_ground: bool) -> None:
    """Whatever the ground: where it is dark, the light modules and the border are what is written."""
    text = pieces(MESSAGE, 4)[0]
    drawn = draw_code(text, dark_ground=dark_ground, letters=letters)
    rows = _read(drawn, letters=letters)
    wanted = [[cell != dark_ground for cell in row] for row in modules(text)]
    assert rows[: len(wanted)] == wanted
    assert all(cell is dark_ground for row in rows[:QUIET] for cell in row)
    if letters:
        assert all(row.isascii() for row in drawn)


def _read(drawn: list[str], *, letters: bool) -> list[list[bool]]:
    if letters:
        return [[row[at : at + 2] == "##" for at in range(0, len(row), 2)] for row in drawn]
    halves = {" ": (False, False), "▀": (True, False), "▄": (False, True), "█": (True, True)}
    return [[halves[cell][half] for cell in row] for row in drawn for half in (0, 1)]


def test_codes_are_shown_one_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is said first that it is a picture, then which of how many; `t` shows the same the other way round."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("LINES", "24")
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr("shorewalk.plain.code.cannot_show_blocks", lambda: False)
    out = io.StringIO()
    show_codes(said(out, "t", "", "", "", "", ""), MESSAGE)
    text = out.getvalue()
    assert text.startswith("\nA picture of the message, for a phone's camera.")
    assert text.count("Code 1 of ") == 2
    assert "Enter: the next one." in text
    assert "Enter: back." in text
    assert all(len(line) <= 80 for line in text.splitlines())


def test_what_else_is_typed_is_not_lost() -> None:
    """It is heard at the ending."""
    voice = said(io.StringIO(), "s")
    show_codes(voice, "short")
    assert voice.listen() == "s"


def test_a_window_that_is_too_small_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """With what it takes, and what to do instead."""
    monkeypatch.setattr("shorewalk.plain.code.cannot_show_blocks", lambda: True)
    out = io.StringIO()
    show_codes(said(out, room=40), MESSAGE)
    assert f"It takes {2 * side(3)} columns" in " ".join(out.getvalue().split())
    assert "##" not in out.getvalue()
