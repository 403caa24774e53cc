"""From a tree to its checklist."""

from __future__ import annotations

from shorewalk.tree.library import Library

from .desk import Desk, spoken
from .front import front_of
from .step import Call, Checklist, Section
from .uses import Uses
from .words import step_of


def checklist(library: Library, name: str) -> Checklist:
    """Return the checklist of a tree; raise `TreeError` where it cannot be read or a name in it means nothing."""
    library.tree(name)  # tells every name that means nothing
    desk = Desk(Uses(library, name))
    written = desk.written("")
    steps = {at: step_of(desk, at) for at in desk.numbers}
    sections = [Section("The steps", (), tuple(step for at, step in steps.items() if not at[0]))]
    for part in desk.letters:
        own = tuple(step for at, step in steps.items() if at[0] == part)
        sections.append(Section(_title(desk, part), tuple(_calls(desk, part)), own))
    front = front_of(desk, steps)
    return Checklist(name, written.symptom or name, front, tuple(sections), desk.lost())


def _title(desk: Desk, part: str) -> str:
    words = desk.names_part(part)
    return words[:1].upper() + words[1:]


def _calls(desk: Desk, part: str) -> list[Call]:
    found = []
    for number, where, use in desk.calls(part):
        given = tuple((spoken(name), desk.given_words(where, word)) for name, word in use.with_)
        found.append(Call(number, given))
    return found
