"""How many there are of something, in words."""

from __future__ import annotations


def counted(number: int, word: str) -> str:
    """Return `1 answer` or `2 answers`, for a word that takes an s."""
    return f"1 {word}" if number == 1 else f"{number} {word}s"
