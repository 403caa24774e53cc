"""What the program returns to whoever called it. Other programs and hooks rely on these numbers."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes of every command."""

    CLEAN = 0
    FINDINGS = 1  # the linter found something, a replay ended otherwise than expected
    USAGE = 2  # the command was not understood
    UNFINISHED = 3  # a walk was left before its end, a file could not be read
