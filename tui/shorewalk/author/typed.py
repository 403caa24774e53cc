"""An answer as a person types it in plain text."""

from __future__ import annotations

from shorewalk.tree.model import Ask, Node, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable


def typed(answer: Answer, node: Node) -> str:
    """Return what to type at the question of `node`: `2`, `121.8`, `0`; a reading that is asked for twice, twice."""
    match answer, node:
        case Choose(name), Ask(choices=choices):
            return str(next(number for number, choice in enumerate(choices, 1) if choice.id == name))
        case Read(text, confirmed), _:
            return f"{text} {text}" if confirmed else text
        case Running(loads), Tally() as tally:
            numbers = [str(tally.loads.index(load) + 1) for load, count in loads for _ in range(count)]
            return " ".join(numbers) or str(len(tally.loads) + 1)
        case Done(), _:
            return "1"
        case Unable(), _:
            return "x"
        case Cannot(), _:
            return "0"
    return "0"
