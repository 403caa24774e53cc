"""What a walk shows of itself: what was answered, what was worked out, and where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from shorewalk.tree.facts import Caution, Quantity
from shorewalk.tree.model import Node
from shorewalk.tree.record import record

from .meter import Meter
from .outlook import Outlook


@record()
class Known:
    """An answer as the person sees it: `says` what it is about, `shows` the answer itself.

    `index` is its place in the walk's answers. Only readings have the fields from `place` on.
    `void`: it counts for nothing any more and is to be read again.
    """

    index: int
    tree: str
    at: str
    says: str
    shows: str
    grade: str | None = None
    note: str | None = None
    place: str | None = None
    from_: str | None = None
    to: str | None = None
    quantity: str | None = None
    value: float | None = None
    unit: str | None = None
    load: str | None = None
    low: float | None = None
    high: float | None = None
    void: bool = False
    sign: str | None = None
    time: str | None = None


@record()
class Worked:
    """A number worked out from readings. `low` and `high`: as far as the meter could be off.

    `formula` in words; `numbers` with the readings put in; `using` and `inputs` name it and them for programs.
    None stands for what is no number: over the range, or no value at all.
    """

    tree: str
    at: str
    out: str
    says: str
    value: float | None
    unit: str
    formula: str
    numbers: str
    shows: str
    low: float | None
    high: float | None
    grade: str | None = None
    note: str | None = None
    using: str = ""
    inputs: tuple[tuple[str, float], ...] = ()


@record()
class Position:
    """Where a walk stands: the question that is open (or the ending), and all that is known.

    `cautions` are to be read before acting, whole when `cautions_full`, else as reminders.
    `worked` holds what was worked out since the last answer, `worked_all` everything.
    `outlook` counts the steps left, when asked: that takes the whole tree.
    """

    tree: str
    node: Node
    nth: int
    step: int
    state: Mapping[str, str]
    energised: str | None  # yes, no, or None: not known
    known: tuple[Known, ...]
    worked: tuple[Worked, ...]
    worked_all: tuple[Worked, ...]
    notes: tuple[str, ...]
    worst: str | None
    outlet: str | None
    looks: Mapping[str, bool]
    cautions: tuple[Caution, ...]
    cautions_full: bool
    outlook: Outlook = field(repr=False, compare=False)
    meter: Meter
    text: str  # the question in words, placeholders filled in
    why: str | None = None
    hint: str | None = None
    normal: str | None = None  # of a measure: what one would expect to see
    quantity: Quantity | None = None
    ended: bool = False

    @property
    def left(self) -> tuple[int, int]:
        """The least and the most steps still to come, this one included, where nothing goes wrong."""
        return (0, 0) if self.ended else self.outlook.left(self.node.name)
