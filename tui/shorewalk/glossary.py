"""Words of the trade as this program uses them, a line each: for the help."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

GLOSSARY: Mapping[str, str] = {
    "live": "under voltage: it can kill. Dead: read at every pair of slots, and no voltage found.",
    "hot": "the wire that brings the power: 120 volts to ground.",
    "neutral": "the wire that takes the current back: near 0 volts where all is well.",
    "ground": "the wire that keeps metal at 0 volts and lets a breaker trip; it carries current only when something "
    "is wrong.",
    "earth": "the soil you stand on.",
    "leg": "one of the two hots of a 50 A outlet. A 30 A or a 20 A outlet has one.",
    "pedestal": "the post with the outlets and breakers.",
    "loop": "the row of pedestals that one line feeds: yours and your neighbours'.",
    "cord": "from the pedestal to your rig; its rig end goes into the inlet in the rig's wall.",
    "main": "the breaker that cuts off all of the rig, but not the battery side.",
    "branch": "one circuit of the rig, with a small breaker of its own.",
    "protector": "the box that watches the supply, and holds back what is wrong.",
    "transfer switch": "what takes the rig from the pedestal to a generator or an inverter, and back.",
    "load": "whatever draws current: a heater, a kettle, an air conditioner.",
    "sag": "how far the voltage falls when a load comes on.",
}


def words_lines() -> Iterator[str]:
    """Yield what the words mean, as sentences to be heard."""
    yield "What the words mean:"
    for word, meaning in GLOSSARY.items():
        yield f"{word[:1].upper()}{word[1:]}: {meaning}"
