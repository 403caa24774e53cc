"""Every number has one way to go: no gap, no overlap, at every shipped measure, sum and judge.

What a decision table must hold (completeness and uniqueness of its rules: OMG Decision Model and Notation 1.5,
clause 8.2.10 on hit policies; from memory), by a sweep from minus to plus infinity: at every limit, on both sides of
it, and between any two.
"""

from __future__ import annotations

import math

import pytest

from shorewalk import folders
from shorewalk.lint.rows import cells, exactly, table_of, value_in
from shorewalk.tree.facts import Limit
from shorewalk.tree.library import Library
from shorewalk.tree.model import Band, Judge, Measure, Tally, Tree, Work
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import judge_bands, possible_bands

LIBRARY = Library(folders.trees())
TREES = [LIBRARY.tree(name) for name in LIBRARY.names()]
ENDS = (-math.inf, math.inf)


def holding(bands: tuple[Band, ...], value: float, limits: dict[str, Limit]) -> list[int]:
    """Return the bands that hold an exact value, by nothing but the sentence under which a band is written."""
    found, low, closed = [], -math.inf, False
    for at, band in enumerate(bands):
        name = band.below or band.upto
        high = limits[name].value if name else math.inf
        over = value > low if closed else value >= low
        under = value < high or (value == high and (band.upto is not None or name is None))
        if over and under:
            found.append(at)
        low, closed = high, band.upto is not None
    return found


def sweep(bands: tuple[Band, ...], limits: dict[str, Limit]) -> list[float]:
    """Return the ends of the line, every limit, its neighbours, and a value between any two."""
    cuts = [limits[name].value for band in bands if (name := band.below or band.upto)]
    near = [math.nextafter(cut, end) for cut in cuts for end in ENDS]
    return sorted({*ENDS, *cuts, *near, *(value_in(cell) for cell in cells(cuts))})


@pytest.mark.parametrize("tree", TREES, ids=lambda tree: tree.name)
def test_each_value_is_in_one_band_and_goes_there(tree: Tree) -> None:
    """From minus to plus infinity every value lies in exactly one band, and an exact reading takes it."""
    limits = dict(LIBRARY.site.limits)
    swept = 0
    for node in tree.nodes.values():
        if not isinstance(node, Measure | Work | Tally) or not node.bands:
            continue
        for value in sweep(node.bands, limits):
            (own,) = holding(node.bands, value, limits)
            assert judge_bands(node.bands, exactly(value), limits).index == own, (node.name, value)
            swept += 1
    assert swept or not any(getattr(node, "bands", ()) for node in tree.nodes.values())


@pytest.mark.parametrize("tree", TREES, ids=lambda tree: tree.name)
def test_what_a_meter_leaves_open_is_one_stretch_of_bands(tree: Tree) -> None:
    """A reading that may be off, or that wanders, leaves neighbouring bands possible, its own among them."""
    limits = dict(LIBRARY.site.limits)
    for node in tree.nodes.values():
        if not isinstance(node, Measure) or not node.bands:
            continue
        for value in filter(math.isfinite, sweep(node.bands, limits)):
            for off in (0.3, 3.0, 30.0):
                amount = Amount(value, "", (value - off / 2, value + off / 2), (value - off, value + off))
                possible, own = possible_bands(node.bands, amount, limits)
                assert len(possible) >= 1
                assert own in possible or all(
                    limits[name].kind == "surely"
                    for at in range(min(own, *possible), max(own, *possible))
                    if (name := node.bands[at].below or node.bands[at].upto)
                ), (node.name, value, off)


@pytest.mark.parametrize("tree", TREES, ids=lambda tree: tree.name)
def test_no_judge_leaves_anything_unjudged(tree: Tree) -> None:
    """Whatever was read, answered and done, some row of every judge is the first that is met."""
    for node in tree.nodes.values():
        if isinstance(node, Judge):
            table = table_of(node, tree, LIBRARY.site)
            assert table.unmet() is None, node.name
