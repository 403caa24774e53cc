"""A drawing as text art: an outline with branches, as wide as the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from .drawing import Drawing, near
from .outline import Block, Branch, outline, reading_order
from .rows import GLUE, rows_of

NARROWEST, WIDEST = 40, 200


class Strokes(NamedTuple):
    """What branches are drawn with; all of one width within a role."""

    way: str
    last: str
    side: str
    to: str
    above: str


UNICODE = Strokes("├─ ", "└─ ", "│  ", "→", "↑")
ASCII = Strokes("+- ", "`- ", "|  ", "->", "^")
NONE = "   "


def write_text(drawing: Drawing, room: int, *, ascii_only: bool) -> str:
    """Return the drawing in lines of at most `room` cells (40 to 200).

    Each box stands once. A way to a box elsewhere names it, with an arrow up where it stands further up.
    """
    room = max(NARROWEST, min(room, WIDEST))
    return "\n".join(_Page(drawing, room, ascii_only=ascii_only).rows()) + "\n"


class _Page:
    def __init__(self, drawing: Drawing, room: int, *, ascii_only: bool) -> None:
        self.drawing, self.room, self.ascii_only = drawing, room, ascii_only
        self.strokes = ASCII if ascii_only else UNICODE
        self.blocks = outline(drawing)
        self.at = {name: at for at, name in enumerate(reading_order(self.blocks))}

    def rows(self) -> Iterator[str]:
        yield from self._wrapped(self.drawing.title, "", "  ")
        yield from self._wrapped(self.drawing.about, "", "")
        for block in self.blocks:
            yield ""
            yield from self._block(block, "")

    def _block(self, block: Block, left: str) -> Iterator[str]:
        side = left + (self.strokes.side if block.branches else NONE)
        yield from self._wrapped(block.box.heading(ascii_only=self.ascii_only), left, side)
        for sentence in block.box.lines(ascii_only=self.ascii_only):
            yield from self._wrapped(sentence, side, side)
        for branch in block.branches:
            yield from self._branch(branch, left, last=branch is block.branches[-1])

    def _branch(self, branch: Branch, left: str, *, last: bool) -> Iterator[str]:
        first = left + (self.strokes.last if last else self.strokes.way)
        under = left + (NONE if last else self.strokes.side)
        arrow = branch.arrow
        words = arrow.words(ascii_only=self.ascii_only, loop=arrow in self.drawing.loops)
        if not branch.inner:
            words += f" {self.strokes.to}{GLUE}{self._elsewhere(arrow.source, arrow.target)}"
        yield from self._wrapped(words, first, under + "  ")
        for number, block in enumerate(branch.inner):
            if number:
                yield under.rstrip()
            yield from self._block(block, under)

    def _elsewhere(self, source: str, target: str) -> str:
        box = self.drawing.boxes[target]
        where = f"{self.strokes.above}{GLUE}" if self.at[target] <= self.at[source] else ""
        mark = f"{box.mark.cell(ascii_only=self.ascii_only)}{GLUE}" if box.mark else ""
        return f"{where}{mark}{near(target, source)}"

    def _wrapped(self, text: str, first: str, under: str) -> Iterator[str]:
        """Yield a text after `first`, its later lines after `under`."""
        ahead, room = first, self.room - max(len(first), len(under))
        for row in rows_of(text, room):
            yield ahead + row
            ahead = under
