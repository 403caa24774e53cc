"""A step is one action: "done" then means that all of it was done, and "cannot" tells what could not.

What limits an action ("Touch nothing else", "Once only") is no action of its own, nor is its alternative
("or ..."). Two orders in a row are two steps, or one step and a hint.

Bad:

    nodes:
      off:
        step: Switch the test load off, then unplug it.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      off:
        step: Switch the test load off.
        hint: Touch nothing else. It is unplugged next.
        done: unplug
        cannot: stop_here
      unplug:
        step: Unplug the test load.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.model import Step
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "one-action"

VERBS = (
    "ask bring call carry check choose clip close coil connect count disconnect dry fetch find fit get give go have "
    "hold join lay lift lock look make measure move open plan plug point pour press pull push put read "
    "remove reset rest ring say see set shut stand start step stop switch take tell test tick touch try turn uncoil "
    "unplug use wait walk warn watch wear wind write"
)
"""What people are told to do at a pedestal. Another verb is not counted: better a fault untold than a false alarm."""

AFTER = (
    "a an the this that these those it its them all both each every any one two three your our somebody everybody "
    "whoever whatever what which how where until for off on out in into to at from with again up down away back"
)
"""What follows an order, and not the same word as the name of a thing: `and plug it in`, not `cord and plug`."""

VERB = rf"(?:{'|'.join(VERBS.split())})"
BEGINS = re.compile(rf"({VERB})\b", re.IGNORECASE)
JOINED = re.compile(rf"\b(?:and|then) (?:then )?({VERB}) (?=(?:{'|'.join(AFTER.split())})\b)", re.IGNORECASE)
LIMITS = re.compile(r"\b(?:no|not|never|nothing|nobody|only|away)\b|n't\b", re.IGNORECASE)


def check(view: View) -> Iterator[Finding]:
    """Find steps that ask for several actions."""
    for written, speeches in prose(view):
        for speech in speeches:
            if not isinstance(speech.node, Step) or not speech.said or speech.said[0].key != "step":
                continue
            said = speech.said[0]
            orders = [order for sentence in said.sentences for order in orders_in(sentence)]
            if len(orders) > 1:
                named = listed(map(quoted, orders), "and")
                message = f"The step asks for {len(orders)} actions: {named}."
                place = view.place(written.file, said.route)
                hint = "Make two steps of it, or say in the hint what goes with it."
                yield Finding(ID, Severity.WARNING, place, message, hint=hint)


def orders_in(sentence: str) -> list[str]:
    """Return the verbs of the orders in a sentence; of one that only sets a limit there are none."""
    if LIMITS.search(sentence):
        return []
    first = BEGINS.match(sentence)
    return [*([first[1].lower()] if first else []), *map(str.lower, JOINED.findall(sentence))]


RULE = Rule(
    ID,
    "A step asks for one action.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
