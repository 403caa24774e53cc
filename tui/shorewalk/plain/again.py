"""Going to a walk from elsewhere: one that was kept, or the same volts once more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.journal import Keeper, take_up
from shorewalk.pages.left import library_for
from shorewalk.tree.source import TreeError

from .moving import GoTo
from .session import Session
from .talk import Talk

if TYPE_CHECKING:
    from shorewalk.journal.where import Where


def go_on(session: Session, number: int) -> None:
    """Go on with a walk that was kept; say why where that cannot be."""
    try:
        library = library_for(session.journal.entry(number), session.library)
        walk, keeper = take_up(session.journal, number, library)
    except (KeyError, TreeError) as error:
        session.voice.say(reason(error))
        return
    raise GoTo(Talk(walk, keeper, session=session).walk_through)


def read_again(session: Session, where: Where | None = None) -> None:
    """Read the volts again, where the last walk was or at another place that was kept."""
    from shorewalk.log.again import read_again as begun_again

    try:
        again = begun_again(session.journal, session.library, session.meter, where, own=session.meter_set)
    except (KeyError, TreeError) as error:
        session.voice.say(reason(error))
        return
    labels = where and again.where and again.where._asdict()
    keeper = Keeper(session.journal, labels=labels)
    raise GoTo(Talk(again.walk, keeper, session=session).walk_through)


def reason(error: KeyError | TreeError) -> str:
    """Return why a walk cannot be gone on with, in words."""
    return str(error.args[-1] if isinstance(error, KeyError) else error)
