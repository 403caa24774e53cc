"""What comes from a terminal: keys, in whatever way it sends letters.

The library takes UTF-8 alone: at a byte that is none, as a terminal of another kind sends for a letter, it would end
the program and show its own code.
"""

from __future__ import annotations

import sys
from codecs import IncrementalDecoder, getincrementaldecoder
from collections.abc import Callable
from functools import partial

from textual.driver import Driver

DECODER = "getincrementaldecoder"
"""The library's name, in the module of a driver, for what makes letters of bytes."""


class Incoming(Driver):
    """A driver whose thread for keys shows nothing of itself where it fails."""

    run_input_thread: Callable[[], None]

    def _run_input_thread(self) -> None:
        """Read keys; where that fails, end as after any other fault."""
        try:
            self.run_input_thread()
        except Exception as error:  # noqa: BLE001 (nobody else would tell of it)
            self._app.call_later(self._app._handle_exception, error)  # noqa: SLF001 (there is no other way in)


def take_any_bytes(driver: type[Driver]) -> None:
    """Let a driver of the library take bytes that are no letter: each is a mark in the line, and can be rubbed out."""
    module = sys.modules[driver.__module__]
    if hasattr(module, DECODER):
        setattr(module, DECODER, _lenient)


def _lenient(encoding: str) -> Callable[[], IncrementalDecoder]:
    return partial(getincrementaldecoder(encoding), errors="replace")
