"""What a text orders fits how the walk ends, and what its node does.

An ending that says to stay unplugged or to keep hands off does not say to plug in, to switch on, to reset or to try
again: such words are what is left of a warning that lost its "not". Where an order has its condition beside it
("only", "when the park has answered") it stands. A hint tells nobody to plug in where the step does not.

Bad:

    nodes:
      out:
        end: stay-unplugged
        because: The plug is scorched.
        safe_action: Keep the cord out. Plug this cord in anywhere.
        call: electrician

Good:

    nodes:
      out:
        end: stay-unplugged
        because: The plug is scorched.
        safe_action: Keep the cord out. Do not plug this cord in anywhere. Try again only when it has been replaced.
        call: electrician
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.model import End, Node, Step
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "orders-fit"

BEGINS = r"^(?:then |still |just )?"
THAT = r"(?:this|that|the|an?) (?:outlet|adapter|cord|extension|plug|pedestal)"
IT = r"(?:(?:it|them|(?:the|this|that|your|our) [\w']+) )?"
PLUGS = rf"{BEGINS}(?:plug {IT}(?:back )?in|(?:push|put) (?:the|your|this) (?:plug|cord) (?:back )?in)\b"
STARTS = (
    PLUGS,
    rf"{BEGINS}(?:switch|turn) (?!off)[^.,;:!?]*\bon\b",
    rf"{BEGINS}reset\b",
    rf"{BEGINS}(?:use|try) (?:it|them|again|any|{THAT})\b",
    rf"{BEGINS}(?:start|run) (?:it|the)\b",
)
PULLS = rf"{BEGINS}pull (?:it|(?:the|your|this) (?:plug|cord))\b"
LIMITED = re.compile(
    r"\b(?:no|not|never|nothing|nobody|nowhere|only|nor|when|once|after|as soon as|if|unless)\b|n't\b",
    re.IGNORECASE,
)
"""Words that set a limit or a condition to an order in their sentence."""

OFF = ("emergency", "hands-off", "unplug-now", "stay-unplugged")
STAYS = ("hands-off", "leave-as-is", "stay-unplugged", "unplugged")
"""Verdicts after which nothing goes in or on, and those after which no plug comes out: it is out, or stays."""

AGAIN = re.compile("|".join(STARTS), re.IGNORECASE)
OUT = re.compile(PULLS, re.IGNORECASE)
IN = re.compile(PLUGS, re.IGNORECASE)
RESETS = re.compile(rf"{BEGINS}reset\b", re.IGNORECASE)
CLAUSE = re.compile(r"[,;:]\s+(?:and\s+)?|\s+and\s+", re.IGNORECASE)


def check(view: View) -> Iterator[Finding]:
    """Find orders that do not fit."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                if said.key in ("step", "ask", "hint", "safe_action", "call_when"):
                    for words, why in unfit(speech.node, said.sentences):
                        place = view.place(written.file, said.route)
                        message = f"The text orders {quoted(words)}, and {why}."
                        hint = 'Say what not to do, or when it may be done, as in "only when ...".'
                        yield Finding(ID, Severity.ERROR, place, message, hint=hint)


def unfit(node: Node, sentences: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Yield the orders of a text that do not fit its node, and why."""
    for sentence in sentences:
        if LIMITED.search(sentence):
            continue
        if not isinstance(node, End):
            if not _plugs(node) and (found := IN.search(sentence)):
                yield found[0], "nothing goes in here"
            elif not {"reset", "pedestal-breaker"} & _left(node) and (found := RESETS.search(sentence)):
                yield found[0], "nothing is reset here"
            continue
        for clause in CLAUSE.split(sentence):
            if node.verdict in OFF and (found := AGAIN.search(clause)):
                yield found[0], f"the walk ends {quoted(node.verdict)}"
            elif found := RESETS.search(clause):
                yield found[0], "a walk that has ended resets nothing"
            elif node.verdict in STAYS and (found := OUT.search(clause)):
                yield found[0], f"the walk ends {quoted(node.verdict)}"


def _left(node: Node) -> set[str]:
    return {name for name, _ in (*node.leaves, *node.done.leaves)} if isinstance(node, Step) else set()


def _plugs(node: Node) -> bool:
    return bool(_left(node) & {"cord", "protector", "adapter", "test-load"})


RULE = Rule(ID, "An order fits what its node does and how the walk ends.", check, site=False)
