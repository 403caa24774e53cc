"""The kinds of node, for pydantic; what each is and may have."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Discriminator, Field, Tag

from .kinds import (
    Call,
    CautionRef,
    Count,
    FaultRef,
    First,
    Id,
    LoadRef,
    NodeId,
    NodeRef,
    ParameterId,
    PartRef,
    Shape,
    SignRef,
    Text,
    TreeRef,
    Verdict,
    YesNo,
)
from .shapes import Allows, BandShape, ChoiceShape, ProbesShape, RowShape, States, Way, WorkingShape


class NodeShape(Shape):
    """What every node may have."""

    why: Text | None = None
    """Why this is asked or done, for whoever wants to know."""
    hint: Text | None = None
    """How to do it, in a sentence or two."""
    group: Text | None = None
    """A heading, shown over this and over neighbours with the same one."""
    cautions: list[CautionRef] | None = None
    """Cautions to read before this, from site/cautions.yaml."""
    needs: States | None = None
    """States that must hold on every path here; the linter proves it."""
    at_most: Count | None = None
    """How often a walk may come here: every loop needs such a node. Goes with `spent`."""
    spent: Way | None = None
    """Where a walk goes that comes here once too often."""
    allows: Allows | None = None
    """Rules of wording or style that the linter shall not tell here, each with the reason."""


class AskShape(NodeShape):
    """A question about something seen, felt, heard, smelled or known."""

    ask: Text
    """The question, as the person reads it."""
    sign: SignRef
    """What is looked at, from site/signs.yaml. `choices` has exactly its answers."""
    choices: Annotated[dict[Id, ChoiceShape], Field(min_length=1)]
    """The answers of the sign, each with its words and its way. "Not sure" is added to them by itself."""
    unsure: Way | None = None
    """Where "not sure" leads: to the safe side. It takes the worst grade of the answers unless it has its own."""


class StepShape(NodeShape):
    """One action."""

    step: Text
    """The action, its verb first."""
    leaves: States | None = None
    """States as they are once it is done."""
    done: Way
    """Where the walk goes once it is done."""
    cannot: Way | None = None
    """Where it goes when that cannot be done, or perhaps only in part."""


class MeasureShape(NodeShape):
    """One reading with the meter."""

    measure: ProbesShape
    """What is measured, and where the probes go."""
    says: Text | None = None
    """Words instead of the sentence made from the probes."""
    normal: Text | None = None
    """What is normal, instead of the words in site/grades.yaml."""
    next: Way | None = None
    """Where the walk goes; the reading is judged later."""
    bands: Annotated[list[BandShape], Field(min_length=1)] | None = None
    """The reading judged alone: rising limits, each band with its grade and way."""
    unable: Way | None = None
    """Where it goes when that cannot be measured."""


class WorkShape(NodeShape):
    """Arithmetic on readings taken before; asks nothing."""

    work: WorkingShape
    """The function, its arguments and the name of its result."""
    next: Way | None = None
    """Where the walk goes; the result is judged later."""
    bands: Annotated[list[BandShape], Field(min_length=1)] | None = None
    """The result judged alone."""
    missing: Way | None = None
    """Where the walk goes when a reading was not taken."""


class TallyShape(NodeShape):
    """Ticking what is running, added up."""

    tally: Text
    """The request, as the person reads it."""
    from_: Annotated[list[LoadRef], Field(alias="from", min_length=1)]
    """What may be ticked, from site/loads.yaml."""
    at_voltage: NodeRef | None = None
    """The node whose reading the loads run at; 120 V where it is not named."""
    out: Id | None = None
    """The name of the result; total-amps where it is not named."""
    next: Way | None = None
    """Where the walk goes; the sum is judged later."""
    bands: Annotated[list[BandShape], Field(min_length=1)] | None = None
    """The sum judged alone."""
    unsure: Way | None = None
    """Where not knowing leads: to the safe side."""
    nothing: YesNo | None = None
    """Whether nothing of these may have run, where the sum is judged later. With bands it may in any case."""


class JudgeShape(NodeShape):
    """Branches on what is known; asks nothing. The first row that may be met counts."""

    judge: Annotated[list[RowShape], Field(min_length=1)]
    """Rows, worst first; the last has no condition."""
    of: list[NodeRef] | None = None
    """The nodes it waits for, and that its row's grade counts for."""
    missing: Way | None = None
    """Where the walk goes when one of them was not taken."""


class UseShape(NodeShape):
    """A part put in here."""

    part: PartRef
    """The part, from parts/ beside the trees, else a shipped one."""
    with_: Annotated[dict[ParameterId, Text] | None, Field(alias="with")] = None
    """The part's parameters: a value for each name it `takes`."""
    exits: dict[NodeId, Way] | None = None
    """Where each exit of the part leads; none may be left out."""


class JumpShape(NodeShape):
    """The walk goes on in another tree."""

    tree: TreeRef
    """The other tree; states, readings and grades are taken along."""


class EndShape(NodeShape):
    """An ending: a safe action and one referral."""

    end: Verdict
    """The verdict. emergency: emergency services first. unplug-now: power off, cord out. stay-unplugged: the cord stays
    out. unplugged: all is off and out, nothing wrong was found. hands-off: nobody touches anything until help has
    been. leave-as-is: nothing was found, nothing was changed, the outlet was not judged. use-with-care and
    good-to-use: the readings carry it."""
    because: Text
    """What led here, in plain words."""
    safe_action: Text | None = None
    """What to do now, in short sentences; safe however things stand."""
    call: Call | None = None
    """Whom to call, one of the two: park (the pedestal and what feeds it) or electrician (the rig)."""
    call_when: Text | None = None
    """When to call, in words that go on after "if": needed where nothing has to be done now."""
    first: First | None = None
    """Whom to call before that: emergency-services."""
    say: Text | None = None
    """The words to say. {readings}, {site} and {node} are filled in; [...] drops out where one in it is unknown."""
    not_ruled_out: list[FaultRef] | None = None
    """Faults that stay possible, from site/faults.yaml."""


NODES: dict[str, type[NodeShape]] = {
    "ask": AskShape,
    "step": StepShape,
    "measure": MeasureShape,
    "work": WorkShape,
    "tally": TallyShape,
    "judge": JudgeShape,
    "part": UseShape,
    "tree": JumpShape,
    "end": EndShape,
}


def _node_kind(value: Any) -> str | None:
    if isinstance(value, NodeShape):
        kinds = [kind for kind, shape in NODES.items() if type(value) is shape]
    else:
        kinds = [kind for kind in NODES if kind in value] if isinstance(value, dict) else []
    return f"#{kinds[0]}" if len(kinds) == 1 else None


NodeUnion = Annotated[
    Annotated[AskShape, Tag("#ask")]
    | Annotated[StepShape, Tag("#step")]
    | Annotated[MeasureShape, Tag("#measure")]
    | Annotated[WorkShape, Tag("#work")]
    | Annotated[TallyShape, Tag("#tally")]
    | Annotated[JudgeShape, Tag("#judge")]
    | Annotated[UseShape, Tag("#part")]
    | Annotated[JumpShape, Tag("#tree")]
    | Annotated[EndShape, Tag("#end")],
    Discriminator(_node_kind, custom_error_type="no_kind", custom_error_message="one kind"),
]

Nodes = Annotated[dict[NodeId, NodeUnion], Field(min_length=1)]
