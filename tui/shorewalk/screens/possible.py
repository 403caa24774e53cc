"""What the readings leave possible, what they rule out, and which reading would tell most."""

from __future__ import annotations

from shorewalk.lines import Line, wrap
from shorewalk.pages.possible import NOTHING_READ, possible_page
from shorewalk.ruling import Ruled, has_readings
from shorewalk.walk.walk import Walk

from .closing import ClosingScreen


class PossibleScreen(ClosingScreen):
    """Shows it as soon as it is worked out; Enter or Esc goes back."""

    heading = "What the readings leave"
    prompt = "Enter"

    def __init__(self, walk: Walk) -> None:
        super().__init__()
        self.walk = walk
        self.ruled: Ruled | None = None

    def on_mount(self) -> None:
        if has_readings(self.walk):
            self.app.rule_out(self.walk, self._show)

    def _show(self, ruled: Ruled) -> None:
        """Show the lists; which reading would tell takes longer, so it is asked for then."""
        first, self.ruled = self.ruled is None, ruled
        if not self.is_attached:
            return
        self.show_all(top=0 if first else None)
        if first and not (self.walk.ended or ruled.failed):
            self.app.rule_out(self.walk, self._show, telling=True)

    def left(self) -> str:
        if self.ruled is None:
            return ""
        possible, every = self.ruled.counts
        return f"{possible} of {every}"

    def page(self, room: int, _height: int) -> list[Line]:
        if not has_readings(self.walk):
            return wrap(NOTHING_READ, min(room, 76))
        return possible_page(self.ruled, min(room, 76), ascii_only=self.app.ascii_only, ended=self.walk.ended)

    def guide(self, _room: int) -> str:
        return "Enter goes back to where you were."
