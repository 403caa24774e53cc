"""An error that nobody thought of: a line to the person, and what happened in a file for whoever mends the program."""

from __future__ import annotations

import os
import traceback

from .journal import now
from .journal.store import home

FILE = "went-wrong.txt"
"""Beside the walks; the next time writes over it."""
FLAGS = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_NOFOLLOW
SAID = "shorewalk: something went wrong in the program, which is not your doing."


def went_wrong(error: BaseException) -> str:
    """Write down what happened; return what to say of it. It tells nothing of walks: who keeps one does that."""
    try:
        folder = home()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        path = folder / FILE
        with os.fdopen(os.open(path, FLAGS, 0o600), "w") as file:
            file.write(f"{now()}\n{''.join(traceback.format_exception(error))}")
    except (OSError, RuntimeError):
        return f"{SAID} It could not be written down: {type(error).__name__}."
    return f"{SAID} What happened is written in {path}"
