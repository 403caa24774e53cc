"""No number on paper is milder than the program, whichever of its meters somebody holds."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.printing.compared import kind_of
from shorewalk.printing.cuts import METERS, SMALL, Kind, Stretch, band_stretches, condition_stretches
from shorewalk.printing.slack import METER, slack_of
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Band, Condition, Judge, Measure, Node, Way, Work
from shorewalk.walk.interval import Amount, Base, alone, of_function
from shorewalk.walk.judge import condition_met, judge_bands, limits_of, rank

LIMITS = shipped().site.limits


def _nodes() -> Iterator[tuple[str, Node]]:
    library = shipped()
    for written in (*map(library.written, library.names()), *library.parts()):
        yield from ((f"{written.name}: {node.name}", node) for node in written.nodes.values())


BANDED = {
    tuple((band.below, band.upto, band.way.grade) for band in node.bands): (name, node)
    for name, node in _nodes()
    if isinstance(node, Measure) and node.bands
}
"""Every line of bands once, and a node that has it."""

CONDITIONS = {
    (condition.from_, condition.above, condition.below, condition.upto)
    for _, node in _nodes()
    if isinstance(node, Judge)
    for row in node.rows
    for condition in row.when
    if condition.choice is None and {LIMITS[n].unit for n in limits_of(condition) if n in LIMITS} == {"V"}
}


def _holding(stretches: list[Stretch], value: float) -> list[Stretch]:
    return [
        found
        for found in stretches
        if (found.low is None or value >= found.low) and (found.high is None or value < found.high)
    ]


def _shown(kind: Kind) -> Iterator[tuple[float, Amount]]:
    """Yield every reading that each meter can show, up to 260 V or 20 V DC, with what it may be off there."""
    for meter in METERS:
        count = meter.step(kind.unit, kind.what)
        for at in range(round(260 / count) if kind.what == "ac-volts" else 2000):
            value = round(at * count, 2)
            base = Base(value, value, value, percent=meter.percent, counts=meter.counts * count)
            if meter.tenths or value >= SMALL:
                yield value, alone("", base, kind.unit)


@pytest.mark.parametrize(
    "node", [node for _, node in BANDED.values()], ids=[name for name, _ in BANDED.values()]
)
def test_bands_are_never_milder_than_the_walk(node: Measure) -> None:
    """For every reading of every meter the line on paper has a grade at least as bad as the walk's, and is one line."""
    stretches = band_stretches(node.bands, kind_of(node), LIMITS)
    for value, amount in _shown(kind_of(node)):
        (found,) = _holding(stretches, value)
        mine, walks = node.bands[found.index].way.grade, judge_bands(node.bands, amount, LIMITS).grade
        assert rank(mine) >= rank(walks), f"{value} V, {amount.span}"


@pytest.mark.parametrize("cuts", sorted(CONDITIONS, key=str))
def test_a_row_that_may_be_met_is_met_on_paper(cuts: tuple[str | None, ...]) -> None:
    """Whatever reading may meet a row for some meter meets it on paper; rows fall from worst to best."""
    condition = Condition("x", None, *cuts)
    stretches = condition_stretches(condition, Kind("V", "ac-volts"), LIMITS)
    missed = [
        value
        for value, amount in _shown(Kind("V", "ac-volts"))
        if condition_met(condition, amount, LIMITS) and not _holding(stretches, value)
    ]
    assert not missed


def test_paper_is_not_needlessly_strict() -> None:
    """A limit of the supply stands as it is; a hazard is moved by what a plain meter of whole volts may be off."""
    ways = [
        Band(Way("low", "stop"), below="utilization-b-low"),
        Band(Way("some", "watch"), below="service-a-low"),
    ]
    words = [
        s.words("V") for s in band_stretches((*ways, Band(Way("fine", "ok"))), Kind("V", "ac-volts"), LIMITS)
    ]
    # 104 V: (104 + 5 counts) / (1 - 1.2 %) = 110.3, so 111 V is the first whole number that is surely over it
    assert words == ["under 111 V", "111 to under 114 V", "114 V or more"]


SUMS = sorted(
    {node.using for _, node in _nodes() if isinstance(node, Work)}
    - {name for name, formula in FUNCTIONS.items() if "by the table" in formula.template}
)


@pytest.mark.parametrize("using", SUMS)
def test_a_sum_is_widened_by_what_it_may_be_off(using: str) -> None:
    """With usual readings of a meter with tenths, no sum is off by more than paper takes off its limits."""
    formula, draw = FUNCTIONS[using], random.Random(7)  # noqa: S311 (not for secrets)
    for _ in range(60):
        first = draw.uniform(115, 124)
        inputs = {arg: alone(arg, _usual(arg, first, draw), "V") for arg in formula.args}
        amount = of_function(lambda known: formula.fn(**known), inputs, formula.unit)
        assert amount.off_by <= slack_of(using) * 1.5 + 1e-9, {arg: i.value for arg, i in inputs.items()}


def _usual(arg: str, first: float, draw: random.Random) -> Base:
    fall = draw.uniform(4.5, 7)
    known = {
        "amps": draw.uniform(10, 13),
        "ohms": 0.4,
        "neutral_ground": 1.0,
        "hot_hot": first * 1.8,
        "c": first * 2,
    }
    value = known.get(arg)
    if value is None:
        value = first - fall if arg.endswith("loaded") and not arg.endswith("unloaded") else first
    share = 0.05 if arg == "amps" else 0.0
    if arg in ("amps", "ohms"):
        return Base(value, value * (1 - share), value * (1 + share))
    count = METER.step("V")
    return Base(value, value, value, "ac-volts", METER.percent, count, METER.counts * count)
