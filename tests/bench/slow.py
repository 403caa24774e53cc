"""What a slow link carries first: bytes until a question is whole, until its answers are, and in all.

`python -m bench.slow` (in `tests/`) prints a table. Time is counted, not waited for: at 1,200 baud 120 bytes are a
second.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from typing import NamedTuple

import pyte

from shorewalk.lines import wrap
from shorewalk.pages.options import options_of
from shorewalk.pages.question import READABLE
from shorewalk.walk.walk import Walk

from .terminal import Terminal
from .walker import beginning, give_in_app, painted, read_on, steps

COURSE = "tingle-at-the-door"
PAGES = {40: 38, 80: 43}
"""Cells of the page, by the columns of the window."""
SIZES = ((40, 20), (80, 24))
TERMS = ("xterm-256color", "vt100")
SECOND = 120
STEP = 8
"""Bytes after which the screen is looked at."""


class Arrived(NamedTuple):
    """Bytes until the question is whole, until its answers are (0: they need scrolling), and all that came."""

    question: int
    answers: int
    all: int


def arrivals(term: str, columns: int, rows: int, home: Path) -> Iterator[Arrived]:
    """Walk a course; yield how each question arrived, the first with all that comes before it."""
    window = Terminal("walk", "tingle", columns=columns, rows=rows, home=home, term=term)
    seen = 0
    for walk, answer in steps(COURSE):
        window.wait_until(painted(walk, columns), walk.now.text)
        if answer is None:
            break
        yield arrived(window.wire, seen, walk, columns, rows)
        read_on(window)
        seen = len(window.wire)
        give_in_app(window, walk, answer)
    window.hang_up()


def arrived(wire: bytes, seen: int, walk: Walk, columns: int, rows: int) -> Arrived:
    """Return how a question arrived in what came after `seen` bytes."""
    room = min(PAGES[columns], READABLE)
    asked = ["".join(span.text for span in row) for row in wrap(walk.now.text, room)]
    answers = [beginning(option.says, 2) for option in options_of(walk.now.node, walk.library.site, {})]
    screen = pyte.Screen(columns, rows)
    stream = pyte.ByteStream(screen)
    stream.feed(wire[:seen])
    before = [" ".join(line.split()) for line in screen.display]

    def there(wanted: list[str]) -> Callable[[], bool]:
        """Return whether these are in lines that have changed."""
        return lambda: all(
            any(" ".join(part.split()) in line and line not in before for line in shown()) for part in wanted
        )

    def shown() -> list[str]:
        return [" ".join(line.split()) for line in screen.display]

    goals = {"question": there(asked), "answers": there(answers)}
    found = dict.fromkeys(goals, 0)
    for at in range(seen, len(wire), STEP):
        stream.feed(wire[at : at + STEP])
        for name, goal in goals.items():
            if not found[name] and goal():
                found[name] = min(at + STEP, len(wire)) - seen
    return Arrived(**found, all=len(wire) - seen)


def main() -> None:
    """Print the table."""
    head = "terminal, window", "", "question whole", "answers too", "all of it"
    sys.stdout.write(f"{head[0]:24}{head[1]:10}{head[2]:>22}{head[3]:>22}{head[4]:>22}\n")
    for term in TERMS:
        for columns, rows in SIZES:
            with tempfile.TemporaryDirectory() as folder:
                first, *others = arrivals(term, columns, rows, Path(folder) / "home")
            shown = [row for row in others if row.answers]
            later = Arrived(*(int(median(column)) for column in zip(*shown, strict=True)))
            for which, row in (("first", first), ("later", later)):
                told = "".join(f"{count:>10,} B {count / SECOND:>7.1f} s" for count in row)
                sys.stdout.write(f"{f'{term}, {columns}x{rows}':24}{which:10}{told}\n")


if __name__ == "__main__":
    main()
