"""What the readings leave possible, in sentences."""

from __future__ import annotations

from shorewalk.pages.possible import HOW, NONE_FITS, NOTHING_READ, would_tell
from shorewalk.ruling import Ruling, has_readings
from shorewalk.walk.walk import Walk

from .voice import Voice


def say_possible(voice: Voice, walk: Walk, ruling: Ruling) -> None:
    """Say what is possible, what is ruled out, and which reading would tell most."""
    if not has_readings(walk):
        voice.say(NOTHING_READ)
        return
    ruled = ruling.look(walk, telling=True)
    left = ruled.left
    if left.possible:
        possible = (f"  - {left.in_words(fault)}" for fault in left.possible)
        out = (f"  - {left.in_words(fault)}" for fault in left.out)
        counts = len(left.possible), len(left.out)
        voice.say(f"Still possible, {counts[0]}:", *possible, f"Ruled out, {counts[1]}:", *out, before="\n")
    else:
        voice.say(NONE_FITS, before="\n")
    voice.say(*([] if walk.ended else [f"What would tell: {would_tell(ruled)}"]), HOW)


def say_also_possible(voice: Voice, walk: Walk, ruling: Ruling) -> None:
    """Say which dangers the readings leave possible that the ending does not name."""
    if also := ruling.also(walk):
        voice.say("Also possible, by the numbers alone:", *(f"  - {words}" for words in also))
