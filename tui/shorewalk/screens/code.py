"""The message as a code for a phone's camera: the whole screen is for the code."""

from __future__ import annotations

from shorewalk.lines import Line, wrap
from shorewalk.pages.code import SMALLEST, code_lines, largest_version, pieces

from .card import CardScreen

TOO_SMALL = "This window is too small for a code. Make it larger, or save the record and send the file."
NO_BLOCKS = "This terminal shows ASCII only, and a code needs block characters. Save the record instead."


class CodeScreen(CardScreen):
    """Shows the message in as many codes as the window needs; Enter goes to the next one, then back."""

    def __init__(self, message: str) -> None:
        super().__init__()
        self._message = message
        self._at = 0
        self._pieces: tuple[str, ...] = ()

    @property
    def prompt(self) -> str:  # type: ignore[override]
        """Which code this is."""
        return f"Code {self._at + 1} of {len(self._pieces)}" if len(self._pieces) > 1 else "Code"

    def page(self, room: int, height: int) -> list[Line]:
        if self.app.ascii_only:
            return wrap(NO_BLOCKS, room)
        version = largest_version(room, height)
        if version < SMALLEST:
            return wrap(TOO_SMALL, room)
        before = self._pieces
        self._pieces = pieces(self._message, version)
        self._at = min(self._at, len(self._pieces) - 1)
        if self._pieces != before:
            self.call_after_refresh(self.show_all, top=None)
        return code_lines(self._pieces[self._at])

    def rest(self) -> None:
        if self._at + 1 < len(self._pieces):
            self._at += 1
            self.show_all()
        else:
            self.dismiss()

    def do_emergency(self) -> None:
        """The card opens over the code."""
        self.app.push_screen(CardScreen())
