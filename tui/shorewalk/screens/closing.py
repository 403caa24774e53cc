"""A screen that is read and closed: Enter, Esc and q go back to where one was."""

from __future__ import annotations

from .base import PageScreen


class ClosingScreen(PageScreen):
    """Closes on whatever is not something else."""

    kind = "card"

    def give(self, _text: str) -> None:
        self.dismiss()

    def rest(self) -> None:
        self.dismiss()

    def escape(self) -> None:
        self.dismiss()

    def do_close(self) -> None:
        """Go back to where one was."""
        self.dismiss()
