"""Keys that would stop a program and leave it standing: in a shared login they are letters like others."""

from __future__ import annotations

import os
import signal
import termios
from collections.abc import Iterator
from contextlib import contextmanager, suppress

STOPPING = tuple(getattr(termios, name) for name in ("VSUSP", "VQUIT", "VDSUSP") if hasattr(termios, name))
CHARACTERS = 6
"""Where the control characters stand in what `termios` tells of a terminal."""


@contextmanager
def keys_taken(terminal: int) -> Iterator[None]:
    """Let Ctrl-Z and Ctrl-backslash do nothing on this terminal meanwhile; Ctrl-C is answered meanwhile alone.

    Before, the forced command has it ignored; after, nothing is left that could answer it.
    """
    signal.signal(signal.SIGINT, signal.default_int_handler)
    for stop in (signal.SIGTSTP, signal.SIGQUIT):
        signal.signal(stop, signal.SIG_IGN)
    before = None
    with suppress(termios.error, OSError, ValueError):  # it is gone already
        before, settings = termios.tcgetattr(terminal), termios.tcgetattr(terminal)
        none = os.fpathconf(terminal, "PC_VDISABLE").to_bytes(1, "little")
        for key in STOPPING:
            settings[CHARACTERS][key] = none
        termios.tcsetattr(terminal, termios.TCSANOW, settings)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        if before is not None:
            with suppress(termios.error):
                termios.tcsetattr(terminal, termios.TCSANOW, before)
