"""How `--help` is laid out: it fits a phone as well as a desk, and nothing in it is cut short."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable
from shutil import get_terminal_size

import click

WIDEST, LEAST = 80, 24
NARROW = 60
"""Below this many columns, what words mean stands beside them only where they are short."""


RANGES = (
    (re.compile(r"\[(\d+)<=x<=(\d+)\]"), r"\1 to \2."),
    (re.compile(r"\[x>=(\d+)\]"), r"\1 or more."),
    (re.compile(r"(\d+)<=x<=(\d+)"), r"\1 to \2"),
    (re.compile(r"x>=(\d+)"), r"\1 or more"),
)
"""What the library writes of the numbers an option takes, and how that reads in words."""


def in_words(text: str) -> str:
    """Return what the library says of an option, its numbers in words."""
    for written, words in RANGES:
        text = written.sub(words, text)
    return text


class Layout(click.HelpFormatter):
    """The library's own is never under 50 columns wide, and breaks words at their hyphens."""

    def __init__(
        self, indent_increment: int = 2, width: int | None = None, max_width: int | None = None
    ) -> None:
        wide = width or min(get_terminal_size().columns, max_width or WIDEST) - 1
        super().__init__(indent_increment, max(wide, LEAST), max_width)

    def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
        """Write the usage on as few lines as it takes."""
        first = f"{prefix or 'Usage: '}{prog} "
        self.write(self._filled(args, first, " " * min(len(first), self.width // 3)) + "\n")

    def write_text(self, text: str) -> None:
        """Write paragraphs."""
        inset = " " * self.current_indent
        blocks = re.split(r"\n\s*\n", text.strip())
        self.write("\n\n".join(self._filled(block, inset, inset) for block in blocks) + "\n")

    def write_dl(self, rows: Iterable[tuple[str, str]], col_max: int = 30, col_spacing: int = 2) -> None:
        """Write words with what they mean, in two columns, or below each other where there is no room for that."""
        rows = list(rows)
        inset = " " * self.current_indent
        longest = max((len(word) for word, _ in rows), default=0)
        below = longest > (self.width // 4 if self.width < NARROW else col_max)
        column = self.current_indent + (2 * self.indent_increment if below else longest + col_spacing)
        for word, means in rows:
            first = f"{inset}{word}"
            if below:
                self.write(f"{first}\n")
                first = ""
            if means or not below:
                self.write(self._filled(means, f"{first:{column}}", " " * column).rstrip() + "\n")

    def _filled(self, text: str, first: str, other: str) -> str:
        return textwrap.fill(
            " ".join(in_words(text).split()),
            self.width,
            initial_indent=first,
            subsequent_indent=other,
            break_long_words=False,
            break_on_hyphens=False,
        )


class Context(click.Context):
    formatter_class = Layout


class Command(click.Command):
    """A command whose help is laid out so."""

    context_class = Context
