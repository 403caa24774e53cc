"""The emergency card, one key away from everywhere."""

from __future__ import annotations

from shorewalk.emergency import TITLE
from shorewalk.lines import Line
from shorewalk.pages.fixed import card_page

from .closing import ClosingScreen


class CardScreen(ClosingScreen):
    """Shows the card; Enter or Esc goes back to where one was."""

    prompt = "Enter"

    heading = TITLE.upper()

    @property
    def fits_any(self) -> bool:  # type: ignore[override]
        """Whether it is this card itself, which is needed in any window."""
        return type(self) is CardScreen

    def page(self, room: int, _height: int) -> list[Line]:
        return card_page(room)

    def guide(self, _room: int) -> str:
        return "Enter goes back to where you were. Nothing is lost."

    def do_emergency(self) -> None:
        """It is open already."""
