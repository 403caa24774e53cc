"""Blocks as Markdown: whatever a tree or a person wrote shows as text, never as markup."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .blocks import Block, Fields, Heading, Items, NewPage, Quote, Rows, Text

INSIDE = re.compile(r"([\\`*_{}\[\]<>~$&])")
"""What could begin markup anywhere in a line."""

AHEAD = re.compile(r"^(\s*)([#+=>|:-]|\d+(?=[.)](?:\s|$)))")
"""What could make a line a heading, a list, a quote or a table, where it stands first."""


def as_markdown(blocks: Iterable[Block]) -> str:
    """Return the blocks as Markdown, tables as GitHub reads them; it ends with a line break."""
    return "\n\n".join(_block(block) for block in blocks) + "\n"


def shown(text: str) -> str:
    """Return text as one line of Markdown that shows it as it stands."""
    line = INSIDE.sub(r"\\\1", " ".join(text.split()))
    return AHEAD.sub(_guarded, line)


def _guarded(found: re.Match[str]) -> str:
    """Return what stands first, a number or a sign, so that it begins no list."""
    blank, first = found.groups()
    return f"{blank}{first}\\" if first.isdigit() else f"{blank}\\{first}"


def _block(block: Block) -> str:
    match block:
        case Heading(text, level):
            return f"{'#' * level} {shown(text)}"
        case Text(text, lead):
            return f"**{shown(lead)}** {shown(text)}" if lead else shown(text)
        case Quote(text):
            return f"> {shown(text)}"
        case Items(items, kind, first):
            return "\n".join(
                f"{_mark(kind, number)} {shown(item)}" for number, item in enumerate(items, first)
            )
        case Rows(head, rows):
            return "\n".join(map(_row, (head, ("---",) * len(head), *rows)))
        case Fields(names):
            return "\n".join(f"- {shown(name)}: \\_\\_\\_\\_\\_\\_\\_\\_" for name in names)
        case NewPage():
            return "---"


def _mark(kind: str, number: int) -> str:
    return {"number": f"{number}.", "box": "- [ ]"}.get(kind, "-")


def _row(cells: Iterable[str]) -> str:
    texts = [cell if cell == "---" else _cell(cell) for cell in cells]
    return f"| {' | '.join(texts)} |"


def _cell(text: str) -> str:
    return INSIDE.sub(r"\\\1", " ".join(text.split())).replace("|", r"\|")
