"""Lines on the screen, of which only those that changed are drawn again.

A sheet is given a function from its size to lines, so it can draw itself anew at any size without
asking anybody. Its own size never depends on what it shows: nothing is ever laid out again. Long
links are slow, and a whole screen in colour is some ten kilobytes.
"""

from __future__ import annotations

from collections.abc import Callable

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from shorewalk.lines import BLANK, Line, Span, merged, width
from shorewalk.seen import IN_A_LINE, seen
from shorewalk.theme import filled, styles

Source = Callable[[int, int], list[Line]]
"""From the cells and lines there are to the lines to show; more of them than fit is no harm."""

MORE = "more below: Enter"


class Sheet(Widget):
    """Shows lines; scrolls them where there are more than fit."""

    def __init__(self, source: Source, *, id: str | None = None, cue: bool = False) -> None:  # noqa: A002
        super().__init__(id=id)
        self._source, self._cue = source, cue
        self._rows: list[Line] = []
        self._for: tuple[int, int] | None = None
        self.top = 0
        self.more_words = MORE
        self.seen_whole = False
        """Whether the last line was seen, since these lines are shown from the top."""

    def renew(self, *, top: int | None = 0) -> None:
        """Ask for the lines again and show them from the top; `top=None` stays where it is."""
        before = self._seen()
        self._for = None
        self.seen_whole = self.seen_whole and top is None
        self._go(self.top if top is None else top, before)

    def page(self, step: int) -> None:
        """Scroll by pages, with a line of the last one kept."""
        self.scroll_lines(step * max(1, self._room - 1))

    def scroll_lines(self, step: int) -> None:
        """Scroll by lines, as far as there are any."""
        self._go(self.top + step, self._seen())

    def reveal(self, role: str) -> None:
        """Scroll as little as brings the lines with something in this role into sight."""
        marked = [y for y, row in enumerate(self.lines) if any(span.role == role for span in row)]
        if marked:
            self.scroll_lines(min(0, marked[0] - self.top) or max(0, marked[-1] - self.top - self._room + 1))

    @property
    def more(self) -> bool:
        """Whether there are lines below those that are seen."""
        self._compose_lines()
        return self._cue and self.top + self._room < len(self._rows)

    @property
    def lines(self) -> list[Line]:
        """All lines, seen or not."""
        self._compose_lines()
        return self._rows

    def render_line(self, y: int) -> Strip:
        """Draw one line."""
        seen_blank = filled(self.look)
        spans = list(merged(self._visible(y), seen_blank))
        room = self.size.width - width(tuple(spans))
        if spans and room > 0 and spans[-1].role not in seen_blank:
            # The blank after a line goes with its last stretch, which saves a change of style on the wire.
            spans[-1] = Span(spans[-1].text + " " * room, spans[-1].role)
        segments = [Segment(seen(span.text).translate(IN_A_LINE), self._style(span)) for span in spans]
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style)

    @property
    def look(self) -> str:
        """How it looks: the app's theme is named after it."""
        return self.app.theme

    @property
    def _room(self) -> int:
        """Lines of the text that are seen: one is kept for the cue where there are more than fit."""
        height = self.size.height
        return height - 1 if self._cue and len(self._rows) > height else height

    def _style(self, span: Span) -> Style:
        """Return how a role looks on this sheet; what is plain looks as the sheet does."""
        style = styles(self.look).get(span.role)
        return self.rich_style + style if style else self.rich_style

    def _compose_lines(self) -> None:
        size = (self.size.width, self.size.height)
        if self._for != size:
            self._rows, self._for = self._source(*size), size
            self._settle(self.top)

    def _settle(self, top: int) -> None:
        self.top = max(0, min(top, len(self._rows) - self._room))
        self.seen_whole = self.seen_whole or self.top + self._room >= len(self._rows)

    def _visible(self, y: int) -> Line:
        self._compose_lines()
        if self._room < self.size.height and y == self.size.height - 1:
            return (Span(self.more_words, "key"),) if self.more else (Span("the end", "quiet"),)
        at = self.top + y
        return self._rows[at] if at < len(self._rows) else BLANK

    def _seen(self) -> list[Line]:
        return [self._visible(y) for y in range(self.size.height)] if self._for else []

    def _go(self, top: int, before: list[Line]) -> None:
        self._compose_lines()
        self._settle(top)
        if not before:
            self.refresh()
            return
        changed = [
            Region(0, y, min(self.size.width, max(width(old), width(new))), 1)
            for y, (old, new) in enumerate(zip(before, self._seen(), strict=False))
            if old != new
        ]
        if changed:
            self.refresh(*changed)
