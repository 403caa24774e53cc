"""All that is known so far, by number; a number asks that question again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.lines import BLANK, Line, Span, line
from shorewalk.pages.knowns import known_lines
from shorewalk.walk.walk import Walk, resume

from .base import PageScreen

if TYPE_CHECKING:
    from shorewalk.journal import Keeper


class KnownScreen(PageScreen):
    """Lists the answers in force, the latest first, and what was worked out from them."""

    kind = "known"

    def __init__(self, walk: Walk, keeper: Keeper) -> None:
        super().__init__()
        self.walk, self.keeper = walk, keeper

    heading = "Known so far"

    def left(self) -> str:
        count = len(self.walk.answers)
        return f"{count} answer" if count == 1 else f"{count} answers"

    def page(self, room: int, _height: int) -> list[Line]:
        now, ascii_only = self.walk.now, self.app.ascii_only
        rows: list[Line] = []
        for known in sorted(now.known, key=lambda known: -known.index):
            rows += known_lines(known, min(room, 76), ascii_only=ascii_only, number=known.index + 1)
        if not now.known:
            rows.append(line(Span("Nothing yet.", "quiet")))
        if now.worked_all:
            rows += [BLANK, line(Span("Worked out", "group"))]
            for worked in now.worked_all:
                rows += known_lines(worked, min(room, 76), ascii_only=ascii_only)
            rows += self._sags(min(room, 60))
        return rows

    def _sags(self, room: int) -> list[Line]:
        """Return the sags drawn, where there are any; only then is the library for it loaded."""
        from shorewalk.pages.sags import sag_lines

        walk = self.walk
        return sag_lines(walk.now.worked_all, walk.library.site, room, ascii_only=self.app.ascii_only)

    def guide(self, _room: int) -> str:
        if not self.walk.now.known:
            return "Enter goes back. Steps done are taken back with b."
        return "Type a number to change that answer. Enter alone goes back."

    def give(self, text: str) -> None:
        there = {known.index for known in self.walk.now.known}
        index = int(text) - 1 if text.isdecimal() else -1
        if index not in there:
            self.tell(f'There is no answer "{text}" to change.')
            return
        walk = self.walk
        earlier, _ = resume(walk.library, walk.tree, walk.meter, walk.answers[:index])
        self.dismiss()
        self.app.show_revision(walk, earlier, index, self.keeper)

    def rest(self) -> None:
        self.dismiss()

    def escape(self) -> None:
        self.dismiss()

    def do_leave(self) -> None:
        """Ask where to."""
        self.app.ask_to_leave(self.keeper)
