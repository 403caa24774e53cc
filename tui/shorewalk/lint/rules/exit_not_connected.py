"""Whoever puts a part in says where each of its exits leads; and a part leaves by every exit it names.

Bad:

    nodes:
      shut:
        part: shut-rig
        exits: {"off": stop_here}

Good:

    nodes:
      shut:
        part: shut-rig
        exits: {"off": stop_here, cannot: stop_here}
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Use, Written, ways_out
from shorewalk.tree.words import choose_from, listed, quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View, uses_in

ID = "exit-not-connected"


def check(view: View) -> Iterator[Finding]:
    """Find exits that lead nowhere, are not there, or are never taken."""
    for written in view.files:
        for use in uses_in(written):
            yield from _connected(view, use)
        if written.kind == "part":
            yield from _taken(view, written)


def _connected(view: View, use: Use) -> Iterator[Finding]:
    part = view.part(use.part)
    if part is None:
        return
    exits = [name for name, _ in use.exits]
    there = Related(view.place(part.file, ("exits",), key=True), f"the exits of the part {part.name}")
    if open_ := [name for name in part.exits if name not in exits]:
        message = f"The part {quoted(part.name)} may also leave by {listed(map(quoted, open_), 'and')}."
        hint = "Say under `exits` where that leads: to the safe side."
        yield Finding(ID, Severity.ERROR, view.of(use, "part"), message, (there,), hint)
    for name in exits:
        if name not in part.exits:
            message = f"The part {quoted(part.name)} has no exit {quoted(name)}."
            place = view.of(use, "exits", name, key=True)
            hint = choose_from(name, part.exits).strip()
            yield Finding(ID, Severity.ERROR, place, message, (there,), hint)


def _taken(view: View, part: Written) -> Iterator[Finding]:
    taken = {way.goto for node in part.nodes.values() for _, way in ways_out(node)}
    for at, name in enumerate(part.exits):
        if name not in taken:
            message = f"No node of this part leaves by {quoted(name)}."
            place = view.place(part.file, ("exits", at))
            yield Finding(ID, Severity.WARNING, place, message, hint="Take it out, or let a node lead there.")


RULE = Rule(ID, "Every exit of a part leads somewhere, and some node leaves by it.", check, site=False)
