"""The message of an ending, alone: to be read out, marked and copied, or copied by the terminal."""

from __future__ import annotations

import os
from base64 import b64encode

from .voice import Voice

CANNOT = ("", "dumb", "unknown", "linux", "vt100", "vt220", "ansi")
"""Terminals that are not asked: they would show what they are asked with, or copy nothing."""
COPIED = "The terminal was asked to copy it. Not every terminal does: try to paste it."


def say_message(voice: Voice, message: str) -> None:
    """Say the message with nothing else beside it; where there is a terminal, ask it to copy."""
    voice.say("The message:", before="\n")
    voice.say("", message, "")
    if voice.on_a_terminal() and os.environ.get("TERM", "") not in CANNOT:
        voice.write_raw(asking_to_copy(message))
        voice.say(COPIED)
    else:
        voice.say("End of the message.")


def asking_to_copy(text: str) -> str:
    """Return what asks a terminal to copy a text (OSC 52); the only thing a terminal obeys in plain text."""
    return f"\x1b]52;c;{b64encode(text.encode()).decode()}\x07"
