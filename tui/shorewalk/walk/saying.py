"""The message of an ending: short enough to read over the phone and to send as a text message.

What the tree says, the readings behind it, what was done. Where that is too long it is told in fewer words, then
with fewer readings and how many are left out; a reading that is told is told as the meter showed it, and what is
wanted is never cut. The linter holds the words of trees to what leaves room (`too-long-to-send`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from shorewalk.paper.letters import message_letters

from .behind import USUAL, behind, in_force, usual
from .done import done_words
from .known import Known
from .ledger import Ledger
from .placing import lookup_in
from .site_words import site_words
from .wording import bare, fill

MOST = 320
"""Letters in a message: two of the 160 that one text message holds (3GPP TS 23.038)."""

MOST_ASKED, MOST_ADDED = 6, 4
"""How many readings are told, for somebody who writes them down as they hear them; the record has them all."""

TERSE = (
    (re.compile(r"\bneutral to ground\b", re.IGNORECASE), "N-G"),
    (re.compile(r"\bground to earth\b", re.IGNORECASE), "G-earth"),
    (re.compile(r"\b(hot|L1|L2) to L2\b", re.IGNORECASE), r"\1-L2"),
    (re.compile(r"\b(hot|L1|L2) to neutral\b", re.IGNORECASE), r"\1-N"),
    (re.compile(r"\b(hot|L1|L2) to ground\b", re.IGNORECASE), r"\1-G"),
    (re.compile(r"\b(hot|L1|L2) to earth\b", re.IGNORECASE), r"\1-earth"),
    (re.compile(r"\bOur cord is out(?=[,.])"), "Unplugged"),
)
"""Pairs of slots in fewer letters, as the trade writes them; and what was done."""


def says(template: str, ledger: Ledger, site: str | None, *, urgent: bool = False) -> str:
    """Return the message. Where it is `urgent`, no reading is told but those that the words ask for.

    The outlet in use is named after the site where that helps and there is room.
    """
    at = site_words(site) if site else None
    text = ""
    for text in _shorter(template, ledger, at, urgent=urgent):
        if len(text) <= MOST:
            break
    named = _with_outlet(text, at, ledger) if at else text
    return named if len(named) <= MOST else text


def _with_outlet(text: str, at: str, ledger: Ledger) -> str:
    """Name the outlet in use after the site; where the words name one, only if they speak of `our outlet` too."""
    places = ledger.site.places
    here = places.get(ledger.outlet or "")
    others = any(bare(place.says) in text for place in places.values() if place.kind == "outlet")
    if here is None or bare(here.says) in text or (others and "our outlet" not in text.lower()):
        return text
    return text.replace(f"Site {at}:", f"Site {at}, {bare(here.says)}:", 1)


def _shorter(template: str, ledger: Ledger, site: str | None, *, urgent: bool) -> Iterator[str]:
    """Yield the message in ever fewer letters."""
    asked = behind(ledger)
    for told in _told(asked, MOST_ASKED):
        text = fill(template, lookup_in(ledger, site, told))
        if not urgent and not _tells_any(text, in_force(ledger)):
            yield from _with_readings(text, usual(ledger) or asked, ledger, site)
            continue
        yield from _whole(text, ledger, site)


def _with_readings(text: str, readings: Sequence[Known], ledger: Ledger, site: str | None) -> Iterator[str]:
    """Yield words that tell no reading together with those that anybody would ask for next."""
    for told in _told(readings, MOST_ADDED):
        yield from _whole(f"{text} Readings: {told}." if told else text, ledger, site)


def _whole(text: str, ledger: Ledger, site: str | None) -> Iterator[str]:
    text = text[:1].upper() + text[1:]
    said = text.replace(f"Site {site}", "Site", 1)  # what somebody calls their site says nothing of the cord
    whole = message_letters(text + done_words(said, ledger.standing, ledger.site.states))
    yield whole
    yield terse(whole)


def _tells_any(text: str, readings: Iterable[Known]) -> bool:
    return any(re.search(rf"(?<![\d.]){re.escape(known.shows)}", text) for known in readings)


def terse(text: str) -> str:
    """Return a message in fewer letters, as the pairs of slots: `L1-N 121.8 V`."""
    for pair, short in TERSE:
        text = pair.sub(short, text)
    return text


def _told(readings: Sequence[Known], most: int) -> Iterator[str | None]:
    """Yield at most so many readings in ever fewer words: one by one, by place, then fewer of them."""
    if not readings:
        yield None
    for count in range(min(len(readings), most), 0, -1):
        told, left = _foremost(readings, count), len(readings) - count
        more = f"; {left} more" if left else ""
        yield one_by_one(told) + more
        yield by_place(told) + more


def _foremost(readings: Sequence[Known], count: int) -> list[Known]:
    """Return so many readings, hot to neutral before others, in the order taken."""
    ranked = sorted(range(len(readings)), key=lambda at: readings[at].quantity not in USUAL)
    return [readings[at] for at in sorted(ranked[:count])]


def short(known: Known) -> str:
    """Return a reading with what it is about: `hot to neutral, 30 A outlet 121.8 V`."""
    return f"{known.says} {known.shows}"


def one_by_one(readings: Sequence[Known]) -> str:
    """Return readings in a row, each with its place."""
    return "; ".join(map(short, readings))


def by_place(readings: Sequence[Known]) -> str:
    """Return readings with their place told once: `30 A outlet: hot to neutral 121.8 V, neutral to ground 0.2 V`."""
    places: dict[str, list[str]] = {}
    for known in readings:
        pair, _, place = known.says.partition(", ")
        places.setdefault(place, []).append(f"{pair} {known.shows}")
    return "; ".join(
        f"{place}: {', '.join(told)}" if place else ", ".join(told) for place, told in places.items()
    )
