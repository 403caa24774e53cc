"""What a screen shows, as SVG: its cells, and the rectangles and stretches of text they come to."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from itertools import groupby
from typing import NamedTuple

from rich.color import Color, parse_rgb_hex
from rich.style import Style
from rich.terminal_theme import TerminalTheme
from textual.geometry import Region
from textual.screen import Screen

CELL_WIDTH, CELL_HEIGHT, EDGE, FONT_SIZE = 8.4, 18.0, 12.0, 14
BASELINE = 0.74
"""Where letters stand in their line, as a share of its height."""
DARK = "000000 cd0000 00cd00 cdcd00 0000ee cd00cd 00cdcd e5e5e5"
BRIGHT = "7f7f7f ff0000 00ff00 ffff00 5c5cff ff00ff 00ffff ffffff"
OWN = TerminalTheme(
    parse_rgb_hex("101214"),
    parse_rgb_hex("d8d8d8"),
    [parse_rgb_hex(colour) for colour in DARK.split()],
    [parse_rgb_hex(colour) for colour in BRIGHT.split()],
)
"""A terminal's own colours, where a look uses those."""


class Cell(NamedTuple):
    """A letter, its colour, the ground under it, and whether it is bold."""

    letter: str
    color: str
    ground: str
    bold: bool


def cells_of(screen: Screen[object]) -> list[list[Cell]]:
    """Return what a screen shows, row by row: the grounds of its containers, and on them the lines of its widgets."""
    blank = _cell(" ", Style(bgcolor=screen.background_colors[1].rich_color))
    grid = [[blank] * screen.size.width for _ in range(screen.size.height)]
    for widget in screen.query("*"):
        region = widget.region.intersection(screen.region)
        if not widget.display or not region:
            continue
        if widget.children:
            ground = _cell(" ", Style(bgcolor=widget.background_colors[1].rich_color))
            for y in range(region.y, region.bottom):
                grid[y][region.x : region.right] = [ground] * region.width
            continue
        for y, strip in enumerate(widget.render_lines(Region(0, 0, region.width, region.height)), region.y):
            row = [_cell(letter, segment.style) for segment in strip for letter in segment.text]
            grid[y][region.x : region.x + len(row)] = row
    return grid


def as_svg(grid: list[list[Cell]], title: str) -> str:
    """Return cells as an SVG file; `title` is what a screen reader says of it."""
    width, height = len(grid[0]) * CELL_WIDTH + 2 * EDGE, len(grid) * CELL_HEIGHT + 2 * EDGE
    ground = grid[-2][0].ground
    body = "\n".join(
        part for y, row in enumerate(grid) for part in (*_grounds(row, y, ground), *_letters(row, y))
    )
    box = f'width="{width:g}" height="{height:g}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {box} viewBox="0 0 {width:g} {height:g}" '
        f'font-family="ui-monospace, monospace" font-size="{FONT_SIZE}" xml:space="preserve" role="img">\n'
        f"<title>{escape(title)}</title>\n"
        f'<rect {box} rx="8" fill="{ground}"/>\n{body}\n</svg>\n'
    )


def _grounds(row: list[Cell], y: int, under: str) -> Iterator[str]:
    at = 0
    for ground, group in groupby(row, lambda cell: cell.ground):
        wide = len(list(group))
        if ground != under:
            x, top = EDGE + at * CELL_WIDTH, EDGE + y * CELL_HEIGHT
            size = f'width="{wide * CELL_WIDTH:g}" height="{CELL_HEIGHT:g}"'
            yield f'<rect x="{x:g}" y="{top:g}" {size} fill="{ground}"/>'
        at += wide


def _letters(row: list[Cell], y: int) -> Iterator[str]:
    at = 0
    for (color, bold), group in groupby(row, lambda cell: (cell.color, cell.bold)):
        text = "".join(cell.letter for cell in group)
        if words := text.strip():
            x = EDGE + (at + len(text) - len(text.lstrip())) * CELL_WIDTH
            line = EDGE + (y + BASELINE) * CELL_HEIGHT
            weight = ' font-weight="bold"' if bold else ""
            yield (
                f'<text x="{x:g}" y="{line:g}" textLength="{len(words) * CELL_WIDTH:g}" fill="{color}"{weight}>'
                f"{escape(words, quote=False)}</text>"
            )
        at += len(text)


def _cell(letter: str, style: Style | None) -> Cell:
    style = style or Style()
    color, ground = _hex(style.color, letters=True), _hex(style.bgcolor, letters=False)
    if style.reverse:
        color, ground = ground, color
    return Cell(letter, color, ground, bool(style.bold))


def _hex(color: Color | None, *, letters: bool) -> str:
    return (color or Color.default()).get_truecolor(OWN, foreground=letters).hex
