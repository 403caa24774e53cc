"""Leaving plain text: no walk that is on no disk goes without a word."""

from __future__ import annotations

from shorewalk.exits import Exit
from shorewalk.heard_words import NO_NAME, goes_back, is_ours, leaves
from shorewalk.journal import Keeper, at_risk

from .files import paths_may_be_typed
from .session import Session
from .voice import Gone

KEEP_ELSEWHERE = """\
What you answered is on no disk, and gone when you leave. To keep it, type a folder on a disk that can be written, as \
in /media/stick or ~/walks. Enter: leave without. back: do not leave."""


def leave(session: Session, keeper: Keeper | None = None) -> None:
    """Leave; where a walk is on no disk, offer before to keep it in another folder.

    Raises `Gone`, but for somebody who thinks better of it.
    """
    kept = None
    if (walk := at_risk(session.journal, keeper)) and paths_may_be_typed():
        kept = keep_elsewhere(session, walk)
        if kept is None:
            return
    if kept and walk and walk is not keeper:  # a walk that is open says that itself
        session.voice.say(walk.how_to_go_on("--plain") or kept)
    raise Gone


def keep_elsewhere(session: Session, keeper: Keeper) -> str | None:
    """Ask for a folder to keep a walk in; return how it goes on, nothing where none was named, None for back."""
    voice = session.voice
    while True:
        voice.say(KEEP_ELSEWHERE, before="\n")
        typed = voice.listen()
        if goes_back(typed):
            return None
        if not typed or leaves(typed):
            return ""
        if is_ours(typed):
            voice.say(NO_NAME.format(typed=typed))
            continue
        told = keeper.keep_in(typed)
        if not keeper.journal.failed:
            return told
        voice.say(told)


def gone_at_last(session: Session) -> Exit:
    """Say what is lost with a program that ends here, if anything; return what to exit with."""
    if walk := at_risk(session.journal):
        session.voice.say(walk.goodbye, before="\n")
        return Exit.UNFINISHED
    return Exit.CLEAN


def interrupted(session: Session, keeper: Keeper | None = None) -> None:
    """After Ctrl-C leave as after `q`; a second one leaves at once."""
    try:
        leave(session, keeper)
    except KeyboardInterrupt:
        raise Gone from None
