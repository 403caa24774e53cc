"""What may be answered with a number: a few readings for every stretch of the line that is judged alike.

Between two neighbouring limits nothing changes, and a meter that may be off moves most limits a little either way.
So one reading in each stretch between stands for all; the one nearest to what is usual is taken.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from shorewalk.tree.facts import Limit, Quantity, Site
from shorewalk.tree.model import Judge, Measure, Tally, Tree
from shorewalk.walk.answers import Answer, Read, Running
from shorewalk.walk.evidence import quantity_of, too_coarse
from shorewalk.walk.interval import Amount, of_reading
from shorewalk.walk.judge import condemns, limits_of
from shorewalk.walk.meter import Meter
from shorewalk.walk.reading import read
from shorewalk.walk.refused import Refused

USUAL = {"hertz": 60.0, "dc-volts": 12.6, "ohms": 0.5, "amps": 10.0}
"""What is usual where no limits tell (common practice)."""

HOT = 120.0
WIDE = 15.0
MOST = 600.0


class Given(NamedTuple):
    """One time a number was given: to a node, so many times before the last, with a meter that shows tenths or not."""

    node: str
    age: int = 0
    tenths: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class Value:
    """A number that can be given; each is made once. What was running has no amount until the voltage is known."""

    answer: Answer
    amount: Amount | None = None


class Values:
    """The numbers that can be given in one tree, each list made when first wanted; the usual ones come first."""

    def __init__(self, tree: Tree, site: Site, meter: Meter) -> None:
        self.tree, self.site, self.meter = tree, site, meter
        self._made: dict[tuple[str, bool], tuple[Value, ...]] = {}
        self._shown: dict[tuple[str, bool, str], Value | None] = {}
        self._cuts: dict[str, set[str]] = {}
        for judge in tree.nodes.values():
            for row in judge.rows if isinstance(judge, Judge) else ():
                for asked in row.when:
                    self._cuts.setdefault(asked.node, set()).update(limits_of(asked))

    def of(self, given: Given) -> tuple[Value, ...]:
        """Return the numbers that stand for all that could be given there and count."""
        key = (given.node, given.tenths)
        if key not in self._made:
            node = self.tree.nodes[given.node]
            if isinstance(node, Tally):
                self._made[key] = tuple(Value(Running(loads)) for loads in _loads(node))
            elif isinstance(node, Measure):
                self._made[key] = tuple(self._readings(node, given))
            else:
                self._made[key] = ()
        return self._made[key]

    def value(self, given: Given, number: float) -> Value | None:
        """Return a number as this meter would show it; `None` where it cannot be, or does not count."""
        node = self.tree.nodes[given.node]
        if not isinstance(node, Measure):
            return None
        meter = replace(self.meter, tenths=given.tenths)
        quantity = quantity_of(node, self.site)
        step = meter.step(quantity.unit if quantity else UNITS.get(node.what, ""), node.what)
        text = f"{number:.{PLACES[step]}f}"
        text = text.removeprefix("-") if not float(text) else text
        text = f"{text} V" if text == "0" else text  # alone it could be a "not sure"
        key = (given.node, given.tenths, text)
        if key not in self._shown:
            self._shown[key] = self._value(node, text, meter, quantity)
        return self._shown[key]

    def _value(self, node: Measure, text: str, meter: Meter, quantity: Quantity | None) -> Value | None:
        for confirmed in (False, True):
            try:
                reading = read(text, node.what, quantity, meter, confirmed=confirmed)
            except Refused as refused:
                if refused.confirm:
                    continue
                return None
            amount = of_reading(node.name, reading, meter, node.what)
            coarse = quantity and too_coarse(quantity, meter, reading.unit, self.site)
            if quantity and coarse and not condemns(quantity.floor or node.bands, amount, self.site.limits):
                return None
            return Value(Read(text, confirmed=confirmed), amount)
        return None

    def usual(self, node: Measure) -> float:
        """Return about what a sound pedestal and rig show there."""
        quantity = quantity_of(node, self.site)
        if quantity and quantity.expects:
            return 2 * HOT if set(quantity.between) == {"hot"} else HOT
        return 0.0 if node.what == "ac-volts" else USUAL.get(node.what, 0.0)

    def cuts(self, name: str) -> list[Limit]:
        """Return every limit that the number of a node is held against."""
        node = self.tree.nodes[name]
        names = set(self._cuts.get(name, ()))
        quantity = quantity_of(node, self.site) if isinstance(node, Measure) else None
        for band in (*getattr(node, "bands", ()), *(quantity.floor if quantity else ())):
            names.add(band.below or band.upto or "")
        return [self.site.limits[one] for one in sorted(names) if one in self.site.limits]

    def _readings(self, node: Measure, given: Given) -> Iterator[Value]:
        usual = self.usual(node)
        quantity = quantity_of(node, self.site)
        least, most = quantity.plausible if quantity else (0.0, MOST)
        marks = {mark for limit in self.cuts(node.name) for mark in self._marks(limit, node, given)}
        line = [least, *sorted(mark for mark in marks if least < mark < most), most]
        numbers = [usual, *(one for cell in pairwise(line) for one in _inside(*cell, usual))]
        told: set[Value] = set()
        for number in sorted(numbers, key=lambda number: (abs(number - usual), number)):
            value = self.value(given, number)
            if value and value not in told:
                told.add(value)
                yield value

    def _marks(self, limit: Limit, node: Measure, given: Given) -> Iterable[float]:
        """Return where judging changes near a limit: at it, and where the meter's error just reaches it."""
        meter = replace(self.meter, tenths=given.tenths)
        share, counts = meter.percent / 100, meter.counts * meter.step(limit.unit, node.what)
        return (limit.value, (limit.value - counts) / (1 + share), (limit.value + counts) / (1 - share))


UNITS = {"ac-volts": "V", "dc-volts": "V", "hertz": "Hz", "ohms": "ohm", "amps": "A"}
PLACES = {1.0: 0, 0.1: 1, 0.01: 2}


def _inside(low: float, high: float, usual: float) -> Iterator[float]:
    """Yield the number in a stretch that is nearest to what is usual; of a wide one also the middle."""
    edge = min((high - low) / 4, 2.0)
    yield min(max(usual, low + edge), high - edge)
    if high - low > WIDE:
        yield (low + high) / 2


def _loads(node: Tally) -> Iterator[tuple[tuple[str, int], ...]]:
    """Yield what may be running: each load alone, more and more of them, and nothing where that is an answer."""
    for load in node.loads:
        yield ((load, 1),)
    for many in range(2, len(node.loads) + 1):
        yield tuple((load, 1) for load in node.loads[:many])
    for count in (2, 3):
        yield ((node.loads[0], count),)
    if node.takes_nothing:
        yield ()
