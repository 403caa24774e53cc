"""What all trees share: places, limits, least grades, signs, states, loads, cautions, faults.

Read from `trees/site/*.yaml` into frozen dataclasses by `site.read_site`; nothing here reads a file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from .model import Pairs
from .record import record

if TYPE_CHECKING:
    from .safety import SafetyRule  # no walk needs it


@record()
class Limit:
    """A number a tree may cut at. `kind`: hazard, supply or surely (see `walk.judge`).

    `shown`: for `surely`, beyond this as shown the limit is passed whatever the meter.
    """

    id: str
    value: float
    unit: str
    kind: str
    says: str
    source: str
    shown: float | None = None

    @property
    def marks(self) -> tuple[float, ...]:
        """The numbers at which a judgement by it may turn, for a meter that is right."""
        return (self.value,) if self.shown is None else (self.value, self.shown)


@record()
class Terminal:
    """`role`: hot, neutral, ground, earth, skin, other-ground, plus, minus, pin or metal."""

    id: str
    role: str
    says: str


@record()
class Pair:
    """Two terminals of one place."""

    place: str
    from_: str
    to: str


LOOKS = ("dead-look", "full-look", "earth-look", "look-a", "look-b", "skin")
"""Every look there is, in the order of arrival. The last is at the rig's metal."""


@record()
class Look:
    """Pairs that together are evidence about an outlet, the load and breaker they want, and what only they show."""

    id: str
    pairs: tuple[Pair, ...]
    load: str = "none"
    shows: tuple[str, ...] = ()  # faults that stay possible while this look was not taken
    voided_by: Pairs = ()
    lasts: float | None = None  # minutes that a reading counts while the power is not on; None: for good
    breaker: str = "on"  # of the pedestal, as the readings want it


@record()
class PlaceFact:
    """`at`: pedestal or rig. `face` names a drawing in `faces.py`; `hidden` faults no look shows."""

    id: str
    says: str
    kind: str  # outlet, cord-end, rig-outlet, skin, pin, battery
    at: str
    terminals: Mapping[str, Terminal]
    face: str | None = None
    looks: Mapping[str, Look] = field(default_factory=dict)
    hidden: tuple[str, ...] = ()
    touches: str | None = None  # where a hand goes to measure there, besides the probes


@record()
class Cut:
    """One stretch of a least-grade line, as in a tree's bands but without a way."""

    grade: str | None
    below: str | None = None
    upto: str | None = None


@record()
class Quantity:
    """A kind of reading: which measures it covers, what is normal, the least grades.

    `expects` is the usual span (for the slipped-point question), `plausible` the span outside
    which a reading is refused, both in `unit`. `small` quantities need a meter that shows tenths.
    """

    id: str
    says: str
    unit: str
    what: str
    between: tuple[str, str]
    at: str | None = None  # kind of place, or None for any
    load: tuple[str, ...] = ()  # amounts it covers; () for any
    breaker: str | None = None  # wants `needs: {pedestal-breaker: ...}` to be this; None for any
    side: str | None = None
    normal: str | None = None
    expects: tuple[float, float] | None = None
    plausible: tuple[float, float] = (0.0, 600.0)
    small: bool = False
    floor: tuple[Cut, ...] = ()


@record()
class Result:
    """Least grades for what a `work` or `tally` gives, by the name of its `out`."""

    id: str
    says: str
    unit: str
    small: bool = False
    floor: tuple[Cut, ...] = ()


@record()
class Sign:
    """Something seen, felt, heard or smelled. `answers` maps each answer to its least grade or None."""

    id: str
    says: str
    by: str  # eye, hand, ear, nose, detector, knowledge
    at: str | None  # pedestal, rig or None
    answers: Mapping[str, str | None]
    side: str | None = None

    @property
    def touches(self) -> bool:
        return self.by == "hand"


@record()
class State:
    """`groups` name sets of values (`cord: plugged`); `touches` says by the value where a hand is to change it."""

    id: str
    says: str
    values: tuple[str, ...]
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    touches: Mapping[str, str] = field(default_factory=dict)
    resets: Mapping[str, Pairs] = field(default_factory=dict)  # value reached -> states it sets
    begins: str | None = None  # how it stands when a walk begins, whatever the tree


@record()
class Appliance:
    """A load of `trees/site/loads.yaml`; watts at 120 V as a low and a high figure."""

    id: str
    says: str
    watts: tuple[float, float]
    follows: str  # resistive, constant-power, motor
    source: str
    starting: tuple[float, float] | None = None


CAUTIONED = ("probe", "probe-battery", "touch-pedestal", "switch-breaker", "plug-in", "power-the-rig")
"""What a caution may be wanted for: probes at what may be live, or at a battery; a hand at the pedestal, and so on."""


@record()
class Caution:
    """`when` and `asked` say what it is for: what is done, and signs that are asked for."""

    id: str
    text: str
    short: str
    source: str
    when: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()


@record()
class Fault:
    """A fault in words, for `not_ruled_out`."""

    id: str
    says: str


@record()
class Heading:
    """A heading of the start, and the names of the trees under it, in their order."""

    id: str
    says: str
    trees: tuple[str, ...]


@record()
class Site:
    """Everything in `trees/site/`, by id."""

    limits: Mapping[str, Limit]
    places: Mapping[str, PlaceFact]
    quantities: Mapping[str, Quantity]
    results: Mapping[str, Result]
    signs: Mapping[str, Sign]
    states: Mapping[str, State]
    loads: Mapping[str, Appliance]
    cautions: Mapping[str, Caution]
    faults: Mapping[str, Fault]
    headings: Mapping[str, Heading] = field(default_factory=dict)
    safety: Mapping[str, SafetyRule] = field(default_factory=dict)
