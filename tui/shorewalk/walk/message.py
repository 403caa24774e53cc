"""What a walk comes to and the words to say: the ending, the message, the whole record."""

from __future__ import annotations

from .ending import CALLS, FIRST, VERDICTS, Ending, ending
from .record import record_markdown, record_pdf
from .walk import Walk

__all__ = [
    "CALLS",
    "FIRST",
    "VERDICTS",
    "Ending",
    "ending",
    "message_text",
    "park_message",
    "record_markdown",
    "record_pdf",
]


def park_message(walk: Walk, site: str | None = None) -> str:
    """Return the short message of a walk that has ended; raise `Refused` of one that has not."""
    return message_text(ending(walk, site))


def message_text(found: Ending) -> str:
    """Return the message for whoever is called, in one line of at most `saying.MOST` letters."""
    return found.say
