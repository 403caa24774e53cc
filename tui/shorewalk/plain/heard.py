"""What was typed, understood: an answer to the open question."""

from __future__ import annotations

import re

from shorewalk.tree.model import Ask, End, Measure, Node, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.walk import Refused

from .voice import number_in

YES = frozenset(("1", "d", "done", "y", "yes", "ok"))
NO = frozenset(("0", "x", "u", "n", "no", "can't", "cant", "cannot", "unsure", "not sure", "unable"))
NUMBER = re.compile(r"\d+")
AMPS = re.compile(r"\d+[.,]\d+|\d+([.,]\d+)?\s*a(mp(ere)?s?)?")
"""What a display shows, and no number of an answer: it has a point, or its unit."""


def screen_of(node: Node) -> str:
    """Return the name that the table of commands has for a question."""
    kinds = {Ask: "ask", Step: "step", Measure: "measure", Tally: "tally", End: "ending"}
    return kinds[type(node)]


def answer_in(typed: str, node: Node) -> Answer:
    """Return the answer that was typed; raise `Refused` if it is none."""
    word = typed.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    match node:
        case Ask():
            return _choice(word, node)
        case Step():
            if word in YES:
                return Done()
            if word in NO:
                return Cannot()
            raise Refused("Type 1 when it is done, 0 if you can't do it.")
        case Measure():
            return Unable() if word in NO - {"0"} else Read(typed)
        case Tally():
            return _tally(word, node)
    raise Refused("There is nothing to answer here.")


def _choice(word: str, node: Ask) -> Answer:
    if word in NO - {"n", "no"}:
        return Unsure()
    for number, choice in enumerate(node.choices, 1):
        if number_in(word) == number:
            return Choose(choice.id)
    exact = [choice for choice in node.choices if word in (choice.id.casefold(), choice.says.casefold())]
    starting = [choice for choice in node.choices if choice.says.casefold().startswith(word)]
    for found in (exact, [] if word.isdecimal() else starting):
        if len(found) == 1:
            return Choose(found[0].id)
    raise Refused(f"Type a number from 1 to {len(node.choices)}, or 0 if you are not sure.")


def _tally(word: str, node: Tally) -> Answer:
    if word in NO - {"n", "no"}:
        return Unsure()
    if AMPS.fullmatch(word):
        return Read(word)
    most = len(node.loads)
    if word in ("none", "nothing") or (node.takes_nothing and number_in(word) == most + 1):
        return Running(())
    numbers = [int(number) for number in NUMBER.findall(word)]
    wrong = NUMBER.sub("", word).strip(" ,.;+*#\t")
    if not numbers or wrong or not all(1 <= number <= most for number in numbers):
        none = f"{most + 1} for none, " if node.takes_nothing else ""
        raise Refused(
            f"Type numbers from 1 to {most}, spaces between; {none}0 if you are not sure. "
            "Amps by a display have an A, as in 12 A."
        )
    counts = {node.loads[number - 1]: numbers.count(number) for number in dict.fromkeys(numbers)}
    return Running(tuple(counts.items()))
