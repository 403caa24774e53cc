"""Where boxes stand on a sheet: columns of blocks, and what stands inside a way to the right of its box.

All lengths are pixels. Lines leave a box beside the words of their way; the higher a line leaves, the further
right it turns, so that no two lines between the same two columns cross.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from .drawing import Box, Drawing, near
from .outline import Block, outline
from .rows import GLUE, rows_of

CELL, LINE = 7.25, 16.0  # of a 12 px letter of one width, and its row
LETTERS = 42
PAD = 10.0
WIDE = LETTERS * CELL + 2 * PAD
ACROSS, DOWN = 64.0, 26.0
EDGE, TOP = 24.0, 78.0
BESIDE = 3
"""So many boxes that nothing follows stand side by side."""


class Words(NamedTuple):
    """A row of text: its left end and base line, what it is (head, body, way), the box it is a link to."""

    x: float
    y: float
    text: str
    role: str
    goto: str | None = None


class Line(NamedTuple):
    """A line with a head at its end, by its corners."""

    corners: tuple[tuple[float, float], ...]


@dataclass(slots=True)
class Placed:
    """A box on the sheet, with its rows of text; `rule` is the height of the stroke above its ways."""

    box: Box
    x: float
    y: float
    height: float = 0.0
    rule: float | None = None
    words: list[Words] = field(default_factory=list)

    @property
    def bottom(self) -> float:
        return self.y + self.height


@dataclass(slots=True)
class Sheet:
    """All boxes and lines, and the size of what they take."""

    boxes: list[Placed] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)

    @property
    def width(self) -> float:
        return max(placed.x for placed in self.boxes) + WIDE + EDGE

    @property
    def height(self) -> float:
        return max(placed.bottom for placed in self.boxes) + EDGE


def lay_out(drawing: Drawing) -> Sheet:
    """Return the drawing on a sheet."""
    layout = _Layout(drawing)
    layout.column(outline(drawing), EDGE, TOP)
    return layout.sheet


def _split(blocks: list[Block]) -> tuple[list[Block], list[Block]]:
    """Return the blocks that go on, and those at the end of a column that nothing follows."""
    last = max((at for at, block in enumerate(blocks, 1) if block.branches), default=0)
    return blocks[:last], blocks[last:]


class _Layout:
    def __init__(self, drawing: Drawing) -> None:
        self.drawing, self.sheet = drawing, Sheet()

    def column(self, blocks: list[Block], x: float, y: float) -> float:
        """Place blocks one below the other; return where the lowest thing beside or in them ends."""
        before: tuple[Block, Placed] | None = None
        bottom = y
        going_on, leaves = _split(blocks)
        for block in going_on:
            placed, ports = self._placed(block, x, y)
            if before and any(way.arrow.target == block.box.name for way in before[0].branches):
                self.sheet.lines.append(Line(((x + 2 * PAD, before[1].bottom), (x + 2 * PAD, y))))
            bottom = max(placed.bottom, self._beside(block, ports, x + WIDE, y))
            before, y = (block, placed), bottom + DOWN
        return self._grid(leaves, x, y) if leaves else bottom

    def _grid(self, leaves: list[Block], x: float, y: float) -> float:
        """Place boxes that nothing follows side by side; return where the lowest ends."""
        bottom = y
        for first in range(0, len(leaves), BESIDE):
            row = leaves[first : first + BESIDE]
            placed = [self._placed(block, x + at * (WIDE + DOWN), y)[0] for at, block in enumerate(row)]
            bottom = max(box.bottom for box in placed)
            y = bottom + DOWN
        return bottom

    def _beside(self, block: Block, ports: list[float], x: float, y: float) -> float:
        """Place what stands inside the ways of a block; return where that ends."""
        inside = [(way.inner, port) for way, port in zip(block.branches, ports, strict=True) if way.inner]
        bottom = y
        for number, (inner, port) in enumerate(inside):
            at = max(port - LINE, bottom + DOWN if number else y)
            turn = x + ACROSS * (len(inside) - number) / (len(inside) + 1)
            head = at + LINE
            corners = ((x, port), (turn, port), (turn, head), (x + ACROSS, head))
            self.sheet.lines.append(Line(corners))
            bottom = self.column(inner, x + ACROSS, at)
        return bottom

    def _placed(self, block: Block, x: float, y: float) -> tuple[Placed, list[float]]:
        """Return the box with its text, and the height at which each way leaves it."""
        placed = Placed(block.box, x, y)
        at = y + PAD / 2
        ports: list[float] = []

        def write(text: str, role: str, goto: str | None = None) -> None:
            nonlocal at
            in_by = 2 * (role == "way")
            for number, row in enumerate(rows_of(text, LETTERS - 2 * in_by)):
                at += LINE
                inset = PAD + CELL * in_by * (2 if number else 1)  # what goes on is no new way
                placed.words.append(Words(x + inset, at - 4, row, role, goto))

        write(block.box.heading(), "head")
        for sentence in block.box.lines():
            write(sentence, "body")
        if block.branches:
            placed.rule = at + PAD / 2
            at += PAD
        for branch in block.branches:
            arrow = branch.arrow
            ports.append(at + LINE / 2)
            words = arrow.words(loop=arrow in self.drawing.loops)
            target = self.drawing.boxes[arrow.target]
            mark = f"{target.mark.mark}{GLUE}" if target.mark else ""
            elsewhere = "" if branch.inner else f" →{GLUE}{mark}{near(arrow.target, arrow.source)}"
            write(words + elsewhere, "way", arrow.target)
        placed.height = at + PAD / 2 - y
        self.sheet.boxes.append(placed)
        return placed, ports
