"""The shapes of the files in `trees/site/`, for pydantic."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field

from .facts import CAUTIONED, LOOKS
from .kinds import AMOUNTS, WHATS, Id, Number, OneOf, Shape, TerminalId, Text, YesNo
from .model import AGAIN, GRADES
from .safety_shapes import SafetyShape
from .shapes import Allows

ROLES = ("hot", "neutral", "ground", "earth", "skin", "other-ground", "plus", "minus", "pin", "metal")
PLACES = ("outlet", "cord-end", "rig-outlet", "skin", "pin", "battery")
UNITS = ("V", "A", "mA", "Hz", "ohm", "W", "%", "C", "s", "1")


def _one_of(says: str, *names: str) -> OneOf:
    return OneOf(says, names, parameter=False)


Role = Annotated[str, _one_of("a terminal's role", *ROLES)]
PlaceKind = Annotated[str, _one_of("a kind of place", *PLACES)]
Unit = Annotated[str, _one_of("a unit", *UNITS)]
Where = Annotated[str, _one_of("where it is", "pedestal", "rig")]
Side = Annotated[str, _one_of("a side of the plug", "park", "rig")]
OnOff = Annotated[str, _one_of("a breaker's state", "on", "off")]
Amount = Annotated[str, _one_of("an amount of load", *AMOUNTS)]
What = Annotated[str, _one_of("something a meter reads", *WHATS)]
LookId = Annotated[str, _one_of("a look", *LOOKS)]
LimitKind = Annotated[str, _one_of("a kind of limit", "hazard", "supply", "surely")]
Sense = Annotated[str, _one_of("a sense", "eye", "hand", "ear", "nose", "detector", "knowledge")]
Follows = Annotated[str, _one_of("a way current follows voltage", "resistive", "constant-power", "motor")]
Cautioned = Annotated[str, _one_of("something a caution is for", *CAUTIONED)]
Grade = Annotated[str, _one_of("a grade", *GRADES, AGAIN)]
MaybeGrade = Annotated[str, _one_of("a grade", *GRADES, "")]
Span = Annotated[list[Number], Field(min_length=2, max_length=2)]


class AllowsShape(Shape):
    """What a file of facts says beside them."""

    allows: Allows | None = None
    """Rules of wording or style that the linter shall not tell in this file, each with the reason."""


class LimitShape(Shape):
    """A number a tree may cut at."""

    value: Number
    """The number, in quotes."""
    unit: Unit
    """V, A, Hz, ohm, % and the like; 1 for a ratio."""
    kind: LimitKind
    """How a reading near it is graded: hazard, supply or surely."""
    shown: Number | None = None
    """With `surely`: what a meter shows beyond this is over, however far that meter may be off."""
    says: Text
    """The limit in words."""
    source: Text
    """The standard, clause and edition, or common practice."""


class TerminalShape(Shape):
    """Something a probe touches."""

    role: Role
    """What it is meant to be."""
    says: Text
    """How a person finds it."""


class LookShape(Shape):
    """Readings that together are evidence about an outlet."""

    pairs: list[Text]
    """Pairs of terminals: `L N` here, `rig-outlet-a L N` elsewhere."""
    load: Amount | None = None
    """The load it wants."""
    breaker: OnOff | None = None
    """How the pedestal breaker stands while it is read; on where nothing is said."""
    shows: list[Id] | None = None
    """Faults that stay possible without it."""
    voided_by: dict[Id, Text] | None = None
    """What makes it count no longer; `age`: after how many minutes, while the power is not on yet."""


class PlaceShape(Shape):
    """Where probes go."""

    says: Text
    """The place in words."""
    kind: PlaceKind
    """What kind of place it is."""
    at: Where
    """pedestal or rig."""
    terminals: dict[TerminalId, TerminalShape]
    """Its terminals."""
    face: Text | None = None
    """The drawing that shows it."""
    touches: Where | None = None
    """Where a hand goes to measure there, besides the probes."""
    looks: dict[LookId, LookShape] | None = None
    """The looks at it."""
    hidden: list[Id] | None = None
    """Faults no look shows."""


class CutShape(Shape):
    """One stretch of a least-grade line."""

    below: Id | None = None
    """The limit that ends it; the limit itself belongs to the next."""
    upto: Id | None = None
    """The limit that ends it and belongs to it."""
    grade: Grade | None = None
    """The least grade."""


class ResultShape(Shape):
    """Least grades of what a work or tally gives."""

    says: Text
    """The result in words."""
    unit: Unit
    """Its unit; 1 for a ratio."""
    small: YesNo | None = None
    """yes where a meter that shows tenths is wanted."""
    floor: list[CutShape] | None = None
    """The least grades, along rising limits."""


class QuantityShape(ResultShape):
    """A kind of reading; the first that fits a measure counts."""

    what: What
    """What the meter is set to."""
    between: Annotated[list[Role], Field(min_length=2, max_length=2)]
    """The roles of the two terminals, in either order."""
    at: PlaceKind | None = None
    """The kind of place; any where it is not named."""
    load: list[Amount] | None = None
    """Amounts of load it covers; any where none is named."""
    breaker: OnOff | None = None
    """What the measure's `needs` says of the pedestal breaker; anything where it is not named."""
    side: Side | None = None
    """Whose a stop here is: park or rig."""
    normal: Text | None = None
    """What is normal, in words."""
    expects: Span | None = None
    """The usual span; a reading ten times off is asked again."""
    plausible: Span | None = None
    """The span outside which a reading is refused."""


