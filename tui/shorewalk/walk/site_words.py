"""The site's name in a message: its number whole, and as many of the words about it as there is room for."""

from __future__ import annotations

import re

from shorewalk.paper.letters import message_letters

SITE_MOST = 24
"""Letters of the site's name that a message has room for."""

DIGIT = re.compile(r"\d")


def site_words(site: str) -> str | None:
    """Return the name in letters of a text message; words furthest from its number, or its last word, go first.

    None where there is no name, or its numbers alone have no room: half a number is another site.
    """
    words = message_letters(site).split()
    numbers = {at for at, word in enumerate(words) if DIGIT.search(word)}
    kept = numbers or {len(words) - 1}
    left = list(enumerate(words))
    while len(short := " ".join(word for _, word in left)) > SITE_MOST and len(left) > len(kept):
        far = max(left, key=lambda each: min(abs(each[0] - at) for at in kept))
        left.remove(far)
    if len(short) > SITE_MOST:
        return None if numbers else short[:SITE_MOST]
    return short or None
