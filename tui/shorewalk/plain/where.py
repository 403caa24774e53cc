"""Which site one is at: asked before the first walk of a stay that can wait, passed by with Enter."""

from __future__ import annotations

from shorewalk.heard_words import goes_back, leaves
from shorewalk.journal import Keeper
from shorewalk.journal.where import EXAMPLE, Where, day_of, read_where, stay_at
from shorewalk.log.asking import asking
from shorewalk.log.times import day
from shorewalk.pages.log import STILL, WHY
from shorewalk.walk.walk import Walk

from .prompt import Prompt
from .session import Session
from .voice import Voice

NOT_NOW = "Enter: not now. start: back to the start."


def placed_first(session: Session, walk: Walk, keeper: Keeper) -> None:
    """Ask where a walk is, if it is to be asked; who goes back instead is at the start again."""
    journal = session.journal
    if not session.asks_site or journal.problem:
        return
    entries, now = journal.walks(), journal.clock()
    asked = asking(walk.tree, entries, walk.library.site, now)
    if asked is None:
        return
    symptom = walk.library.tree(walk.tree).symptom.rstrip(".")
    session.voice.say(f"You chose: {symptom}.", before="\n")
    where = ask_where(session, asked.offered)
    if where.site and not where.visited:
        where = stay_at(entries, where, now)
    if where.site:
        session.voice.say(f"Noted: {where.says}. At the end t changes it.")
    keeper.placing.say(where if where.site else Where(visited=day_of(now)))


def ask_where(session: Session, offered: Where | None) -> Where:
    """Return where somebody is: a place without a site where it was passed by."""
    still = offered if offered and offered.site else None
    voice = session.voice
    voice.say(
        "Before that: which site are you at?", f"Its number, and the park after a comma, as in {EXAMPLE}."
    )
    if still:
        since = f", since {day(still.visited)}" if still.visited else ""
        voice.say(f"{STILL}: still at {still.says}{since}.")
    voice.say(NOT_NOW, WHY)
    heard = listen_for_site(voice, still)
    if heard is BACK:
        Prompt(session).to_start()
    return heard or Where()


def site_said(voice: Voice, whose: str) -> Where | None:
    """Ask for the site of a walk that is over; return it, None where it was left."""
    voice.say(f"{whose} site, and the park after a comma, as in {EXAMPLE}. Enter: leave it.")
    where = listen_for_site(voice)
    return where if where and where.site else None


def listen_for_site(voice: Voice, still: Where | None = None) -> Where | None:
    """Return the site that is typed, `BACK` for a word that leaves the question, None for Enter alone.

    `still` is meant by its key.
    """
    while typed := voice.listen():
        if leaves(typed) or goes_back(typed):
            return BACK
        if still and typed.casefold() == STILL:
            return still
        try:
            return read_where(typed)
        except ValueError as error:
            voice.say(str(error))
    return None


BACK = Where()
"""What somebody says who leaves the question."""