class GradesShape(Shape):
    """Least grades: a tree may be stricter, never milder."""

    quantities: dict[Id, QuantityShape] | None = None
    """Kinds of reading."""
    results: dict[Id, ResultShape] | None = None
    """What arithmetic gives."""


class SignShape(Shape):
    """Something seen, felt, heard, smelled or known."""

    says: Text
    """The sign in words."""
    by: Sense
    """eye, hand, ear, nose, detector or knowledge."""
    at: Where | None = None
    """pedestal or rig."""
    side: Side | None = None
    """Whose a stop here is: park or rig."""
    answers: dict[Id, MaybeGrade]
    """The answers, each with its least grade or none."""


class StateShape(Shape):
    """What a walk keeps track of."""

    says: Text
    """The state in words."""
    values: Annotated[list[Id], Field(min_length=2)]
    """Its values."""
    groups: dict[Id, list[Id]] | None = None
    """Names for several values."""
    touches: dict[Id, Where] | Where | None = None
    """Where a hand goes to change it; by value where that differs."""
    resets: dict[Id, dict[Id, Id]] | None = None
    """By the value reached: what else falls back."""
    begins: Id | None = None
    """How it stands when a walk begins, whatever the tree."""


class ApplianceShape(Shape):
    """A load."""

    says: Text
    """The appliance in words."""
    watts: Span
    """The low and the high figure at 120 V."""
    follows: Follows
    """How its current follows the voltage."""
    source: Text
    """Where the figures are from."""
    starting: Span | None = None
    """Amps while it starts."""


class CautionShape(Shape):
    """A caution."""

    text: Text
    """The caution in full."""
    short: Text
    """The same in few words, before each live measurement."""
    source: Text
    """Where it is from."""
    when: list[Cautioned] | None = None
    """What it is for: probe, probe-battery, touch-pedestal, switch-breaker, plug-in, power-the-rig. Read by then."""
    asked: list[Id] | None = None
    """Signs before which it is read."""


class FaultShape(Shape):
    """A fault in words, for what was not ruled out."""

    says: Text
    """The fault in words."""


class HeadingShape(Shape):
    """A heading of the start."""

    says: Text
    """The heading in words."""
    trees: list[Id]
    """The trees under it, in the order in which they are listed; one that is not there is left out."""


SITE: dict[str, Any] = {
    "limits": dict[Id, LimitShape],
    "places": dict[Id, PlaceShape],
    "grades": GradesShape,
    "signs": dict[Id, SignShape],
    "states": dict[Id, StateShape],
    "loads": dict[Id, ApplianceShape],
    "cautions": dict[Id, CautionShape],
    "faults": dict[Id, FaultShape],
    "headings": dict[Id, HeadingShape],
    "safety": dict[Id, SafetyShape],
}
