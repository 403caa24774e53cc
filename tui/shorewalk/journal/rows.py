"""A walk as rows of the database."""

from __future__ import annotations

import json
import sqlite3
from typing import TYPE_CHECKING, Any

from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Answered, from_json, to_json
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Refused, Walk

if TYPE_CHECKING:
    from shorewalk.walk.message import Ending

LISTED = """
select id, tree, folder, meter, begun, changed, (select count(*) from answers where walk = id), ending,
    uuid, content, park, site, outlet, visited
from walks
"""
WALK = """
insert into walks (id, tree, folder, meter, begun, changed, ending, uuid)
values (?1, ?2, ?3, ?4, ?5, ?5, ?6, lower(hex(randomblob(16))))
on conflict (id) do update set changed = ?5, ending = ?6
"""
KEPT = "select n, tree, at, nth, answer, time from answers where walk = ? order by n"
ANSWER = "insert into answers (walk, n, tree, at, nth, answer, time) values (?, ?, ?, ?, ?, ?, ?)"


def write_walk(
    database: sqlite3.Connection, when: str, number: int | None, walk: Walk, end: str | None
) -> int:
    """Write a walk in one piece, all or nothing."""
    rows = [
        (n, answer.tree, answer.at, answer.nth, json.dumps(to_json(answer.answer)), answer.time)
        for n, answer in enumerate(walk.answers)
    ]
    database.execute("begin immediate")
    try:
        folder = folder_of(walk)
        made = database.execute(WALK, (number, walk.tree, folder, meter_text(walk.meter), when, end))
        number = number or made.lastrowid
        assert number is not None  # noqa: S101 (a row that was made has a number)
        kept = database.execute(KEPT, (number,)).fetchall()
        same = next((n for n, (one, other) in enumerate(zip(rows, kept, strict=False)) if one != other), None)
        if same is None:
            same = min(len(rows), len(kept))
        database.execute("delete from answers where walk = ? and n >= ?", (number, same))
        database.executemany(ANSWER, [(number, *row) for row in rows[same:]])
        database.execute("commit")
    except BaseException:
        if database.in_transaction:
            database.execute("rollback")
        raise
    return number


def folder_of(walk: Walk) -> str | None:
    """Return the folder of a walk's trees; None for the shipped ones."""
    library = walk.library
    if isinstance(library, Library) and library is not shipped():
        return str(library.folder.resolve())
    return None


def meter_text(meter: Meter) -> str:
    """Return what `parse_meter` makes this meter from."""
    kind = meter.name if meter.name in ("basic", "good") else f"{meter.percent:g}%+{meter.counts:g}"
    return kind + {None: "", True: ",tenths", False: ",whole"}[meter.tenths]


def as_plain(ending: Ending) -> dict[str, Any]:
    """Return an ending as it is kept."""
    return {name: getattr(ending, name) for name in ending.__dataclass_fields__}


def read_answers(database: sqlite3.Connection, number: int) -> list[Answered]:
    """Return the answers of a walk, up to the first that cannot be understood."""
    sql = "select tree, at, nth, answer, time from answers where walk = ? order by n"
    answers: list[Answered] = []
    for tree, at, nth, answer, stamp in database.execute(sql, (number,)):
        try:
            answers.append(Answered(tree, at, nth, from_json(json.loads(answer)), stamp))
        except (Refused, ValueError):
            break
    return answers
