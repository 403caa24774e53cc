"""What a tree is, once read: frozen, free of YAML, screens and clocks.

A `Written` tree or part is one file as its author wrote it: local names, `$parameters`,
parts not yet put in. A `Tree` is what a walk runs on: parts inlined, every name qualified
(`use.node`), every parameter filled in. Both are made of the same nodes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from .record import record

GRADES = ("ok", "watch", "stop", "danger")
"""Grades in rising order. `danger` is a stop after which hands stay off."""

AGAIN = "again"
"""Not a grade: the reading counts for nothing and is taken afresh."""

VERDICTS = (
    "emergency",
    "unplug-now",
    "stay-unplugged",
    "unplugged",
    "hands-off",
    "leave-as-is",
    "use-with-care",
    "good-to-use",
)
ALLOW_USE = ("use-with-care", "good-to-use")
CALLS = ("park", "electrician")

Pairs = tuple[tuple[str, str], ...]
"""State names and values, in the order written."""

Route = tuple[str | int, ...]
"""Keys and list positions from the top of a file down to one value."""


def worse(one: str | None, other: str | None) -> str | None:
    """Return the worse of two grades; `None` (no grade) and `again` give way to any grade."""
    known = [g for g in (one, other) if g in GRADES]
    return max(known, key=GRADES.index) if known else None


@record()
class Way:
    """A way out of a node: where to, the grade it gives, the state it leaves behind."""

    goto: str
    grade: str | None = None
    leaves: Pairs = ()


@record()
class Choice:
    """One answer to an ask."""

    id: str
    says: str
    way: Way


@record()
class Load:
    """What current flows while a reading is taken: none, one-leg, usual or heavy; and where."""

    amount: str = "none"
    at: str | None = None


@record()
class Band:
    """A stretch of the line up to a limit (`below` excludes it, `upto` includes it); the last has neither."""

    way: Way
    below: str | None = None
    upto: str | None = None


@record()
class Condition:
    """What a row asks of one node: an answer (`choice`) or a stretch of its reading (limit names)."""

    node: str
    choice: str | None = None
    from_: str | None = None  # at or over
    above: str | None = None  # over
    below: str | None = None  # under
    upto: str | None = None  # at or under


@record()
class Row:
    """One row of a judge; every part named must be met. A row with no part is always met."""

    way: Way
    when: tuple[Condition, ...] = ()
    while_: Pairs = ()
    worst: str | None = None  # the worst grade so far is this one or worse
    lacks: str | None = None  # this look was not taken, or no longer holds


@record(kw_only=True)
class Node:
    """What every node has. `file` and `route` say where it was written."""

    name: str
    file: str = ""
    route: Route = ()
    why: str | None = None
    hint: str | None = None
    group: str | None = None  # a heading over neighbouring steps
    cautions: tuple[str, ...] = ()
    needs: Pairs = ()  # must hold on every path here
    at_most: int | None = None
    spent: Way | None = None
    allows: Pairs = ()  # rules the linter shall not tell here, and why (only in a `Written`)


@record(kw_only=True)
class Ask(Node):
    """A question about a sign."""

    text: str
    sign: str
    choices: tuple[Choice, ...]
    unsure: Way | None


@record(kw_only=True)
class Step(Node):
    """One action."""

    text: str
    leaves: Pairs = ()
    done: Way
    cannot: Way | None


@record(kw_only=True)
class Measure(Node):
    """One reading with the meter."""

    what: str
    place: str
    from_: str
    to: str
    load: Load = Load()
    meter: str = "normal"
    text: str | None = None  # instead of the sentence made from the probes
    normal: str | None = None  # instead of the quantity's
    next: Way | None = None
    bands: tuple[Band, ...] = ()
    unable: Way | None


@record(kw_only=True)
class Work(Node):
    """Arithmetic on readings taken before; asks nothing."""

    out: str
    using: str
    inputs: Pairs  # argument of the function, node
    next: Way | None = None
    bands: tuple[Band, ...] = ()
    missing: Way | None


@record(kw_only=True)
class Tally(Node):
    """What is running, added up to amps."""

    text: str
    loads: tuple[str, ...]
    at_voltage: str | None = None  # a node; the nominal 120 V where it is not named
    out: str = "total-amps"
    next: Way | None = None
    bands: tuple[Band, ...] = ()
    unsure: Way | None
    nothing: bool = False  # said of one without bands; where 0 A is judged it is an answer in any case

    @property
    def takes_nothing(self) -> bool:
        """Whether "nothing of these" is an answer: 0 A. What a sum divides by is never nothing."""
        return self.nothing or bool(self.bands)


@record(kw_only=True)
class Judge(Node):
    """Branches on what is known; asks nothing."""

    rows: tuple[Row, ...]
    of: tuple[str, ...] = ()  # nodes it waits for, and that its row's grade counts for
    missing: Way | None = None


@record(kw_only=True)
class Use(Node):
    """A part put in here (only in a `Written`)."""

    part: str
    with_: Pairs = ()
    exits: tuple[tuple[str, Way], ...] = ()


@record(kw_only=True)
class Jump(Node):
    """The walk goes on at the beginning of another tree."""

    tree: str


@record(kw_only=True)
class End(Node):
    """A verdict with a safe action and one referral."""

    verdict: str
    because: str
    safe_action: str | None
    call: str | None
    call_when: str | None = None
    first: str | None = None
    say: str | None = None
    not_ruled_out: tuple[str, ...] = ()


@record(kw_only=True)
class Written:
    """One file as written. A part has `takes` and `exits`; a tree has `symptom` and `starts`."""

    kind: str  # "tree" or "part"
    name: str
    file: str
    begin: str
    about: str | None = None
    nodes: Mapping[str, Node] = field(default_factory=dict)
    symptom: str = ""
    also: tuple[str, ...] = ()
    tells: tuple[str, ...] = ()
    starts: Pairs = ()
    takes: tuple[str, ...] = ()
    exits: tuple[str, ...] = ()
    allows: Pairs = ()  # rules the linter shall not tell in this file, and why


@record(kw_only=True)
class Tree:
    """A tree to walk: parts inlined, names qualified, every `Way.goto` the name of a node here."""

    name: str
    file: str
    symptom: str
    begin: str
    about: str | None = None
    also: tuple[str, ...] = ()
    starts: Pairs = ()
    nodes: Mapping[str, Node] = field(default_factory=dict)


def ways_out(node: Node) -> list[tuple[str, Way]]:
    """Return every way out of `node` with its label, in the order written; a jump and an end have none.

    Labels: `choose NAME`, `unsure`, `done`, `cannot`, `unable`, `missing`, `next`, `band N`,
    `row N` (from 1), `exit NAME`, `spent`.
    """
    ways: list[tuple[str, Way | None]] = []
    match node:
        case Ask():
            ways += [(f"choose {c.id}", c.way) for c in node.choices]
            ways.append(("unsure", node.unsure))
        case Step():
            ways += [("done", node.done), ("cannot", node.cannot)]
        case Measure() | Work() | Tally():
            ways.append(("next", node.next))
            ways += [(f"band {i}", band.way) for i, band in enumerate(node.bands, 1)]
            last = (
                "unable" if isinstance(node, Measure) else "missing" if isinstance(node, Work) else "unsure"
            )
            ways.append((last, getattr(node, last)))
        case Judge():
            ways += [(f"row {i}", row.way) for i, row in enumerate(node.rows, 1)]
            ways.append(("missing", node.missing))
        case Use():
            ways += [(f"exit {name}", way) for name, way in node.exits]
    ways.append(("spent", node.spent))
    return [(label, way) for label, way in ways if way is not None]
