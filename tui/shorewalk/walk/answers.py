"""What a person can answer, and its plain form for files and other programs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shorewalk.tree.record import record

from .refused import Refused


@record()
class Choose:
    """One of the choices of an ask."""

    id: str


@record()
class Unsure:
    """Not sure: to an ask or a tally."""


@record()
class Read:
    """What the meter shows, as typed. `confirmed`: asked once more, and it stands."""

    text: str
    confirmed: bool = False


@record()
class Unable:
    """This could not be measured."""


@record()
class Done:
    """The step was done."""


@record()
class Cannot:
    """The step could not be done, or perhaps only in part."""


@record()
class Running:
    """How many of each load were running."""

    loads: tuple[tuple[str, int], ...] = ()


Answer = Choose | Unsure | Read | Unable | Done | Cannot | Running


@record()
class Answered:
    """An answer and the question it was given to: tree, node, and how often that was asked by then.

    `time` is when it was given, `resumed` when the walk was taken up again after it, if it was: ISO 8601, stamped
    by a front end, for a walk knows no clock.
    """

    tree: str
    at: str
    nth: int
    answer: Answer
    time: str | None = None
    resumed: str | None = None


def to_json(answer: Answer) -> dict[str, Any]:
    """Return the plain form of `answer`."""
    match answer:
        case Choose(name):
            return {"choose": name}
        case Unsure():
            return {"unsure": True}
        case Read(text, confirmed):
            return {"reading": text, "confirmed": True} if confirmed else {"reading": text}
        case Unable():
            return {"unable": True}
        case Done():
            return {"done": True}
        case Cannot():
            return {"cannot": True}
        case Running(loads):
            return {"running": dict(loads)}


FLAGS: Mapping[str, Answer] = {"unsure": Unsure(), "unable": Unable(), "done": Done(), "cannot": Cannot()}
KEYS = ("choose", "reading", "running", *FLAGS)


def from_json(data: object) -> Answer:
    """Return the answer that `data` stands for; raise `Refused` with what is wrong in it."""
    if not isinstance(data, Mapping):
        raise Refused(f"An answer is an object with one of these keys: {', '.join(KEYS)}.")
    named = [key for key in KEYS if key in data]
    if len(named) != 1:
        found = ", ".join(sorted(map(str, data))) or "none"
        raise Refused(f"An answer has exactly one of these keys: {', '.join(KEYS)}. Found: {found}.")
    key = named[0]
    value = data[key]
    if key in FLAGS:
        if value is not True:
            raise Refused(f'"{key}" takes only true.')
        return FLAGS[key]
    if key == "choose":
        if not isinstance(value, str):
            raise Refused('"choose" takes the id of a choice, as text.')
        return Choose(value)
    if key == "reading":
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise Refused('"reading" takes what the meter shows, as text: "121.8 V".')
        confirmed = data.get("confirmed", False)
        if not isinstance(confirmed, bool):
            raise Refused('"confirmed" takes true or false.')
        return Read(str(value), confirmed=confirmed)
    return _running(value)


def _running(value: object) -> Running:
    if not isinstance(value, Mapping):
        raise Refused('"running" takes an object of loads and how many of each: {"kettle": 1}.')
    loads: list[tuple[str, int]] = []
    for load, count in value.items():
        if isinstance(count, bool) or not isinstance(count, int):
            raise Refused(f'How many of "{load}" were running? A whole number is wanted.')
        loads.append((str(load), count))
    return Running(tuple(loads))
