"""`shorewalk log`: list, compare, show one, export, say where it was, delete."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from shorewalk.exits import Exit
from shorewalk.journal import Entry, Journal
from shorewalk.journal.entry import SAID
from shorewalk.journal.where import Where, read_where, stay_at
from shorewalk.lines import Line, as_text
from shorewalk.marks import cannot_show_blocks
from shorewalk.starting import Usage

from .as_csv import walks_csv
from .as_json import walks_json
from .choosing import Chosen, choose, known, one_walk
from .deleting import delete_all, delete_chosen
from .handing_out import message_of, write_pdf
from .kept import Kept, in_time, kept_walks
from .stays import sites_of
from .table import Table, site_lines
from .working_out import work_out

LEAST = 38
"""Cells a table of readings needs; in a narrower window its lines are broken by the terminal."""
NOTHING = "No walk is kept yet. Begin one: shorewalk\n"
HOW = "Compare the readings of a site: shorewalk log SITE. One walk: shorewalk log walk:NUMBER"

Write = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed: words for a site or a walk, and what to do with them."""

    what: str | None = None
    export: str | None = None
    at: str | None = None
    message: str | None = None
    pdf: Path | None = None
    delete: bool = False
    everything: bool = False
    yes: bool = False


@dataclass(frozen=True, slots=True)
class Out:
    """Where things go: the result, what is said beside it, a question that yes or no answers; and the width."""

    write: Write
    narrate: Write
    confirm: Callable[[str], bool]
    room: int


def run_log(asked: Asked, journal: Journal, out: Out) -> int:
    """Do what was asked for; raise `Usage` in one line where it cannot be done."""
    if journal.problem:
        out.narrate(f"shorewalk: the log cannot be read. {journal.problem}")
        return Exit.UNFINISHED
    entries = journal.walks()
    _one_thing(asked)
    if asked.everything:
        return delete_all(journal, entries, out.write, None if asked.yes else out.confirm)
    if asked.message or asked.pdf:
        return _handed_out(asked, journal, entries, out)
    if asked.at is not None:
        return _placed(asked, journal, entries, out)
    if asked.delete:
        if asked.what is None:
            raise Usage(f"Delete what? Name a walk or a site, or say --delete-all. {known(entries)}")
        chosen = choose(asked.what, entries, sure=True)
        return delete_chosen(journal, chosen, out.write, None if asked.yes else out.confirm)
    chosen = choose(asked.what, entries) if asked.what is not None else Chosen(tuple(entries), "all")
    walks = kept_walks(journal, chosen.entries)
    if asked.export or (asked.what is not None and not chosen.single):
        work_out(walks, out.narrate)
    if asked.export:
        in_order = in_time(walks)
        out.write(walks_csv(in_order) if asked.export == "csv" else walks_json(in_order, journal.clock()))
    else:
        _show(asked, chosen, walks, out)
    return Exit.CLEAN


def _one_thing(asked: Asked) -> None:
    named = {
        "--export": asked.export,
        "--at": asked.at is not None,
        "--message": asked.message,
        "--pdf": asked.pdf,
        "--delete": asked.delete,
        "--delete-all": asked.everything,
    }
    wanted = [name for name, said in named.items() if said]
    if len(wanted) > 1:
        raise Usage(f"One thing at a time: {' or '.join(wanted)}.")
    if asked.everything and asked.what is not None:
        raise Usage("--delete-all deletes every walk. To delete some, name them and say --delete.")
    if asked.yes and not (asked.delete or asked.everything):
        raise Usage("--yes answers for --delete or --delete-all.")


def _show(asked: Asked, chosen: Chosen, walks: list[Kept], out: Out) -> None:
    ascii_only = cannot_show_blocks()
    table = Table(max(LEAST, out.room), ascii_only=ascii_only)
    if not walks:
        out.write(NOTHING)
        return
    if chosen.single:
        out.write(_text(table.walk(walks[0])))
        return
    sites = sites_of(walks)
    if asked.what is None:
        out.write(_text(table.listing(sites)))
        out.narrate(HOW)
        return
    for site in sites:
        out.write(_text(site_lines(site, table)))
    if chosen.also:
        out.narrate(chosen.also)


def _text(rows: list[Line]) -> str:
    return as_text(rows) + "\n"


def _handed_out(asked: Asked, journal: Journal, entries: list[Entry], out: Out) -> int:
    if asked.what is None:
        raise Usage(f"Of which walk? Name it by its number, or last. {known(entries)}")
    walk = Kept(journal, one_walk(asked.what, entries))
    if asked.message:
        out.write(message_of(walk, asked.message, journal.clock()))
    elif asked.pdf:
        out.write(f"Saved in {write_pdf(walk, asked.pdf, journal.clock())}\n")
    return Exit.CLEAN


def _placed(asked: Asked, journal: Journal, entries: list[Entry], out: Out) -> int:
    if asked.what is None:
        raise Usage(f"Which walk was there? Name it by its number, or last. {known(entries)}")
    entry = one_walk(asked.what, entries)
    try:
        where = read_where(asked.at) if asked.at else Where()
    except ValueError as error:
        raise Usage(f"--at: {error}") from None
    others = (other for other in entries if other.id != entry.id)
    stayed = stay_at(others, where, entry.begun) if where.site else where
    journal.label(entry.id, park=where.park, site=where.site, visited=stayed.visited, placed=SAID)
    if journal.problem:
        out.narrate(f"shorewalk: {journal.problem}")
        return Exit.UNFINISHED
    out.write(f"Walk {entry.id}: {where.says or 'no site'}.\n")
    return Exit.CLEAN
