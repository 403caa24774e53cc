"""The numbered answers to a question: 1, 2, 3 ... as written, and 0, always, for not knowing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shorewalk.lines import Line, Span, wrap
from shorewalk.tree.facts import Site
from shorewalk.tree.model import Ask, Node, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Running, Unsure

MOST_OF_ONE = 3
"""How often one load may be running: choosing it once more after that begins again at none."""


@dataclass(frozen=True, slots=True)
class Option:
    """One numbered line. Either it answers the question, or it counts a `load` of a tally."""

    number: int
    says: str
    answer: Answer | None = None
    load: str | None = None
    count: int = 0


def options_of(node: Node, site: Site, running: Mapping[str, int]) -> tuple[Option, ...]:
    """Return the numbered answers to a question; a reading has none, it is typed."""
    match node:
        case Ask(choices=choices):
            listed = [Option(n, choice.says, Choose(choice.id)) for n, choice in enumerate(choices, 1)]
            return (*listed, Option(0, "Not sure", Unsure()))
        case Step():
            return Option(1, "Done", Done()), Option(0, "I can't do that", Cannot())
        case Tally(loads=loads):
            rows = [
                Option(n, site.loads[load].says, load=load, count=running.get(load, 0))
                for n, load in enumerate(loads, 1)
            ]
            all_told = Running(tuple((load, running[load]) for load in loads if running.get(load)))
            words = "That was everything" if all_told.loads else "Nothing of these was running"
            told = [Option(len(rows) + 1, words, all_told)] if all_told.loads or node.takes_nothing else []
            return (*rows, *told, Option(0, "Not sure", Unsure()))
    return ()


def option_lines(
    options: tuple[Option, ...], picked: int | None, room: int, *, ascii_only: bool
) -> list[Line]:
    """Return the options in lines; the picked one has a pointer and a colour."""
    wide = len(str(max((option.number for option in options), default=0)))
    pointer = ">" if ascii_only else "▸"
    rows: list[Line] = []
    for option in options:
        here = option.number == picked
        ahead = Span(f"{pointer if here else ' '}{option.number:>{wide}}  ", "picked" if here else "number")
        says = option.says if option.load is None else f"[{option.count or ' '}] {option.says}"
        rows += wrap(says, room, "picked" if here else "plain", first=(ahead,))
    return rows


def next_count(count: int) -> int:
    """Return how many run after a load was chosen once more."""
    return (count + 1) % (MOST_OF_ONE + 1)
