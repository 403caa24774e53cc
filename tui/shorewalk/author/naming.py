"""What a recorded walk is called, and what it is about: the answers that made it go where it went, and the ending."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unable, Unsure
from shorewalk.walk.ending import ending
from shorewalk.walk.walk import Walk

INVENTED = "An invented pedestal at Someday Flats, a campground that does not exist."
TELLING = 3
"""So many answers are told of at most."""

ENOUGH = 2
"""So many are told of where there are as many."""

WIDE = 100


def stem_of(walk: Walk, taken: Container[str]) -> str:
    """Return a name for the file of an ended walk, without what is taken: its tree and ending, then what led there."""
    end = ending(walk)
    told = [walk.tree, *([end.tree] if end.tree != walk.tree else []), end.at]
    stem = _plain("-".join(told))
    for index in _by_tellingness(walk):
        if stem not in taken:
            return stem
        if short := _short(walk.answers[index].answer):
            stem = _plain("-".join((*told, walk.answers[index].at, short)))
    names = (f"{stem}-{number}" for number in range(2, 10_000))
    return stem if stem not in taken else next(name for name in names if name not in taken)


def about(walk: Walk) -> tuple[str, ...]:
    """Return what a walk is about, in sentences: the last answers that were not as they should be, the ending."""
    end = ending(walk)
    call = (
        "emergency services" if end.first else "the electrician" if end.call == "electrician" else "the park"
    )
    ends = f"Ends in {end.verdict.replace('-', ' ')}; {call} {'are' if end.first else 'is'} called first."
    return (*_told(walk), ends, INVENTED)


def _told(walk: Walk) -> Iterator[str]:
    known = {one.index: one for one in walk.ledger.known.values()}
    telling = sorted(_telling(walk) & known.keys())[-TELLING:]
    if len(telling) < ENOUGH:  # then what was chosen, too
        chosen = [at for at, one in known.items() if one.grade is None and at not in telling]
        telling = sorted([*telling, *sorted(chosen)[len(telling) - ENOUGH :]])
    for index in telling or list(known)[-1:]:
        if index in known:
            yield _sentence(f"{known[index].says.rstrip('.')}: {known[index].shows}")


def _telling(walk: Walk) -> set[int]:
    """Return the places of the answers that were not as they should be."""
    odd = {at for at, one in enumerate(walk.answers) if isinstance(one.answer, Unsure | Unable | Cannot)}
    return odd | {one.index for one in walk.ledger.known.values() if one.grade not in (None, "ok")}


def _by_tellingness(walk: Walk) -> list[int]:
    """Return the places of all answers, the one that tells most of where the walk went first."""
    telling = _telling(walk)
    return sorted(range(len(walk.answers)), key=lambda at: (at not in telling, -at))


def _short(answer: Answer) -> str:
    match answer:
        case Choose(name):
            return name
        case Read(text):
            return text
        case Cannot() | Unable() | Unsure():
            return type(answer).__name__
    return ""


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return f"{text}." if len(text) <= WIDE else f"{text[:WIDE].rsplit(' ', 1)[0]} ..."


def _plain(name: str) -> str:
    return re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()
