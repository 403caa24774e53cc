"""A question of the program itself, answered by a number: the menu, "is that what it shows?", leaving."""

from __future__ import annotations

from shorewalk.lines import Line
from shorewalk.pages.fixed import menu_page

from .base import PageScreen


class ChooseScreen(PageScreen):
    """Returns the number that was chosen, or None for back; with `other`, anything else as it was typed."""

    kind = "card"
    prompt = "Number"

    def __init__(
        self, title: str, text: tuple[str, ...], items: tuple[tuple[int, str], ...], *, other: bool = False
    ) -> None:
        super().__init__()
        self._title, self._text, self._items, self._other = title, text, items, other
        self._picked: int | None = None

    def page(self, room: int, _height: int) -> list[Line]:
        return menu_page(self._title, self._text, self._items, self._picked, room)

    def guide(self, _room: int) -> str:
        return "Type a number, then Enter. Enter alone goes back."

    def typed(self, text: str) -> None:
        self._picked = int(text) if text.isdecimal() else None
        self.reading.renew(top=None)

    def give(self, text: str) -> None:
        if text.isdecimal() and int(text) in {number for number, _ in self._items}:
            self.dismiss(int(text) or None)
            return
        if self._other:
            self.dismiss(text)
            return
        self.tell(f'"{text}" is not one of the numbers here.')

    def rest(self) -> None:
        self.dismiss(None)

    def escape(self) -> None:
        self.dismiss(None)

    def do_close(self) -> None:
        """Go back to where one was."""
        self.dismiss(None)
