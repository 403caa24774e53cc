"""Walks on disk: every answer is there before the next question is asked."""

from __future__ import annotations

from .ago import ago, minutes_between
from .entry import Entry
from .journal import Journal, NoSuchWalk, now
from .keeper import Keeper, at_risk
from .rows import folder_of, meter_text
from .taking_up import take_up

__all__ = [
    "Entry",
    "Journal",
    "Keeper",
    "NoSuchWalk",
    "ago",
    "at_risk",
    "folder_of",
    "meter_text",
    "minutes_between",
    "now",
    "take_up",
]
