"""Words and one-cell marks for grades and verdicts: state is never told by colour alone."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Mapping
from typing import NamedTuple

from .letters import says_utf_8
from .lines import Span

NO_BLOCKS = re.compile(r"|dumb|unknown|linux|ansi|vt\d.*")
"""Terminals by name that lack signs we use, or of which nothing is known."""


class Mark(NamedTuple):
    """A word, a mark one cell wide with an ASCII form, and the role that colours it."""

    word: str
    mark: str
    ascii: str
    role: str

    def cell(self, *, ascii_only: bool = False) -> str:
        """Return the mark as this terminal can show it."""
        return self.ascii if ascii_only else self.mark

    def span(self, *, ascii_only: bool = False) -> Span:
        """Return mark and word, coloured."""
        return Span(f"{self.cell(ascii_only=ascii_only)} {self.word}", self.role)


GRADES: Mapping[str, Mark] = {
    "ok": Mark("good", "✓", "+", "ok"),
    "watch": Mark("watch", "▲", "~", "watch"),
    "stop": Mark("stop", "■", "#", "stop"),
    "danger": Mark("danger", "✕", "X", "danger"),
}
NOTED = Mark("noted", "·", ".", "plain")
AGAIN = Mark("read again", "↻", "@", "again")

VERDICTS: Mapping[str, Mark] = {
    "emergency": Mark("Emergency", "✕", "X", "danger"),
    "unplug-now": Mark("Unplug now", "■", "#", "stop"),
    "stay-unplugged": Mark("Stay unplugged", "■", "#", "stop"),
    "unplugged": Mark("Unplugged", "○", "o", "watch"),
    "hands-off": Mark("Hands off", "✕", "X", "danger"),
    "leave-as-is": Mark("Leave the cord as it is", "○", "o", "watch"),
    "use-with-care": Mark("Use with care", "▲", "~", "watch"),
    "good-to-use": Mark("Good to use", "✓", "+", "ok"),
}


def grade_mark(grade: str | None, *, void: bool = False) -> Mark:
    """Return the mark of a grade; of an answer without one; of a reading that counts for nothing."""
    return AGAIN if void else GRADES.get(grade or "", NOTED)


def verdict_mark(verdict: str) -> Mark:
    """Return the mark of a verdict."""
    return VERDICTS.get(verdict, Mark(verdict.replace("-", " ").capitalize(), "·", ".", "quiet"))


def cannot_show_blocks() -> bool:
    """Tell whether the terminal is to be given ASCII only."""
    if os.environ.get("SHOREWALK_ASCII"):
        return True
    encoding = getattr(sys.__stdout__, "encoding", None) or ""
    if os.name == "nt":  # there neither locales nor terminals are named
        return "utf" not in encoding.lower()
    by_name = NO_BLOCKS.fullmatch(os.environ.get("TERM", ""))
    return "utf" not in encoding.lower() or not says_utf_8() or by_name is not None
