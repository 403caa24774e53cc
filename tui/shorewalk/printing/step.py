"""What a paper checklist is made of, before any format is known."""

from __future__ import annotations

from typing import Literal

from shorewalk.paper.blocks import Block
from shorewalk.tree.record import record

Kind = Literal["ask", "step", "measure", "work", "tally", "judge", "part", "jump", "end"]
At = tuple[str, str]
"""A node as written: the printed part it stands in (`""` for the tree itself), and its name there."""


@record()
class Ahead:
    """A line to take out of a step. `to` is where it leads; `None` where the caller of a part says where.

    `key` is the way's label in the model; `goes` is what is printed: `-> 41`, `-> back: SOUND`.
    """

    key: str
    says: str
    goes: str
    to: At | None
    grade: str | None = None
    note: str = ""
    tick: bool = False


@record(kw_only=True)
class Step:
    """One numbered step: what to do, what to mind, lines to write on, and the lines to take.

    `lines` have a lead (`Mind`, `Why`) and a text; `loads` are rows of a table to tick.
    """

    at: At
    number: int
    kind: Kind
    does: str
    text: str
    group: str | None = None
    lines: tuple[tuple[str, str], ...] = ()
    fields: tuple[str, ...] = ()
    loads: tuple[str, ...] = ()
    ahead: tuple[Ahead, ...] = ()
    mark: str | None = None  # an ending's verdict


@record()
class Call:
    """A place where a part is done: the step there, and what the part is given."""

    number: int
    given: tuple[tuple[str, str], ...]


@record()
class Section:
    """The tree's own steps, or those of one part; `calls` are empty for the tree itself."""

    title: str
    calls: tuple[Call, ...]
    steps: tuple[Step, ...]


@record()
class Drawing:
    """Lines that keep their places, as the face of an outlet does; `title` stands over them."""

    title: str
    rows: tuple[str, ...]


@record()
class Checklist:
    """The whole: what stands before the first step, then the sections. `lost` nodes nothing leads to."""

    name: str
    title: str
    front: tuple[Block | Drawing, ...]
    sections: tuple[Section, ...]
    lost: tuple[str, ...] = ()
