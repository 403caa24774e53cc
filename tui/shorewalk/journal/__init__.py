"""Walks on disk: every answer is there before the next question is asked."""

from __future__ import annotations

from .ago import ago
from .journal import Entry, Journal, NoSuchWalk
from .keeper import Keeper

__all__ = ["Entry", "Journal", "Keeper", "NoSuchWalk", "ago"]
