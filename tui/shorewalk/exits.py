"""What the program returns to whoever called it. Other programs and hooks rely on these numbers."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes of every command."""

    CLEAN = 0
    FINDINGS = 1
    USAGE = 2
    UNFINISHED = 3


MEANINGS = {
    Exit.CLEAN: "Done. A walk came to its end, nothing was found.",
    Exit.FINDINGS: "The linter found something, a replay ended otherwise than recorded, too little is covered.",
    Exit.USAGE: "What was typed was not understood, or cannot be done.",
    Exit.UNFINISHED: "A walk was left before its end, or a file could not be read or written.",
}
"""What each says, for people."""
