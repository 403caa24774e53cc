"""What was done to be safe, in few words: the cord is out, the breaker off. Only what is sure is said."""

from __future__ import annotations

import re

from . import state as states

CORD = re.compile(r"\bunplugged\b|\b(?:not|nothing) plugged in\b", re.IGNORECASE)
BREAKER = re.compile(r"\bbreakers? (?:\w+ )?off\b", re.IGNORECASE)
RIG = re.compile(r"\b(?:rig|main) is off\b", re.IGNORECASE)


def done_words(said: str, standing: states.Standing, facts: states.States) -> str:
    """Return a sentence with a blank before it; empty where nothing is sure, or `said` says it all."""

    def sure(name: str, value: str) -> bool:
        return states.must(standing, name, value, facts)

    out = sure("cord", "unplugged")
    done = [
        words
        for words, so, told in (
            ("our cord is out", out, CORD),
            ("breaker off", sure("pedestal-breaker", "off"), BREAKER),
            ("rig main off", sure("rig-main", "off") and not out, RIG),
        )
        if so and not told.search(said)
    ]
    if not done:
        return ""
    stop = "" if said.endswith((".", "!", "?")) else "."
    return f"{stop} {', '.join(done).capitalize()}."
