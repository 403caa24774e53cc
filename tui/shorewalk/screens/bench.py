"""The make-believe meter, large: its display, its dial, where its probes are. By numbers or by words."""

from __future__ import annotations

from shorewalk.faces import Picture, draw
from shorewalk.lines import BLANK, Line, Span, centred, line, wrap
from shorewalk.pages.bench import ACTS
from shorewalk.pedestal.hands import Hands, where
from shorewalk.pedestal.meter import DIALS
from shorewalk.walk.walk import Walk

from .base import NARROW, SHORT
from .closing import ClosingScreen


class BenchScreen(ClosingScreen):
    """Closes with Enter or 0; the question is where it was."""

    prompt = "Number"
    letters = False
    reads_on = False
    heading = "The meter in your hands"

    def __init__(self, hands: Hands, walk: Walk) -> None:
        super().__init__()
        self.hands, self.walk = hands, walk
        self.shown = hands.bench.read()

    def page(self, room: int, height: int) -> list[Line]:
        meter = self.hands.bench.meter
        rows = [
            *centred([line(Span(f"  {self.shown or '- - -'}  ", "code"))], room),
            *centred([line(Span(f"dial: {DIALS[meter.dial]}", "quiet"))], room),
            BLANK,
            *wrap(f"Probes: {where(meter)}.", room),
            BLANK,
            *(line(Span(f"{number}  ", "number"), says) for number, says in ACTS),
        ]
        narrow = self.size.width < NARROW
        face = self._face(room) if narrow else []
        return [*rows, BLANK, *face] if len(rows) + len(face) < height else rows

    def side(self, room: int, _height: int) -> list[Line]:
        return self._face(room)

    def _face(self, room: int) -> list[Line]:
        """Return the face of what is probed, with the probes in it."""
        place, meter = self.hands.place(self.walk), self.hands.bench.meter
        if place is None:
            return []
        red, black = (tip[1] if tip and tip[0] == place.id else "" for tip in (meter.red, meter.black))
        picture = Picture(place, red, black)
        return centred(draw(picture, small=self.size.width < NARROW, ascii_only=self.app.ascii_only), room)

    def guide(self, room: int) -> str:
        words = "dial ac black N red L"
        return f"Or: {words}." if room < SHORT else f"A number, then Enter. Or in words: {words}."

    def give(self, text: str) -> None:
        if text == "0":
            self.dismiss()
            return
        if text.isdecimal():
            problem = self.hands.act(int(text), self.walk)
        else:
            told = self.hands.do(text, self.walk)
            problem = "" if told.startswith("Dial:") else told
        self.shown = self.hands.bench.read()
        self.show_all(top=None)
        self.tell(problem)
