"""Events and facts of safety rules in words: what came before, how things may stand."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.tree.safety import ANY, Event, Facts
from shorewalk.tree.words import listed, quoted
from shorewalk.walk.state import ENERGISED

POWER = {"yes": "the rig may be under power", "no": "the rig may be without power"}


def may_be(name: str, values: Iterable[str]) -> str:
    """Return that a state may have one of these values."""
    values = list(values)
    if name == ENERGISED and len(values) == 1:
        return POWER[values[0]]
    return f"{name} may be {listed(values)}"


def held(facts: Facts) -> list[str]:
    """Return the facts under which something counts, each as it may be."""
    return [may_be(*fact) for fact in facts]


def past(event: Event, asked: tuple[str, str] | None = None) -> str:
    """Return what came before, in words; `asked`: the sign and its answer, where those are known."""
    words = listed("any place" if word == ANY else word for word in event.words)
    match event.kind:
        case "grade":
            whose = f" that is the {event.side}'s to mend" if event.side else ""
            said = f"something{whose} was graded {_or_worse(event.words[0])}"
        case "sign":
            known = [fact for fact in event.sets if asked and fact[0] == asked[0] and asked[1] in fact[1]]
            signs = [(asked[0], (asked[1],))] if known and asked else event.sets
            said = listed(f"{name} was answered {listed(map(quoted, values))}" for name, values in signs)
        case "measure":
            said = f"{words} was read" + (f" and graded {_or_worse(event.grade)}" if event.grade else "")
        case "set" | "state":
            came = "was set to" if event.kind == "set" else "was"
            names = [f"{name} {came} {listed(map(quoted, values))}" for name, values in event.sets]
            said = listed(names or [f"{name} was set" for name in event.words])
        case "touch":
            said = f"a hand was at the {words}"
        case "ask":
            said = f"{words} was asked for"
        case "energise":
            said = "power came to the rig"
        case _:
            said = f"the walk ended {words}"
    return f"{said} while {listed(held(event.while_), 'and')}" if event.while_ else said


def _or_worse(grade: str) -> str:
    return grade if grade == "danger" else f"{grade} or worse"
