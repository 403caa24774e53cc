"""How exact the meter is: two usual kinds, or one's own as its maker states it."""

from __future__ import annotations

from shorewalk.lines import Line
from shorewalk.pages.fixed import menu_page
from shorewalk.walk.meter import Meter, parse_meter

from .base import PageScreen

KINDS = ((1, "basic", "A basic meter (1.2 % + 5)"), (2, "good", "A good meter (0.8 % + 3)"))
TEXT = (
    (
        "The maker states it in the booklet as a percentage and a count. Not sure? Take the basic one: it is the "
        "careful choice."
    ),
    "Your own: type it as 1%+2 and press Enter.",
)


class MeterScreen(PageScreen):
    """Returns the meter, or None where nothing was chosen."""

    kind = "card"
    prompt = "Number"
    letters = False

    heading = "My meter"

    def page(self, room: int, _height: int) -> list[Line]:
        items = tuple((number, says) for number, _, says in KINDS)
        return menu_page("How exact is your meter on AC volts?", TEXT, (*items, (0, "Back")), None, room)

    def guide(self, _room: int) -> str:
        return "Type a number, or your own like 1%+2, then Enter."

    def give(self, text: str) -> None:
        if text == "0":
            self.dismiss(None)
            return
        named = next((name for number, name, _ in KINDS if text == str(number)), text)
        try:
            meter: Meter = parse_meter(named)
        except ValueError as error:
            self.tell(str(error))
            return
        self.dismiss(meter)

    def rest(self) -> None:
        self.dismiss(None)

    def escape(self) -> None:
        self.dismiss(None)
