"""Blocks as a PDF to print: black on white, page numbers, the same bytes for the same blocks and date."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Literal

from .blocks import Block


def as_pdf(
    blocks: Iterable[Block],
    *,
    title: str,
    made: datetime,
    paper: Literal["letter", "a4"] = "letter",
    foot: str = "",
) -> bytes:
    """Return the blocks as a PDF, on US letter paper unless `paper` says otherwise.

    `made` is the date the file states, the caller's; `title` names the document to readers and heads
    every page but the first; `foot` stands at the foot of every page, beside its number.
    """
    from .sheet import Sheet  # what draws is loaded only where a PDF is made

    sheet = Sheet(title=title, made=made, paper=paper, foot=foot)
    for block in blocks:
        sheet.put(block)
    return sheet.bytes()
