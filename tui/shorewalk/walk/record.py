"""The whole record of a walk, for the electrician, as Markdown and as a page to print."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime, tzinfo
from typing import Literal

from shorewalk.paper.blocks import Block
from shorewalk.paper.markdown import as_markdown

from .record_parts import meter_words, record_parts, title_of
from .walk import Walk

__all__ = ["meter_words", "record_blocks", "record_markdown", "record_pdf"]

FOOT = "Written by shorewalk from what somebody at the pedestal answered; it has seen nothing itself."


def record_markdown(
    walk: Walk,
    site: str | None = None,
    park: str | None = None,
    *,
    zone: tzinfo = UTC,
    also: Iterable[str] = (),
) -> str:
    """Return the record as Markdown. `site` and `park`: where it was, if anybody said; `zone`: whose hours.

    `also`: dangers that the readings leave possible and the tree does not name.
    """
    return as_markdown(record_blocks(walk, site, park, zone=zone, also=also))


def record_pdf(
    walk: Walk,
    site: str | None = None,
    park: str | None = None,
    *,
    made: datetime,
    paper: Literal["letter", "a4"] = "letter",
    zone: tzinfo | None = None,
    also: Iterable[str] = (),
) -> bytes:
    """Return the record as a PDF to print. `made`: the date it states; times are in its zone, or in `zone`."""
    from shorewalk.paper.pdf import as_pdf

    blocks = record_blocks(walk, site, park, zone=zone or made.tzinfo or UTC, also=also)
    return as_pdf(blocks, title=title_of(walk), made=made, paper=paper, foot=FOOT)


def record_blocks(
    walk: Walk,
    site: str | None = None,
    park: str | None = None,
    *,
    zone: tzinfo = UTC,
    also: Iterable[str] = (),
) -> tuple[Block, ...]:
    """Return the record in blocks, which become Markdown or a page to print."""
    return tuple(record_parts(walk, site, park, zone, also))
