"""The picture of where the probes go, alone on the screen."""

from __future__ import annotations

from shorewalk.lines import Line
from shorewalk.pages.question import View, picture_page

from .card import CardScreen


class PictureScreen(CardScreen):
    """Shows the picture as large as the window allows; closes as the card does."""

    def __init__(self, view: View) -> None:
        super().__init__()
        self._view = view

    heading = "Where the probes go"

    def page(self, room: int, _height: int) -> list[Line]:
        return picture_page(self._view, room)

    def do_emergency(self) -> None:
        """The card opens over the picture."""
        self.app.push_screen(CardScreen())
