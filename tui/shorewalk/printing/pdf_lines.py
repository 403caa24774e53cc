"""Text on pages, broken into lines here: by whole words, so that it is known beforehand how tall it stands.

fpdf2 breaks by single letters; for a long checklist that takes ten times as long.
"""

from __future__ import annotations

from datetime import datetime

from fpdf.enums import XPos, YPos

from shorewalk.paper.letters import plain_letters
from shorewalk.paper.sheet import LEADING, POINT, TEXT, Sheet

INDENT, BOX = 12.0, 5.0
"""In millimetres: where text stands behind the number, and behind a box to tick."""


def tall_of(size: float) -> float:
    """Return the height of a line in millimetres, for a size in points."""
    return size * LEADING * POINT


class Lines(Sheet):
    """Pages with lines of words at an indent."""

    def __init__(self, *, title: str, made: datetime, paper: str, foot: str) -> None:
        self._wide: dict[tuple[str, float, str], float] = {}
        super().__init__(title=title, made=made, paper=paper, foot=foot)

    def wide(self, text: str, size: float = TEXT, style: str = "") -> float:
        """Return how wide a text stands, in millimetres."""
        key = (style, size, text)
        if key not in self._wide:
            self.set_font("helvetica", style=style, size=size)
            self._wide[key] = self.get_string_width(text)
        return self._wide[key]

    def broken(self, text: str, room: float, size: float = TEXT, *, taken: float = 0) -> list[str]:
        """Return a text in lines of at most `room` millimetres; of the first, `taken` are taken."""
        blank = self.wide(" ", size)
        rows, used = [""], taken
        for word in self._pieces(plain_letters(text), room, size):
            wide = self.wide(word, size)
            if rows[-1] and used + blank + wide > room:
                rows.append("")
                used = 0
            used += wide + (blank if rows[-1] else 0)
            rows[-1] = f"{rows[-1]} {word}".lstrip()
        return rows

    def _pieces(self, text: str, room: float, size: float) -> list[str]:
        """Return the words of a text; one wider than the room in pieces."""
        found = []
        for word in text.split():
            rest = word
            while rest and self.wide(rest, size) > room:
                most = max(
                    (at for at in range(1, len(rest)) if self.wide(rest[:at], size) <= room), default=1
                )
                found.append(rest[:most])
                rest = rest[most:]
            found.append(rest)
        return found

    def put_rows(self, rows: list[str], indent: float, size: float = TEXT) -> None:
        """Put lines under each other."""
        self.set_font("helvetica", size=size)
        for row in rows:
            self.set_x(self.l_margin + indent)
            self.cell(0, tall_of(size), row, new_x=XPos.LMARGIN, new_y=YPos.NEXT)

    def put_led(self, lead: str, text: str, size: float = TEXT) -> None:
        """Put a text behind the number, its lead in bold."""
        lead = plain_letters(f"{lead} ")
        taken = self.wide(lead, size, "B")
        first, *rest = self.broken(text, self.epw - INDENT - 1, size, taken=taken)
        self.set_font("helvetica", style="B", size=size)
        self.set_x(self.l_margin + INDENT)
        self.cell(taken, tall_of(size), lead)
        self.set_font("helvetica", size=size)
        self.cell(0, tall_of(size), first, new_x=XPos.LMARGIN, new_y=YPos.NEXT)
        self.put_rows(rest, INDENT, size)

    def tall_led(self, lead: str, text: str, size: float = TEXT) -> float:
        """Return how tall that stands."""
        taken = self.wide(plain_letters(f"{lead} "), size, "B")
        return len(self.broken(text, self.epw - INDENT - 1, size, taken=taken)) * tall_of(size)

    def tick(self) -> None:
        """Draw a box to tick beside the line that is put next."""
        self.set_draw_color(0)
        self.rect(self.l_margin + INDENT, self.get_y() + 0.8, 3.2, 3.2)
