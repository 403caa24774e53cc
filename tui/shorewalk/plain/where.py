"""Which site one is at: asked before the first walk of a stay that can wait, passed by with Enter."""

from __future__ import annotations

from shorewalk.journal import Keeper
from shorewalk.journal.where import EXAMPLE, Where, day_of, read_where, stay_at
from shorewalk.log.asking import asking
from shorewalk.log.times import day
from shorewalk.pages.log import STILL, WHY
from shorewalk.walk.walk import Walk

from .prompt import Prompt
from .session import Session
from .voice import Voice, is_emergency

NOT_NOW = "Enter: not now. To go back to the start, type start."


def placed_first(session: Session, walk: Walk, keeper: Keeper) -> None:
    """Ask where a walk is, if it is to be asked; who goes back instead is at the start again."""
    journal = session.journal
    if not session.asks_site or journal.problem:
        return
    entries, now = journal.walks(), journal.clock()
    asked = asking(walk.tree, entries, walk.library.site, now)
    if asked is None:
        return
    where = ask_where(session, asked.offered)
    if where.site and not where.visited:
        where = stay_at(entries, where, now)
    if where.site:
        session.voice.say(f"Noted: {where.says}. At the end t changes it.")
    keeper.placing.say(where if where.site else Where(visited=day_of(now)))


def ask_where(session: Session, offered: Where | None) -> Where:
    """Return where somebody is: a place without a site where it was passed by."""
    voice = session.voice
    still = offered if offered and offered.site else None
    voice.say(
        "Which site are you at?", f"Its number, and the park after a comma, as in {EXAMPLE}.", before="\n"
    )
    if still:
        since = f", since {day(still.visited)}" if still.visited else ""
        voice.say(f"{STILL}: still at {still.says}{since}.")
    voice.say(NOT_NOW, WHY)
    while typed := _heard(session):
        if still and typed.casefold() == STILL:
            return still
        if where := read_or_say(voice, typed):
            return where
    return Where()


def _heard(session: Session) -> str:
    """Return what was typed, once it is no call for help: any other word may be a site's name."""
    while True:
        typed = session.voice.listen()
        if is_emergency(typed):
            Prompt(session).do_emergency()
            session.voice.say(f"Which site are you at? {NOT_NOW}")
        elif typed.casefold() == "start":
            Prompt(session).to_start()
        else:
            return typed


def read_or_say(voice: Voice, typed: str) -> Where | None:
    """Return the site that was typed, or say why it is none."""
    try:
        return read_where(typed)
    except ValueError as error:
        voice.say(str(error))
        return None
