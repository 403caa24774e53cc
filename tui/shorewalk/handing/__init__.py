"""Handing a walk over: one file, written here and taken over by another terminal or another machine.

The file holds answers and nothing that follows from them. Whoever takes it over replays the answers in the trees that
are there, so no file can claim a grade, a state or an ending.
"""

from __future__ import annotations

from .handed import ENDING, Handed, NotTaken
from .passing_on import NothingToHandOver, files_in, hand_over, handed_text, what_to_do
from .reading import read_file, read_handed
from .taking_over import take_over
from .writing import text_of

__all__ = [
    "ENDING",
    "Handed",
    "NotTaken",
    "NothingToHandOver",
    "files_in",
    "hand_over",
    "handed_text",
    "read_file",
    "read_handed",
    "take_over",
    "text_of",
    "what_to_do",
]
