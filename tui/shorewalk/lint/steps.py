"""The places of the nodes that a path names, for programs that let a person step along it."""

from __future__ import annotations

import re

from shorewalk.tree.model import Node, Tree

from .finding import Finding, Related
from .view import View

WORDS = re.compile(r"(?P<name>\S+)(?: (?P<begins>begins)| \((?:on to (?P<tree>.+)|.*)\))?")
"""A step in words: `TREE begins`, `NODE (way)`, `NODE (on to TREE)` or `NODE`."""


def steps_of(finding: Finding, view: View) -> tuple[Related, ...]:
    """Return the steps of a finding's path that are nodes, each with where it is written."""
    steps: list[Related] = []
    tree: Tree | None = None
    for words in finding.path:
        step = WORDS.fullmatch(words)
        if step is None:
            continue
        if step["begins"]:
            tree = view.tree(step["name"])
        elif node := _node(step["name"], finding, tree, view):
            steps.append(Related(view.of(node), words))
        if step["tree"]:
            tree = view.tree(step["tree"])
    return tuple(steps)


def _node(name: str, finding: Finding, tree: Tree | None, view: View) -> Node | None:
    """Return a node of the tree that is walked, or of the file that the finding is in."""
    if tree and name in tree.nodes:
        return tree.nodes[name]
    if tree:
        return None
    written = next((each for each in view.files if each.file == finding.place.file), None)
    return written.nodes.get(name) if written else None
