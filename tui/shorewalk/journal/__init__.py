"""Walks on disk: every answer is there before the next question is asked."""

from __future__ import annotations

from .ago import ago, minutes_between
from .journal import Entry, Journal, NoSuchWalk, folder_of
from .keeper import Keeper

__all__ = ["Entry", "Journal", "Keeper", "NoSuchWalk", "ago", "folder_of", "minutes_between"]
