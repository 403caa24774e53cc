"""Sums that divide by the amps of a load: paper is never milder than the walk, however small the load."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

import pytest

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.printing.adding import LOADED_VOLTS, least_amps, most_amps
from shorewalk.printing.compared import amps_in, kind_of
from shorewalk.printing.cuts import Stretch, band_stretches, condition_stretches
from shorewalk.printing.slack import METER
from shorewalk.printing.uses import Uses
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Condition, Judge, Measure, Tally, Work
from shorewalk.walk.interval import Amount, Base, alone, of_function
from shorewalk.walk.judge import condition_met, judge_bands, rank
from shorewalk.walk.tallying import displayed_amps, total_amps

SITE = shipped().site
VOLTS = {
    "rise_scaled": ((120.0, 0.06), (0.5, 0.06)),
    "sag_percent_scaled": ((121.4, -0.09), (115.3, -0.09)),
    "sag_resistance": ((121.4, -0.09),),
}
"""Volts without the load, and the step in which they then move; a leg, and neutral to ground."""


LEAST_SEEN = LOADED_VOLTS + 1
"""Under so many volts with the load on the sheet stops before it comes to the sum."""

Sum = tuple[Work, Tally, float, Condition | None]
"""A sum, what may be ticked for it, the least amps that paper takes, and the condition it is asked for in, if any."""


def _sums() -> Iterator[Sum]:
    """Yield each sum of the shipped trees that divides by amps, once for its bands and for every condition."""
    for name in shipped().names():
        uses = Uses(shipped(), name)
        for where, written in uses.written.items():
            for node in written.nodes.values():
                if isinstance(node, Work) and node.bands:
                    yield from _loads(uses, where, node, None)
                for condition in (c for r in node.rows for c in r.when) if isinstance(node, Judge) else ():
                    for found in uses.means(where, condition.node):
                        work = uses.node(found.at)
                        if isinstance(work, Work) and condition.choice is None:
                            yield from _loads(uses, found.at[0], work, condition)


def _loads(uses: Uses, where: str, node: Work, condition: Condition | None) -> Iterator[Sum]:
    names = [name for arg, name in node.inputs if arg == "amps" and node.using in VOLTS]
    for tally in (uses.node(found.at) for name in names for found in uses.means(where, name)):
        assert isinstance(tally, Tally)
        yield node, tally, amps_in(uses, where, node), condition


def _name(node: Work, condition: Condition | None) -> str:
    cuts = [(band.below, band.upto, band.way.grade) for band in node.bands]
    if condition:
        cuts = [(condition.from_ or condition.above, condition.below or condition.upto, None)]
    return f"{node.using} {' '.join(str(word) for cut in cuts for word in cut if word)}"


SUMS = {
    (_name(node, asked), tally.loads): (node, tally, least, asked) for node, tally, least, asked in _sums()
}
"""Each once."""


def _read(key: str, volts: float) -> Amount:
    base = Base(volts, volts, volts, "ac-volts", METER.percent, METER.step("V"), METER.counts * 0.1)
    return alone(key, base, "V")


@cache
def _worked(using: str, load: str) -> list[tuple[list[float], Amount]]:
    """Return what comes out on paper, with the least and the most amps, beside what the walk works out.

    The amps are those of the label, or of a display with tenths and one without.
    """
    fact, formula = SITE.loads[load], FUNCTIONS[using]
    found = []
    for before, step in VOLTS[using]:
        for at in range(0, 100, 2):
            after = round(before + step * at, 1)
            amounts = {"unloaded": _read("unloaded", before), "loaded": _read("loaded", after)}
            fell = after < before  # what fell is the leg that feeds the load
            if fell and after < LEAST_SEEN:
                break
            feeds = amounts["loaded"] if fell else _read("feeds", LEAST_SEEN)
            label, display = (least_amps(fact), most_amps(fact)), f"{least_amps(fact):.1f}"
            for amps, ends in (
                (total_amps("load", {load: 1}, feeds, SITE), label),
                (displayed_amps("load", display, METER), (float(display),)),
                (displayed_amps("load", "7", METER), (6.0, 8.0)),
            ):
                walk = of_function(lambda known: formula.fn(**known), amounts | {"amps": amps}, formula.unit)
                found.append(([formula.fn(before, after, end) for end in ends], walk))
    return found


def _at(stretches: Sequence[Stretch], value: float) -> Iterator[Stretch]:
    for found in stretches:
        if (found.low is None or value >= found.low) and (found.high is None or value < found.high):
            yield found


@pytest.mark.parametrize("one", SUMS.values(), ids=[f"{name}" for name, _ in SUMS])
def test_paper_is_never_milder_however_small_the_load(one: Sum) -> None:
    """For every load that may be ticked, the worse of the two lines on paper is at least as bad as the walk's."""
    node, tally, least, condition = one
    kind, limits = kind_of(node, least), SITE.limits
    stretches = (
        condition_stretches(condition, kind, limits)
        if condition
        else band_stretches(node.bands, kind, limits)
    )
    for load in tally.loads:
        for on_paper, walk in _worked(node.using, load):
            found = [stretch for value in on_paper for stretch in _at(stretches, value)]
            if condition:
                assert found or not condition_met(condition, walk, limits), (load, on_paper, walk.span)
            else:
                mine = max(rank(node.bands[stretch.index].way.grade) for stretch in found)
                assert mine >= rank(judge_bands(node.bands, walk, limits).grade), (load, on_paper, walk.span)


def test_the_sheet_stops_where_a_heater_draws_less_than_its_least() -> None:
    """Every heater is ticked after a loaded reading, and any under 111 V is a stop on paper, whatever the sums say."""
    library, heaters = shipped(), {tally.loads for _, tally, *_ in SUMS.values()}
    files = (*map(library.written, library.names()), *library.parts())
    nodes = [(file, node) for file in files for node in file.nodes.values() if isinstance(node, Tally)]
    ticked = [(file, tally) for file, tally in nodes if tally.loads in heaters]
    assert len(ticked) >= 6
    for file, tally in ticked:
        loaded = file.nodes[tally.at_voltage or ""]
        assert isinstance(loaded, Measure)
        stretches = band_stretches(loaded.bands, kind_of(loaded), SITE.limits)
        (found,) = _at(stretches, LEAST_SEEN - 0.1)
        assert loaded.bands[found.index].way.grade == "stop", f"{file.name}: {tally.at_voltage}"


def test_the_sums_of_the_shipped_trees_are_held_to_it() -> None:
    """Rise, sag and ohms are there, with the toaster among their loads."""
    assert {node.using for node, *_ in SUMS.values()} == set(VOLTS)
    assert all("toaster" in tally.loads for _, tally, *_ in SUMS.values())
