"""The README's pictures, made from the app itself: `python -m shorewalk.picture [FOLDER]`.

A recorded walk is followed to one of its questions on a terminal that exists only in memory; a new tree with a slip
in it is previewed. What the screen shows is written as SVG, with no font of its own and nothing loaded from anywhere.
"""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import Iterator
from html import escape
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from rich.color import Color
from rich.style import Style
from textual.geometry import Region
from textual.screen import Screen

from .app import ShorewalkApp
from .folders import demo_data
from .journal import Journal
from .journal.store import connect_in_memory
from .replay import read_recorded
from .walk.walk import Walk, begin

WALK, NODE, TYPED = "arrival-50-good", "look_a_50.neutral_ground", "0.7"
SLIPS = (
    ("Say here what is wrong in a person's words", "The lights go dim at supper"),
    ("sign: burn-marks", "sign: burnt-marks"),
)
COLUMNS, ROWS = 80, 24
CELL_WIDTH, CELL_HEIGHT, EDGE, FONT_SIZE = 8.4, 18.0, 12.0, 14


class Run(NamedTuple):
    """A stretch of one style on the screen, in cells."""

    x: int
    y: int
    width: int
    text: str
    style: Style


def walk_to(name: str, node: str) -> Walk:
    """Return a recorded walk as it stands when `node` is asked; raise `ValueError` if it never is."""
    from .tree.library import shipped

    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        if walk.now.node.name == node:
            return walk
        walk = walk.answer(answer, time=time)
    raise ValueError(f"the recorded walk {name} never comes to {node}")


async def draw(walk: Walk, typed: str = "", size: tuple[int, int] = (COLUMNS, ROWS)) -> str:
    """Return the screen for a walk as SVG, with `typed` in the line."""
    app = ShorewalkApp(walk, journal=Journal(connect_in_memory()), ascii_only=False)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        for letter in typed:
            await pilot.press({".": "full_stop"}.get(letter, letter))
        await pilot.pause()
        return as_svg(runs_of(app.screen), *size)


async def draw_preview(size: tuple[int, int] = (COLUMNS, ROWS)) -> str:
    """Return the author's preview of a new tree in which a name was misspelt, as SVG."""
    from .author.new import write_new
    from .preview_app import PreviewApp

    with TemporaryDirectory() as folder:
        file = write_new("low-at-supper", Path(folder)).file
        text = file.read_text(encoding="utf-8")
        for old, new in SLIPS:
            text = text.replace(old, new)
        file.write_text(text, encoding="utf-8")
        app = PreviewApp(file, ascii_only=False)
        async with app.run_test(size=size) as pilot:
            while app.preview.checking:
                await pilot.pause(0.01)
            await pilot.press("n")
            await pilot.pause()
            return as_svg(runs_of(app.screen), *size, title="shorewalk showing a tree to its author")


def runs_of(screen: Screen[object]) -> Iterator[Run]:
    """Yield what a screen shows: the grounds of its containers first, then the lines of its widgets."""
    ground = screen.background_colors[1].rich_color
    yield Run(0, 0, screen.size.width, " ", Style(bgcolor=ground))
    for widget in screen.query("*"):
        region = widget.region
        if not widget.display or not region:
            continue
        if widget.children:
            style = Style(bgcolor=widget.background_colors[1].rich_color)
            yield from (Run(region.x, y, region.width, " ", style) for y in range(region.y, region.bottom))
            continue
        strips = widget.render_lines(Region(0, 0, region.width, region.height))
        for y, strip in enumerate(strips, region.y):
            x = region.x
            for segment in strip:
                yield Run(x, y, segment.cell_length, segment.text, segment.style or Style())
                x += segment.cell_length


def as_svg(
    runs: Iterator[Run], columns: int, rows: int, title: str = "shorewalk asking for a reading"
) -> str:
    """Return runs as an SVG file."""
    width, height = columns * CELL_WIDTH + 2 * EDGE, rows * CELL_HEIGHT + 2 * EDGE
    body = "\n".join(part for run in runs for part in _parts(run))
    ground = "#12161c"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" '
        f'font-family="ui-monospace, monospace" font-size="{FONT_SIZE}" role="img">\n'
        f"<title>{title}</title>\n"
        f'<rect width="{width:g}" height="{height:g}" rx="8" fill="{ground}"/>\n{body}\n</svg>\n'
    )


def _parts(run: Run) -> Iterator[str]:
    x, y = EDGE + run.x * CELL_WIDTH, EDGE + run.y * CELL_HEIGHT
    letters, ground = run.style.color, run.style.bgcolor
    if run.style.reverse:
        letters, ground = ground, letters
    if ground is not None:
        width = run.width * CELL_WIDTH
        yield f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{CELL_HEIGHT:g}" fill="{_hex(ground)}"/>'
    text = run.text.strip()
    if text:
        before = len(run.text) - len(run.text.lstrip())
        weight = ' font-weight="bold"' if run.style.bold else ""
        yield (
            f'<text x="{x + before * CELL_WIDTH:g}" y="{y + CELL_HEIGHT * 0.74:g}" '
            f'textLength="{len(text) * CELL_WIDTH:g}" fill="{_hex(letters)}"{weight} '
            f'xml:space="preserve">{escape(text)}</text>'
        )


def _hex(color: Color | None) -> str:
    return color.get_truecolor().hex if color is not None else "#d9d5c9"


def main(words: list[str]) -> int:
    """Write the pictures to the folder named, else to where the README looks for them."""
    os.environ.pop("NO_COLOR", None)
    folder = Path(words[0]) if words else demo_data() / "pictures"
    folder.mkdir(parents=True, exist_ok=True)
    for name, drawn in (("walk", draw(walk_to(WALK, NODE), TYPED)), ("preview", draw_preview())):
        path = folder / f"{name}.svg"
        path.write_text(asyncio.run(drawn), encoding="utf-8")
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
