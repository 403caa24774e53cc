"""How exact the meter is: two usual kinds, or one's own as its maker states it."""

from __future__ import annotations

from shorewalk.lines import Line
from shorewalk.pages.fixed import menu_page
from shorewalk.pages.meter import KINDS, QUESTION, TEXT, meter_in

from .base import PageScreen


class MeterScreen(PageScreen):
    """Returns the meter, or None where nothing was chosen."""

    kind = "card"
    prompt = "Number"
    letters = False

    heading = "My meter"

    def page(self, room: int, _height: int) -> list[Line]:
        items = tuple((number, says) for number, _, says in KINDS)
        return menu_page(QUESTION, TEXT, (*items, (0, "Back")), None, room)

    def guide(self, _room: int) -> str:
        return "Type a number, or your own like 1%+2, then Enter."

    def give(self, text: str) -> None:
        if text == "0":
            self.dismiss(None)
            return
        try:
            meter = meter_in(text)
        except ValueError as error:
            self.tell(str(error))
            return
        self.dismiss(meter)

    def rest(self) -> None:
        self.dismiss(None)

    def escape(self) -> None:
        self.dismiss(None)
