"""Telling of the page to print, which is written after the record in text and takes a while."""

from __future__ import annotations

from collections.abc import Awaitable
from pathlib import Path

from shorewalk.reach import reach

from .base import PageScreen


async def tell_of_page(screen: PageScreen, beside: Path, page: Awaitable[Path | None]) -> None:
    """Wait for the page that is written `beside` the record, and say where it is, or why it is not."""
    try:
        written = await page
    except OSError as error:
        screen.tell(
            f"Saved in {reach().named(beside)}, but not the page to print: {error.strerror or error}."
        )
        return
    if written is not None:
        screen.tell(reach().saved_words(beside, written), "ok")
