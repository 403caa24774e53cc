"""Reading a file that hands a walk over: bytes to `Handed`, or a reason why not.

Nothing of the file is believed: neither its size, its text, its keys nor its values. What passes here is well formed;
whether the answers fit, replaying them tells.
"""

from __future__ import annotations

import json
import os
import stat
from datetime import date
from pathlib import Path
from typing import Any, NoReturn

from shorewalk.journal.entry import LABELS
from shorewalk.journal.where import LONGEST
from shorewalk.tree.words import quoted
from shorewalk.walk.answers import KEYS, Answered, from_json, to_json
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused

from .fields import Fields, check_text
from .handed import LARGEST, MARK, MOST_ANSWERS, SUM, VERSION, WALK, Handed, NotTaken, sum_of

HEX_32, HEX_64 = "[0-9a-f]{32}", "[0-9a-f]{64}"
DAY, LABEL = r"[0-9]{4}-[0-9]{2}-[0-9]{2}", f".{{1,{LONGEST}}}"
DIGITS = 9
"""Digits of a whole number; all that stand in such a file are small."""
COME_AGAIN = "Hand the walk over once more."
DAMAGED = f"The file was changed or damaged on its way: its sum is not that of what it holds. {COME_AGAIN}"
TOO_DEEP = "The file is nested deeper than any walk."


def read_file(path: Path) -> bytes:
    """Return what a file holds; raise `NotTaken` where it is none, or too large, or cannot be read."""
    try:
        # A pipe or a device would be waited for, or never end.
        with open(os.open(path, os.O_RDONLY | os.O_NONBLOCK | os.O_CLOEXEC), "rb") as file:  # noqa: PTH123
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                raise NotTaken(f"{path} is no file but a folder, a pipe or a device.")
            return file.read(LARGEST + 1)
    except IsADirectoryError:
        raise NotTaken(f"{path} is a folder. Name the file in it.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise NotTaken(f"{path} cannot be read: {why}.") from None


def read_handed(data: bytes) -> Handed:
    """Return the walk that a file holds; raise `NotTaken` with what is wrong in it."""
    if len(data) > LARGEST:
        raise NotTaken(f"The file is larger than any walk: at most {LARGEST // 1024} kB are read.")
    whole = _parsed(data)
    if not isinstance(whole, dict) or MARK not in whole:
        raise NotTaken("This is no file that hands a walk over. Such a file is made by: shorewalk hand-over")
    _check_version(whole[MARK])
    outer = Fields(whole, "the file", (MARK, SUM, WALK))
    said, walk = outer.text(SUM, HEX_64), outer.rest(MARK, SUM).get(WALK)
    try:
        if not isinstance(walk, dict) or sum_of(walk) != said:
            raise NotTaken(DAMAGED)
    except RecursionError:
        raise NotTaken(TOO_DEEP) from None
    return _handed(walk)


def _parsed(data: bytes) -> object:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotTaken(f"The file is not text in UTF-8. {COME_AGAIN}") from None
    if not text.strip():
        raise NotTaken(f"The file is empty. {COME_AGAIN}")
    try:
        return json.loads(
            text, object_pairs_hook=_once, parse_constant=_no_number, parse_float=_no_number, parse_int=_whole
        )
    except json.JSONDecodeError as error:
        ends = not text[error.pos :].strip() or "Unterminated" in error.msg
        what = "The file breaks off before its end." if ends else "The file is no JSON"
        where = "" if ends else f" at line {error.lineno}, column {error.colno}: {error.msg}."
        raise NotTaken(f"{what}{where} It was perhaps not copied whole. {COME_AGAIN}") from None
    except RecursionError:
        raise NotTaken(TOO_DEEP) from None


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    data = dict(pairs)
    if len(data) < len(pairs):
        raise NotTaken("A key stands twice in one object of the file, so it may mean two things.")
    return data


def _no_number(_text: str) -> NoReturn:
    raise NotTaken("A number stands in the file that no such file has.")


def _whole(text: str) -> int:
    return int(text) if len(text) <= DIGITS else _no_number(text)


def _check_version(version: object) -> None:
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise NotTaken(f'The file does not say which form it has: "{MARK}" is wanted as a number.')
    if version > VERSION:
        raise NotTaken(
            f"The file was written by a later shorewalk, in form {version}; this one reads form {VERSION}. "
            "Bring shorewalk up to date here."
        )


def _handed(walk: dict[str, Any]) -> Handed:
    fields = Fields(
        walk, "the walk", ("id", "tree", "shipped", "content", "meter", "written", "answers", *LABELS)
    )
    meter = fields.text("meter")
    try:
        parse_meter(meter)
    except ValueError as error:
        raise NotTaken(str(error)) from None
    return Handed(
        id=fields.text("id", HEX_32),
        tree=fields.text("tree"),
        shipped=fields.flag("shipped"),
        meter=meter,
        written=fields.text("written"),
        answers=tuple(_answer(data, n) for n, data in enumerate(fields.some("answers", MOST_ANSWERS), 1)),
        content=fields.maybe("content", HEX_32),
        **{name: _day(fields) if name == "visited" else fields.maybe(name, LABEL) for name in LABELS},
    )


def _day(fields: Fields) -> str | None:
    day = fields.maybe("visited", DAY)
    try:
        return day and date.fromisoformat(day).isoformat()
    except ValueError:
        raise NotTaken(f'"visited" of the walk is no day that there is: {quoted(str(day))}.') from None


def _answer(data: object, number: int) -> Answered:
    where = f"answer {number}"
    fields = Fields(data, where, ("tree", "at", "nth", "time", "resumed", "confirmed", *KEYS))
    given = fields.rest("tree", "at", "nth", "time", "resumed")
    for name, value in given.items():
        if name in ("choose", "reading"):
            fields.text(name)
        if name == "running" and isinstance(value, dict):
            for load in value:
                check_text(load, f"a load of {where}")
    try:
        answer = from_json(given)
    except Refused as refused:
        raise NotTaken(f"{where[:1].upper()}{where[1:]}: {refused.reason}") from None
    if wrong := given.keys() - to_json(answer).keys() - ({"confirmed"} if "reading" in given else set()):
        raise NotTaken(f'There is no key "{min(wrong)}" in {where} beside what was answered.')
    return Answered(
        tree=fields.text("tree"),
        at=fields.text("at"),
        nth=fields.number("nth", MOST_ANSWERS),
        answer=answer,
        time=fields.maybe("time"),
        resumed=fields.maybe("resumed"),
    )
