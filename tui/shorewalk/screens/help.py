"""The help: how to answer, and the keys that work where it was asked for."""

from __future__ import annotations

from shorewalk.lines import Line
from shorewalk.pages.fixed import help_page

from .card import CardScreen


class HelpScreen(CardScreen):
    """Shows the help for one screen; closes as the card does."""

    def __init__(self, about: str) -> None:
        super().__init__()
        self._about = about

    heading = "Help"

    def page(self, room: int, _height: int) -> list[Line]:
        return help_page(self._about, room, ascii_only=self.app.ascii_only)

    def do_emergency(self) -> None:
        """The card opens over the help."""
        self.app.push_screen(CardScreen())

    def do_help(self) -> None:
        """It is open already."""
