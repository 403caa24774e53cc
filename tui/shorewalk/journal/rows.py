"""A walk as rows of the database."""

from __future__ import annotations

import json
import sqlite3
from typing import TYPE_CHECKING, Any, NamedTuple

from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Answered, from_json, to_json
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Refused, Walk

from .store import in_one_piece

if TYPE_CHECKING:
    from shorewalk.walk.message import Ending

LISTED = """
select id, tree, folder, meter, begun, changed, (select count(*) from answers where walk = id), ending,
    uuid, content, park, site, outlet, visited, placed
from walks
"""
NEXT_TURN = "(select coalesce(max(turn), 0) + 1 from walks)"
WALK = f"""
insert into walks (id, tree, folder, meter, begun, changed, ending, uuid, content, turn)
values (?1, ?2, ?3, ?4, ?5, ?5, ?6, ?7, ?8, {NEXT_TURN})
on conflict (id) do update set changed = ?5, ending = ?6, content = ?8, turn = {NEXT_TURN}
"""  # noqa: S608 (put together from words of ours)
KEPT = "select n, tree, at, nth, answer, time, resumed from answers where walk = ? order by n"
ANSWER = "insert into answers (walk, n, tree, at, nth, answer, time, resumed) values (?, ?, ?, ?, ?, ?, ?, ?)"
COLUMNS = "tree, folder, meter, begun, changed, ending, uuid, content, park, site, outlet, visited, placed"
CARRIED = f"""
insert into walks ({COLUMNS}, turn) values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, {NEXT_TURN})
on conflict (uuid) do update set changed = ?5, ending = ?6, content = ?8, park = coalesce(?9, park),
    site = coalesce(?10, site), outlet = coalesce(?11, outlet), visited = coalesce(?12, visited),
    placed = coalesce(?13, placed), turn = {NEXT_TURN}
"""  # noqa: S608 (the same)


class Row(NamedTuple):
    """What is written of a walk beside its answers."""

    when: str
    number: int | None
    uuid: str
    content: str | None
    ending: str | None


def write_walk(database: sqlite3.Connection, row: Row, walk: Walk) -> tuple[int, str]:
    """Write a walk in one piece, all or nothing; return its number and name: of one that is there, those it has."""
    rows = [
        (n, one.tree, one.at, one.nth, json.dumps(to_json(one.answer)), one.time, one.resumed)
        for n, one in enumerate(walk.answers)
    ]
    about = (walk.tree, folder_of(walk), meter_text(walk.meter))
    with in_one_piece(database):
        made = database.execute(WALK, (row.number, *about, row.when, row.ending, row.uuid, row.content))
        number = row.number or made.lastrowid
        assert number is not None  # noqa: S101 (a row that was made has a number)
        kept = database.execute(KEPT, (number,)).fetchall()
        same = next((n for n, (one, other) in enumerate(zip(rows, kept, strict=False)) if one != other), None)
        if same is None:
            same = min(len(rows), len(kept))
        database.execute("delete from answers where walk = ? and n >= ?", (number, same))
        database.executemany(ANSWER, [(number, *row) for row in rows[same:]])
        (uuid,) = database.execute("select uuid from walks where id = ?", (number,)).fetchone()
    return number, str(uuid)


def carry_walk(source: sqlite3.Connection, number: int, target: sqlite3.Connection) -> int:
    """Copy a walk into another journal, as it is kept; over itself where it is there. Return its number there."""
    row = source.execute(f"select {COLUMNS} from walks where id = ?", (number,)).fetchone()  # noqa: S608
    answers = source.execute(KEPT, (number,)).fetchall()
    with in_one_piece(target):
        target.execute(CARRIED, row)
        uuid = row[COLUMNS.split(", ").index("uuid")]
        (there,) = target.execute("select id from walks where uuid = ?", (uuid,)).fetchone()
        target.execute("delete from answers where walk = ?", (there,))
        target.executemany(ANSWER, [(there, *answer) for answer in answers])
    return int(there)


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
    answers: list[Answered] = []
    for _, tree, at, nth, answer, time, resumed in database.execute(KEPT, (number,)):
        try:
            answers.append(Answered(tree, at, nth, from_json(json.loads(answer)), time, resumed))
        except (Refused, ValueError):
            break
    return answers
