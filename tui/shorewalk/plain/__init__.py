"""One question at a time, in plain sentences: for screen readers, dumb terminals, and pipes."""

from __future__ import annotations

from .talk import Talk

__all__ = ["Talk"]
