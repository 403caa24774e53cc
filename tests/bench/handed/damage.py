"""What may happen to a file on its way, and what somebody hostile may write into one."""

from __future__ import annotations

import json
from random import Random
from typing import Any

from shorewalk.handing import Handed, NotTaken, read_handed, take_over
from shorewalk.handing.handed import SUM, WALK, sum_of
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import connect_in_memory
from shorewalk.walk.walk import Walk, resume

from .walks import NAME, SOON, walked

HERE = walked("arrival-plug-scorched")
"""A walk that is on the other machine already."""

ODD: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 7, 10**8, 10**30, 1.5, "", "x", "yes", "0", "arrival", "../../etc/passwd", "a\x00b",
    "\u202egnp.exe", "\u200b", "a\nb", "\x1b[2J", "\ud800", "9" * 5000, [], {}, [[]], {"done": True}, "NaN",
    "2026-05-01T12:00:00", "9999-12-31T23:59:59Z", "0001-01-01T00:00:00+23:59", "2026-02-30T00:00:00Z", "ＯＬ", "1e9",
)  # fmt: skip
"""Values that are wrong nearly everywhere."""


def damaged(data: bytes, random: Random) -> bytes:
    """Return a file as a bad stick, a mail program or a slip leaves it: a few bytes are other ones."""
    changed = bytearray(data)
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        at = random.randrange(len(changed) + 1)
        end = min(len(changed), at + random.choice((1, 1, 2, 8, 64, 1024)))
        match random.randrange(8):
            case 0 | 1 if at < len(changed):
                changed[at] ^= 1 << random.randrange(8)
            case 2 if at < len(changed):
                changed[at] = random.randrange(256)
            case 3:
                del changed[at:end]
            case 4:
                changed[at:at] = random.randbytes(end - at)
            case 5:
                changed[at:at] = changed[at:end]
            case 6:
                del changed[at:]
            case _:
                other = random.randrange(len(changed) + 1)
                changed[at:end], changed[other : other + 1] = changed[other : other + 1], changed[at:end]
    return bytes(changed)


def forged(data: bytes, random: Random) -> bytes:
    """Return a file in which something is another thing, and the sum is right again: only checks can find it."""
    whole = json.loads(data)
    for _ in range(random.choice((1, 1, 1, 2, 4))):
        whole[WALK] = _other(whole[WALK], random)
    if isinstance(whole[WALK], dict):
        whole[SUM] = sum_of(whole[WALK])
    return json.dumps(whole).encode()


def _other(value: Any, random: Random) -> Any:
    """Return a value of JSON with one thing in it changed."""
    if random.random() < 0.1 or not isinstance(value, dict | list) or not value:
        return _instead(value, random)
    if isinstance(value, list):
        return _other_list([*value], random)
    key = random.choice([*value])
    match random.randrange(8):
        case 0:
            return {name: one for name, one in value.items() if name != key}
        case 1:
            return value | {
                random.choice(("done", "reading", "end", "grade", "state", "choose")): random.choice(ODD)
            }
        case 2:
            return {(f"{name}\u202e" if name == key else name): one for name, one in value.items()}
        case _:
            return value | {key: _other(value[key], random)}


def _other_list(values: list[Any], random: Random) -> list[Any]:
    at, other = random.randrange(len(values)), random.randrange(len(values))
    match random.randrange(10):
        case 0:
            values[at], values[other] = values[other], values[at]
        case 1:
            del values[at]
        case 2:
            values.insert(at, values[other])
        case 3:
            del values[at:]
        case 4:
            values *= 40
        case _:
            values[at] = _other(values[at], random)
    return values


def _instead(value: Any, random: Random) -> Any:
    if isinstance(value, str) and value and random.random() < 0.5:
        at = random.randrange(len(value))
        letter = random.choice("0159.,-:TZvV aé\u202e\x07")
        return value[:at] + letter + value[at + random.randrange(2) :]
    if isinstance(value, int) and random.random() < 0.5:
        return value + random.choice((-1, 1, 1000))
    return random.choice(ODD)


def told(data: bytes, sound: Handed, *, sealed: bool) -> str:
    """Take a file over on a machine that has a walk already, and tell what came of it: `refused`, `equal`, `other`.

    Raises where anything else came of it than a refusal in one line and a journal as before, or the whole walk, kept
    as the answers lead.
    """
    journal = Journal(connect_in_memory(), clock=lambda: SOON)
    try:
        journal.take_in(HERE, "f" * 32)
        before = everything(journal)
        reason, handed, walk, keeper = _taken(data, journal)
        if handed is None or walk is None or keeper is None:
            assert everything(journal) == before, "half of it is there"
            assert reason.isprintable(), "a terminal could not show why"
            return "refused"
        assert sealed or handed == sound, "damage was not noticed"
        assert keeper.number is not None
        whole = resume(walk.library, walk.tree, walk.meter, walk.answers)
        assert whole == (walk, 0), "the walk is not where its answers lead"
        assert (journal.entry(keeper.number).ending is not None) == walk.ended
        there = everything(journal)
        assert len(there) == len(before) + 1 + len(walk.answers), "not all of it is there"
        assert all("\u202e" not in line and "\x1b" not in line for line in there)
        return "equal" if handed == sound else "other"
    finally:
        journal.close()


def told_beside(data: bytes, random: Random) -> str:
    """Take a file over where some of the same walk is; tell `refused`, `nothing new`, `goes on`, `apart`.

    Raises where an answer that was there is there no more, or where more than one walk changed.
    """
    journal = Journal(connect_in_memory(), clock=lambda: SOON)
    try:
        number = journal.take_in(walked(upto=random.choice((1, 12, 33))), NAME)
        mine, before = journal.answers(number), everything(journal)
        reason, _, walk, keeper = _taken(data, journal)
        there = everything(journal)
        assert journal.answers(number)[: len(mine)] == mine, "an answer that was here is gone"
        if walk is None or keeper is None:
            assert there == before, "half of it is there"
            assert reason.isprintable()
            return "refused"
        if there == before:
            return "nothing new"
        if keeper.number == number:
            assert len(there) == 1 + len(walk.answers) > len(before)
            return "goes on"
        assert journal.answers(number) == mine, "two walks changed"
        assert len(there) == len(before) + 1 + len(walk.answers)
        return "apart"
    finally:
        journal.close()


def _taken(data: bytes, journal: Journal) -> tuple[str, Handed | None, Walk | None, Keeper | None]:
    try:
        handed = read_handed(data)
        return "", handed, *take_over(handed, journal)
    except NotTaken as reason:
        return str(reason), None, None, None


def everything(journal: Journal) -> list[str]:
    """Return all rows of a journal."""
    return [line for line in journal._database.iterdump() if line.startswith("INSERT")]
