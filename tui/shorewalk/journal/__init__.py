"""Walks on disk: every answer is there before the next question is asked."""

from __future__ import annotations

from .ago import ago, minutes_between
from .journal import Entry, Journal, NoSuchWalk
from .keeper import Keeper
from .rows import folder_of, meter_text

__all__ = ["Entry", "Journal", "Keeper", "NoSuchWalk", "ago", "folder_of", "meter_text", "minutes_between"]
