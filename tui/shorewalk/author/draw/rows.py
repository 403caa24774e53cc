"""Sentences in rows of a given width; long names are cut after a dot or an underscore."""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.lines import cells, wrap

GLUE = "\xa0"
"""A space at which no row ends."""

STUCK = "\ue000"


def rows_of(text: str, room: int) -> Iterator[str]:
    """Yield a text in rows of at most `room` cells; what cannot be seen is a question mark."""
    shown = "".join(_seen(letter) for letter in text)
    for row in wrap(" ".join(_pieces(word, room) for word in shown.split()), room):
        yield "".join(span.text for span in row).replace(STUCK, " ")


def _seen(letter: str) -> str:
    if letter == GLUE:
        return STUCK
    return letter if letter.isprintable() else " " if letter.isspace() else "?"


def _pieces(word: str, room: int) -> str:
    pieces = [""]
    for piece in re.findall(r"[^._]*[._]|[^._]+", word) if cells(word) > room else [word]:
        if pieces[-1] and cells(pieces[-1] + piece) > room:
            pieces.append("")
        pieces[-1] += piece
    return " ".join(pieces)
