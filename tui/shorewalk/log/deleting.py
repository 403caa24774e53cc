"""Deleting walks: it asks once, says what is gone, and leaves nothing of it in the file."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence

from shorewalk.counted import counted
from shorewalk.exits import Exit
from shorewalk.journal import Entry, Journal
from shorewalk.starting import Usage

from .choosing import Chosen
from .times import moment

Confirm = Callable[[str], bool]
SAVED = "Files that you saved or exported are not touched."
TRACE = "Another shorewalk has the log open: until it is closed, traces may be left in the file. Delete once more then."


def delete_chosen(
    journal: Journal, chosen: Chosen, write: Callable[[str], object], confirm: Confirm | None
) -> int:
    """Delete walks that were named; `confirm` asks, unless it is None."""
    return _delete(journal, chosen.entries, what_goes(chosen), write, confirm)


def delete_all(
    journal: Journal, entries: Sequence[Entry], write: Callable[[str], object], confirm: Confirm | None
) -> int:
    """Delete every walk."""
    if not entries:
        write("No walk is kept; there is nothing to delete.\n")
        return Exit.CLEAN
    count = "the only walk" if len(entries) == 1 else f"all {len(entries)} walks"
    return _delete(journal, entries, f"{count}, with every answer and site", write, confirm)


def what_goes(chosen: Chosen) -> str:
    """Return what is to be deleted, in words."""
    if chosen.single:
        (entry,) = chosen.entries
        return f"walk {entry.id} ({entry.tree}, {moment(entry.begun)}, {counted(entry.answers, 'answer')})"
    return f"{counted(len(chosen.entries), 'walk')} at {chosen.says}"


def _delete(
    journal: Journal,
    entries: Sequence[Entry],
    what: str,
    write: Callable[[str], object],
    confirm: Confirm | None,
) -> int:
    if elsewhere := open_elsewhere(journal, entries):
        raise Usage(elsewhere)
    if confirm is not None and not confirm(f"Delete {what}? Nobody can bring it back."):
        write("Nothing was deleted.\n")
        return Exit.CLEAN
    try:
        deleted, whole = journal.delete(*(entry.id for entry in entries))
    except sqlite3.Error as error:
        raise Usage(f"Nothing was deleted: {error}.") from None
    write(f"Deleted {counted(deleted, 'walk')}: {what}. {SAVED}\n")
    if not whole:
        write(f"{TRACE}\n")
    return Exit.CLEAN


def open_elsewhere(journal: Journal, entries: Sequence[Entry]) -> str | None:
    """Return why walks cannot be deleted that somebody is walking in another window; None where nobody is."""
    busy = [str(entry.id) for entry in entries if journal.is_open_elsewhere(entry.id)]
    if not busy:
        return None
    walks = f"Walk {busy[0]} is" if len(busy) == 1 else f"Walks {', '.join(busy)} are"
    return f"{walks} open in another shorewalk. Leave it there first (q); nothing was deleted."
