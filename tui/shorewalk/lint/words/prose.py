"""What a file says to people: every text in it, where it stands, and its sentences."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from shorewalk.tree.model import Ask, End, Measure, Node, Route, Step, Tally, Written

from ..view import View

BREAK = re.compile(r"(?<=[.!?:;])\s+")
BRACKETS = str.maketrans("", "", "[]")
KINDS = {Ask: "ask", Step: "step", Tally: "tally", Measure: "says"}
"""The key of what a node of each kind says first of all."""


class Said(NamedTuple):
    """One text: the key it stands under, the route to it, and its sentences without brackets."""

    key: str
    route: Route
    text: str
    sentences: tuple[str, ...]


class Speech(NamedTuple):
    """All that a node says, in the order in which a person comes to read it."""

    node: Node
    said: tuple[Said, ...]


def prose(view: View) -> list[tuple[Written, list[Speech]]]:
    """Return what each file looked at says, node by node; it is taken apart once for each view."""
    if "prose" not in view.shown:
        view.shown["prose"] = [
            (written, [Speech(node, tuple(texts_of(node))) for node in written.nodes.values()])
            for written in view.files
        ]
    found: list[tuple[Written, list[Speech]]] = view.shown["prose"]
    return found


def texts_of(node: Node) -> Iterator[Said]:
    """Yield every text of a node; one that is a parameter of the file is said where it is given."""
    for at, text in bare_texts(node):
        yield Said(str(at[-1]), (*node.route, *at), text, sentences_of(text))


def bare_texts(node: Node) -> Iterator[tuple[Route, str]]:
    """Yield every text of a node with its route inside the node."""
    return ((at, text) for at, text in _texts(node) if text and not text.startswith("$"))


def sentences_of(text: str) -> tuple[str, ...]:
    """Return the sentences of a text. A colon or semicolon gives a reader as much rest as a full stop."""
    return tuple(BREAK.split(text.translate(BRACKETS).strip() if "[" in text else text.strip()))


def _texts(node: Node) -> Iterator[tuple[Route, str | None]]:
    if key := KINDS.get(type(node)):
        yield (key,), getattr(node, "text", None)
    if isinstance(node, Measure):
        yield ("normal",), node.normal
    if isinstance(node, Ask):
        yield from ((("choices", choice.id, "says"), choice.says) for choice in node.choices)
    if isinstance(node, End):
        for key in ("because", "safe_action", "call_when", "say"):
            yield (key,), getattr(node, key)
    yield ("hint",), node.hint
    yield ("why",), node.why
