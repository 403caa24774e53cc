"""The objects that JSON lines carry: questions, results and the ending out, answers in."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import IO, TYPE_CHECKING, Any

from .tree.model import Ask, Measure, Step, Tally
from .walk.answers import Read, from_json, to_json
from .walk.walk import Refused

if TYPE_CHECKING:
    from .ruling import Ruled
    from .walk.walk import Position, Walk, Worked

LONGEST = 65_536
"""Longest line taken, in bytes."""


def as_question(walk: Walk) -> dict[str, Any]:
    """Return the open question."""
    now = walk.now
    data: dict[str, Any] = {"at": now.node.name, **_kind(walk, now)}
    data |= {
        "state": dict(now.state),
        "tree": now.tree,
        "cautions": [caution.text if now.cautions_full else caution.short for caution in now.cautions],
        "step": now.step,
    }
    more = {
        "normal": now.normal,
        "why": now.why,
        "hint": now.hint,
        "group": now.node.group,
        "notes": list(now.notes),
    }
    return data | {key: value for key, value in more.items() if value}


def _kind(walk: Walk, now: Position) -> dict[str, Any]:
    match now.node:
        case Ask(sign=sign, choices=choices):
            listed = [{"id": choice.id, "text": choice.says} for choice in choices]
            return {"kind": "ask", "text": now.text, "sign": sign, "choices": listed}
        case Step(leaves=leaves):
            return {"kind": "step", "text": now.text, "leaves": dict(leaves)}
        case Measure() as node:
            load = {"amount": node.load.amount} | ({"at": node.load.at} if node.load.at else {})
            probes = {"what": node.what, "place": node.place, "from": node.from_, "to": node.to}
            return {
                "kind": "measure",
                "text": now.text,
                "measure": {**probes, "load": load, "meter": node.meter},
            }
        case Tally(loads=loads) as node:
            facts = walk.library.site.loads
            kinds = [facts[name] for name in loads]
            return {
                "kind": "tally",
                "text": now.text,
                "loads": [{"id": kind.id, "text": kind.says, "watts": list(kind.watts)} for kind in kinds],
                "nothing": node.takes_nothing,  # whether no load at all is an answer
                "unit": "A",  # of a reading in the place of the loads
            }
    raise TypeError(f"{now.node.name} asks nothing")  # a walk stands only at what asks, or at an ending


def as_worked(worked: Worked) -> dict[str, Any]:
    """Return what was worked out at a node that asks nothing."""
    return {
        "at": worked.at,
        "out": worked.out,
        "value": worked.value,
        "unit": worked.unit,
        "formula": worked.formula,
        "numbers": worked.numbers,
        "shows": worked.shows,
        "low": worked.low,
        "high": worked.high,
        "grade": worked.grade,
    }


def as_end(walk: Walk) -> dict[str, Any]:
    """Return the ending with the words to say."""
    from .walk.message import ending

    end = ending(walk)
    names = ("at", "verdict", "call", "call_when", "first", "safe_action", "because", "say")
    data: dict[str, Any] = {name: getattr(end, name) for name in names}
    return data | {"readings": list(end.readings), "not_ruled_out": list(end.not_ruled_out), "tree": end.tree}


def as_possible(ruled: Ruled) -> dict[str, Any]:
    """Return the faults that the readings leave possible and rule out, by id, and which reading would tell most."""
    telling = ruled.telling
    return {
        "possible": [fault.id for fault in ruled.left.possible],
        "ruled_out": [fault.id for fault in ruled.left.out],
        "would_tell": {"reading": telling.says, "left": round(telling.left, 1)} if telling else None,
    }


def read_line(given: IO[bytes]) -> bytes:
    """Return the next line that holds something (cut where it is too long), nothing at the end."""
    while line := given.readline(LONGEST):
        rest = line
        while len(rest) == LONGEST and not rest.endswith(b"\n"):
            rest = given.readline(LONGEST)
        if line.strip():
            return line
    return b""


def read_object(line: bytes) -> dict[str, Any]:
    """Return the JSON object on a line; raise `Refused` if there is none."""
    if len(line) >= LONGEST:
        raise Refused(f"A line is shorter than {LONGEST} bytes.")
    try:
        data = json.loads(line, object_pairs_hook=_once, parse_constant=_no_number)
    except UnicodeDecodeError:
        raise Refused("This line is not UTF-8.") from None
    except json.JSONDecodeError as error:
        raise Refused(f"This line is no JSON: {error.msg} at column {error.colno}.") from None
    except (ValueError, RecursionError):
        raise Refused("This line is no JSON that can be an answer.") from None
    if not isinstance(data, dict):
        raise Refused('An answer is an object: {"done": true}.')
    return data


def take(walk: Walk, data: dict[str, Any], doubted: object, clock: Callable[[], str]) -> Walk:
    """Return the walk after what `data` says. A reading that is the `doubted` one counts now."""
    given = dict(data)
    stamp = given.pop("time", None)
    if "back" in given:
        if given != {"back": True}:
            raise Refused('"back" takes only true, and stands alone.')
        return walk.back()
    answer = from_json(given)
    if wrong := given.keys() - to_json(answer).keys() - {"confirmed"}:
        raise Refused(f"An answer has no key {', '.join(sorted(wrong))} here.")
    if isinstance(answer, Read) and doubted is not None and given["reading"] == doubted:
        answer = Read(answer.text, confirmed=True)
    return walk.answer(answer, time=clock() if stamp is None else _time(stamp))


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    data = dict(pairs)
    if len(data) < len(pairs):
        raise Refused("A key stands twice in this object.")
    return data


def _no_number(name: str) -> Any:
    raise Refused(f"{name} is no number a meter shows.")


def _time(stamp: object) -> str:
    from datetime import datetime  # only where a program stamps its answers

    if isinstance(stamp, str) and "T" in stamp:
        try:
            datetime.fromisoformat(stamp)
        except ValueError:
            pass
        else:
            return stamp
    raise Refused('"time" takes a date and time: "2024-05-01T18:30:00Z".')
