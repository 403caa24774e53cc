"""Tree and part files as wholes, for pydantic."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Discriminator, Tag

from .kinds import Id, NodeId, ParameterId, Shape, Text
from .node_shapes import NODES, Nodes
from .shapes import Allows, ConditionShape, States


class TreeShape(Shape):
    """A decision tree: from a symptom to a safe action and one referral."""

    tree: Id
    """The tree's name: the file's, without .yaml."""
    symptom: Text
    """What a person would say; the start screen searches it."""
    also: list[Text] | None = None
    """Other words for it."""
    tells: list[Text] | None = None
    """What the tree tells apart, in short phrases; the list of trees shows them."""
    about: Text | None = None
    """What the tree does, in a sentence or two."""
    starts: States | None = None
    """What holds when a walk begins here; what is not named is unknown."""
    begin: NodeId
    """The first node."""
    nodes: Nodes
    """The nodes, by name."""
    allows: Allows | None = None
    """Rules of wording or style that the linter shall not tell in this file, each with the reason."""


class PartShape(Shape):
    """A piece of a tree that several trees put in."""

    part: Id
    """The part's name: the file's, without .yaml."""
    about: Text | None = None
    """What the part does, in a sentence or two."""
    takes: list[ParameterId] | None = None
    """Parameters: `$name` is one as a whole value, {name} in a text."""
    exits: list[NodeId] | None = None
    """Names of the ways out; whoever puts the part in says where each leads."""
    begin: NodeId
    """The first node."""
    nodes: Nodes
    """The nodes, by name."""
    allows: Allows | None = None
    """Rules of wording or style that the linter shall not tell in this file, each with the reason."""


def _file_kind(value: Any) -> str:
    part = isinstance(value, PartShape) or (isinstance(value, dict) and "part" in value)
    return "#part-file" if part else "#tree-file"


File = Annotated[
    Annotated[TreeShape, Tag("#tree-file")] | Annotated[PartShape, Tag("#part-file")],
    Discriminator(_file_kind),
]

TAGS: dict[Any, type[Shape]] = {
    **{f"#{kind}": shape for kind, shape in NODES.items()},
    "#tree-file": TreeShape,
    "#part-file": PartShape,
    "#span": ConditionShape,
}
"""pydantic names the tag in the place of an error: the shape it stands for."""
