"""The shape of `site/safety.yaml`, for pydantic."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Field, Tag

from .kinds import Amount, Call, Id, MeterMode, OneOf, Shape, Text, What, Worst
from .model import VERDICTS
from .safety import ANY

WHERES = ("pedestal", "rig")


def _one_of(says: str, *names: str) -> OneOf:
    return OneOf(says, names, parameter=False)


def _many(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


Words = Annotated[list[Id], BeforeValidator(_many), Field(min_length=1)]
Facts = Annotated[dict[Id, Words], Field(min_length=1)]
"""States and the values that will do; also energised, look, judged and slots."""

FactsOrNames = Annotated[
    Annotated[Facts, Tag("#facts")] | Annotated[Words, Tag("#names")],
    Discriminator(lambda value: "#facts" if isinstance(value, dict) else "#names"),
]
Touched = Annotated[str, _one_of("where a hand can go", *WHERES, ANY)]
Ended = Annotated[str, _one_of("a verdict", *VERDICTS, ANY)]
Yes = Annotated[str, _one_of("an answer", "yes")]


class EventShape(Shape):
    """Something that happens: one of touch, measure, set, energise, ask, end, sign, grade, state."""

    touch: Annotated[list[Touched], BeforeValidator(_many), Field(min_length=1)] | None = None
    """A hand goes to the pedestal or the rig, as signs by hand, states and places say."""
    measure: Words | None = None
    """Probes go to a place, a kind of place, or any."""
    set: FactsOrNames | None = None
    """A step changes a state: to a value, or at all."""
    energise: Annotated[list[Yes], BeforeValidator(_many), Field(min_length=1)] | None = None
    """The rig gets power: cord in and pedestal breaker on."""
    ask: Words | None = None
    """One of these signs is asked for."""
    end: Annotated[list[Ended], BeforeValidator(_many), Field(min_length=1)] | None = None
    """The walk ends with one of these verdicts."""
    sign: Facts | None = None
    """A sign had one of these answers."""
    grade: Worst | None = None
    """Something was graded so or worse."""
    state: Facts | None = None
    """A state surely came to a value."""
    side: Annotated[str, _one_of("a side of the plug", "park", "rig")] | None = None
    """Whose it is, as grades.yaml and signs.yaml say."""
    what: What | None = None
    """What is measured."""
    meter: MeterMode | None = None
    """How the meter is set."""
    between: list[Id] | None = None
    """The roles of the two terminals."""
    load: Annotated[list[Amount], BeforeValidator(_many), Field(min_length=1)] | None = None
    """The load that is on."""
    call: Call | None = None
    """Whom the ending calls."""
    while_: Annotated[Facts | None, Field(alias="while")] = None
    """What may hold at that moment."""


Events = Annotated[list[EventShape], BeforeValidator(_many), Field(min_length=1)]


class ClauseShape(Shape):
    """`before` and `need`, or `never` with `after`, `until` and `but` where wanted."""

    before: Events | None = None
    """At every such event ..."""
    need: Annotated[list[Facts], BeforeValidator(_many), Field(min_length=1)] | None = None
    """... these facts surely hold; of several sets any will do."""
    after: Events | None = None
    """Once this has happened ..."""
    until: Events | None = None
    """... and until this has ..."""
    never: Events | None = None
    """... this must not happen."""
    but: Events | None = None
    """This may happen all the same."""


class SafetyShape(Shape):
    """What no walk may lead to."""

    says: Text
    """The rule in a sentence."""
    why: Text | None = None
    """Why it is a rule."""
    holds: Annotated[list[ClauseShape], Field(min_length=1)] | None = None
    """What must hold on every walk."""
    held_by: Annotated[str, _one_of("what holds it", "lint", "walk")] | None = None
    """The program itself holds it: lint or walk."""
    bad: Text | None = None
    """A tree's nodes that break it."""
    good: Text | None = None
    """The same, keeping it."""
