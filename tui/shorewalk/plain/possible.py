"""What the readings leave possible, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.pages.possible import FAILED, HOW, NONE_FITS, NOTHING_READ, would_tell
from shorewalk.ruling import Ruled, Ruling, has_readings
from shorewalk.walk.walk import Walk

from .prompt import sentence
from .voice import Voice


def say_possible(voice: Voice, walk: Walk, ruling: Ruling) -> None:
    """Say which reading would tell most, what is possible, and what is ruled out."""
    if not has_readings(walk):
        voice.say(NOTHING_READ)
        return
    try:
        ruled = ruling.look(walk, telling=True)
    except Exception:  # noqa: BLE001 (whatever it is, the question goes on without it)
        voice.say(FAILED)
        return
    lines = [] if walk.ended else [f"What would tell: {would_tell(ruled)}"]
    voice.write("\n")
    voice.say_in_parts([*lines, HOW, *_left(ruled)], what="lines are left", few=10)


def _left(ruled: Ruled) -> Iterator[str]:
    left = ruled.left
    if not left.possible:
        yield NONE_FITS
        return
    yield f"Still possible, {len(left.possible)}:"
    yield from (f"  {sentence(left.in_words(fault))}" for fault in left.possible)
    yield f"Ruled out, {len(left.out)}:"
    yield from (f"  {sentence(left.in_words(fault))}" for fault in left.out)


def say_also_possible(voice: Voice, walk: Walk, ruling: Ruling) -> None:
    """Say which dangers the readings leave possible that the ending does not name."""
    if also := also_possible(walk, ruling):
        voice.say("Also possible, by the numbers alone:", *(f"  {sentence(words)}" for words in also))


def also_possible(walk: Walk, ruling: Ruling) -> tuple[str, ...]:
    """Return the dangers that the readings leave possible and the ending does not name; none if that fails."""
    try:
        return ruling.also(walk)
    except Exception:  # noqa: BLE001 (ending and record stand without it)
        return ()
