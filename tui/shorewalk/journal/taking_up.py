"""Taking up a walk that was left: as far as its answers still fit, with what has to be said of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shorewalk.walk.answers import Answered, Choose, Read
from shorewalk.walk.ledger import Trees
from shorewalk.walk.walk import Walk, resume

from .ago import minutes_between
from .content import content_of
from .entry import Entry
from .journal import Journal, library_of, meter_of
from .keeper import COPY, Keeper

CHANGED = "Its tree was changed since; all answers still fit."
CLOCK_BACK = "The clock was set back since: what was read before counts as too old."
TOO_OLD = "What the slots showed was read too long ago."
ASKED_ANEW = f"{TOO_OLD} It is asked anew."


def take_up(
    journal: Journal, number: int, library: Trees | None = None, *, before: Iterable[str] = ()
) -> tuple[Walk, Keeper]:
    """Return a kept walk, judged by the time it is now, and what keeps it from here on; it says `before` first.

    Raises `NoSuchWalk`, `KeyError` where its tree is gone or its meter damaged, or `TreeError`. Nothing is
    written, unless the walk has come to its end by the time that went by, with every answer that is kept.
    """
    entry = journal.entry(number)
    answers, meter = journal.answers(number), meter_of(entry)
    library = library or library_of(entry)
    then, lost = resume(library, entry.tree, meter, answers)
    walk = then if entry.ending else resume(library, entry.tree, meter, answers, journal.clock())[0]
    mine = journal.hold(number)
    said = [*before] if mine else [*before, COPY]
    said += [where_it_stopped(then, answers)] if lost else _changed(entry, then)
    said += (
        [f"Answer {len(answers) + 1} cannot be read: it stops there."] if len(answers) < entry.answers else []
    )
    said += _aged(entry, then, walk)
    keeper = Keeper(journal, number, said=said) if mine else Keeper(journal, said=said)
    if not mine:
        keeper.placing.copy_of(number)
    if mine and walk.ended and not entry.ending and len(walk.answers) == entry.answers:
        keeper.keep(walk)
    return walk, keeper


def where_it_stopped(walk: Walk, answers: list[Answered]) -> str:
    """Return how many of the answers fit, which was the first that does not, and why."""
    fit = len(walk.answers)
    first = answers[fit]
    now = walk.now
    if walk.ended:
        reason = "the walk ends before it now"
    elif (first.tree, first.at, first.nth) == (now.tree, now.node.name, now.nth):
        match first.answer:
            case Choose(given) | Read(given):
                reason = f'"{given}" is no answer there any more'
            case _:
                reason = "it is no answer there any more"
    else:
        reason = f"now {now.node.name} comes there"
    told = f"The tree was changed since: {fit} of {len(answers)} answers fit."
    return f"{told} Answer {fit + 1}, to {first.at}: {reason}."


def _changed(entry: Entry, walk: Walk) -> Iterator[str]:
    if entry.content and entry.content != content_of(walk):
        yield CHANGED


def _aged(entry: Entry, then: Walk, walk: Walk) -> Iterator[str]:
    """Say that readings are too old, where they held when the walk was left."""
    if walk.ended and then.ended:
        return
    before, after = then.now, walk.now
    if not any(held and not after.looks.get(look) for look, held in before.looks.items()):
        return
    if minutes_between(entry.changed, walk.answers[-1].resumed or "") < 0:
        yield CLOCK_BACK
    else:
        yield TOO_OLD if walk.ended or after.node.name == before.node.name else ASKED_ANEW
