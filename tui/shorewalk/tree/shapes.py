"""The pieces nodes are made of, for pydantic: ways, choices, bands, rows, probes, arithmetic.

Nothing that walks imports this. The sentences below the keys are what an editor shows beside them.
"""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Field, Tag

from .kinds import (
    Amount,
    Grade,
    Id,
    LimitRef,
    LookId,
    MeterMode,
    NodeId,
    NodeRef,
    PlaceRef,
    Reason,
    Ref,
    Shape,
    TerminalRef,
    Text,
    What,
    Worst,
)
from .known_names import NAMES

States = Annotated[dict[Id, Ref], Field(json_schema_extra={NAMES: "states"})]
Allows = dict[Id, Reason]


class WayShape(Shape):
    """A way out of a node."""

    goto: NodeRef
    """The node, or the part's exit, where the walk goes on."""
    grade: Grade | None = None
    """How bad this is. ok; watch: usable with care; stop: not to be used; danger: a stop after which hands stay off;
    again: the reading counts for nothing and is taken afresh."""
    leaves: States | None = None
    """States as they are after this way was taken."""


def _long(way: Any) -> Any:
    return {"goto": way} if isinstance(way, str) else way


Way = Annotated[WayShape, BeforeValidator(_long, json_schema_input_type=NodeRef | WayShape)]


class ChoiceShape(WayShape):
    """One answer to a question."""

    says: Text
    """The answer in words, as the person reads it."""


class BandShape(WayShape):
    """A stretch of a reading, up to its limit."""

    below: LimitRef | None = None
    """The limit that ends this band; the limit itself belongs to the next."""
    upto: LimitRef | None = None
    """The limit that ends this band and belongs to it."""


class ConditionShape(Shape):
    """A stretch of a reading or result."""

    from_: Annotated[LimitRef | None, Field(alias="from")] = None
    """At this limit or over it."""
    above: LimitRef | None = None
    """Over this limit."""
    below: LimitRef | None = None
    """Under this limit."""
    upto: LimitRef | None = None
    """At this limit or under it."""


def _condition_kind(value: Any) -> str:
    return "#answer" if isinstance(value, str) else "#span"


Condition = Annotated[
    Annotated[Ref, Tag("#answer")] | Annotated[ConditionShape, Tag("#span")], Discriminator(_condition_kind)
]


class RowShape(WayShape):
    """One row of a judge; every part named must be met."""

    when: dict[NodeRef, Condition] | None = None
    """Nodes with the answer or the stretch of reading they must have."""
    while_: Annotated[States | None, Field(alias="while")] = None
    """States that may hold: where that is not known, the row counts."""
    worst: Worst | None = None
    """The worst grade so far is this one or worse."""
    lacks: LookId | None = None
    """This look at the outlet in use was not taken, or no longer holds."""


class LoadShape(Shape):
    """What current flows while a reading is taken."""

    amount: Amount
    """none, one-leg (the test load), usual or heavy."""
    at: PlaceRef | None = None
    """The place the load hangs on."""


class ProbesShape(Shape):
    """What is measured, and where the two probes go."""

    what: What
    """What the meter is set to."""
    place: PlaceRef
    """The place, from site/places.yaml."""
    from_: Annotated[TerminalRef, Field(alias="from")]
    """The terminal of the first probe, as L1, N, G or earth."""
    to: TerminalRef
    """The terminal of the second probe."""
    load: LoadShape | None = None
    """What current flows meanwhile; none where it is not named."""
    meter: MeterMode | None = None
    """normal, or low-impedance (between hot and neutral only)."""


class WorkingShape(Shape):
    """A piece of arithmetic on readings taken before."""

    out: Id
    """The name of the result; its least grades are under `results` in site/grades.yaml."""
    using: NodeId
    """The function, by its name. A name that is not there is told by the linter, with those that are."""
    from_: Annotated[dict[NodeId, NodeRef], Field(alias="from")]
    """The function's arguments, and the nodes whose readings they are."""
