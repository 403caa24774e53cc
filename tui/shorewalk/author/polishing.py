"""Readings as somebody would take them: away from every limit, no two quite the same, and the walk goes as before.

What is looked for only has to fit; often that is right beside a limit, or a round number.
"""

from __future__ import annotations

from itertools import pairwise
from zlib import crc32

from shorewalk.tree.library import Library
from shorewalk.tree.model import Measure, Tree
from shorewalk.walk.answers import Read
from shorewalk.walk.evidence import quantity_of
from shorewalk.walk.refused import Refused

from .proving import Proven
from .trail import Step, Timed, traced
from .values import MOST, Given, Values

HOT, FALL = 121.5, 1.8
"""Hot to neutral at a sound outlet, and how much it falls under a load of 1,500 W (common practice)."""

NEUTRAL, NEUTRAL_LOADED = 0.2, 0.8
"""Neutral to ground there, without and with that load (common practice)."""

AWAY = 3.0
"""So far from a limit a number is taken, where there is room."""

FOLDS = 6
"""So often a walk is folded to see which of its readings can be others."""


def polished(proven: Proven, values: Values, library: Library) -> Proven:
    """Return the walk with better readings, as many as let it go on as it went."""
    tree = values.tree
    better: dict[int, Timed] = {}
    labels = iter([step.label for step in proven.gone if _measured(tree, step)])
    for at, one in enumerate(proven.walk.answers):
        node = tree.nodes.get(one.at) if one.tree == tree.name else None
        label = next(labels, "") if isinstance(node, Measure) else ""
        if isinstance(node, Measure) and isinstance(one.answer, Read):
            read = one.answer.text
            given = Given(node.name, 0, "." in read)
            value = values.value(given, _better(values, node, label, float(read)))
            if value and value.answer != one.answer:
                better[at] = (value.answer, one.time)
    waiting, folds = [sorted(better)], 0
    while waiting and folds < FOLDS:
        some = waiting.pop()
        if not some:
            continue
        folds += 1
        answers = list(proven.timed)
        for at in some:
            answers[at] = better[at]
        try:
            walk, gone = traced(library, tree.name, proven.walk.meter, answers)
        except Refused:
            gone = ()
        if gone == proven.gone:
            proven = Proven(walk, gone)
        elif len(some) > 1:
            middle = len(some) // 2
            waiting += [some[middle:], some[:middle]]
    return proven


def _measured(tree: Tree, step: Step) -> bool:
    """Tell whether a way is that of an answer to a measure."""
    here = step.tree == tree.name and step.label != "spent"
    return here and isinstance(tree.nodes.get(step.node), Measure)


def _better(values: Values, node: Measure, label: str, number: float) -> float:
    """Return a number in the band that was taken, or judged alike, that looks as if it had been read."""
    quantity = quantity_of(node, values.site)
    least, most = quantity.plausible if quantity else (0.0, MOST)
    if label.startswith("band "):
        cuts = [values.site.limits.get(band.below or band.upto or "") for band in node.bands]
        line = [least, *(cut.value if cut else most for cut in cuts)]
        low, high = line[int(label[5:]) - 1 : int(label[5:]) + 1]
    else:
        line = sorted({least, most, *(cut.value for cut in values.cuts(node.name))})
        low, high = next(
            ((one, other) for one, other in pairwise(line) if one <= number < other), (least, most)
        )
    usual = _usual(values, node)
    if low <= usual < high and abs(number - values.usual(node)) <= AWAY:
        return usual
    edge = min((high - low) / 2, AWAY)
    return min(max(number, low + edge), high - edge)


def _usual(values: Values, node: Measure) -> float:
    quantity, even = quantity_of(node, values.site), values.usual(node)
    loaded = node.load.amount != "none"
    if quantity and quantity.expects:
        other = (crc32(node.name.encode()) % 5 - 2) / 10
        return (HOT - FALL * loaded) * (2 if set(quantity.between) == {"hot"} else 1) + other
    if quantity and set(quantity.between) == {"neutral", "ground"} and quantity.breaker != "off":
        return NEUTRAL_LOADED if loaded else NEUTRAL
    return even
