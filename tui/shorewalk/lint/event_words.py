"""Events and facts of safety rules in words: what came before, how things may stand."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.tree.safety import Event, Facts
from shorewalk.tree.words import listed, quoted
from shorewalk.walk.state import ENERGISED

from .happen import ANY

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


def past(event: Event, answer: str | None = None) -> str:
    """Return what came before, in words; `answer`: what a question was answered, where that is known."""
    words = listed("any place" if word == ANY else word for word in event.words)
    graded = f" graded {_or_worse(event.grade)}" if event.grade else ""
    match event.kind:
        case "grade":
            said = f"a grade of {_or_worse(event.words[0])}"
            said += f" for what is the {event.side}'s to mend" if event.side else ""
        case "sign":
            asked = event.sets
            said = listed(
                f"{name} was answered {quoted(answer) if answer in values else listed(map(quoted, values))}"
                for name, values in asked
                if answer is None or answer in values
            )
        case "measure":
            said = f"a reading at {words}{graded}"
        case "set" | "state":
            came = "was set to" if event.kind == "set" else "was"
            names = [f"{name} {came} {listed(map(quoted, values))}" for name, values in event.sets]
            said = listed(names or [f"{name} was set" for name in event.words], "and")
        case "touch":
            said = f"a hand was at the {words}"
        case "energise":
            said = "power came to the rig"
        case _:
            said = f"an end of {words}"
    return f"{said} while {listed(held(event.while_), 'and')}" if event.while_ else said


def _or_worse(grade: str) -> str:
    return grade if grade == "danger" else f"{grade} or worse"
