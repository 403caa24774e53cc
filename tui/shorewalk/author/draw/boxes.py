"""A node as a box: what it is, and what its author wrote in it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from shorewalk.marks import VERDICTS, Mark, verdict_mark
from shorewalk.tree.facts import Site
from shorewalk.tree.model import Ask, End, Judge, Jump, Measure, Node, Step, Tally, Use, Work, Written
from shorewalk.tree.words import listed
from shorewalk.walk.message import CALLS, FIRST
from shorewalk.walk.wording import WHAT

from .drawing import Box

Part = Callable[[str], Written]


def box_of(name: str, node: Node, site: Site, part: Part) -> Box:
    """Return the box of a node; `part` gives the parts that are drawn closed."""
    match node:
        case End():
            return _end_box(name, node)
        case Use():
            return _part_box(name, node, part)
        case Jump():
            return Box(name, "jump", "another tree", (f"The walk goes on in the tree {node.tree}.",))
    kind, says, words = _asked(node, site)
    if node.at_most:
        words.append(_counted(node.at_most))
    return Box(name, kind, says, tuple(words))


def _asked(node: Node, site: Site) -> tuple[str, str, list[str]]:
    match node:
        case Ask():
            return "ask", "question", [node.text]
        case Step():
            left = [f"Leaves {listed((f'{s} {v}' for s, v in node.leaves), 'and')}."] if node.leaves else []
            return "step", "step", [node.text, *left]
        case Measure():
            return "measure", "reading", [node.text] if node.text else [_measure_words(node, site)]
        case Work():
            given = listed((name for _, name in node.inputs), "and")
            return "work", "arithmetic", [f"Gives {node.out}, from {given}."]
        case Tally():
            return "tally", "tally", [node.text]
        case Judge():
            waits = [f"Waits for {listed(node.of, 'and')}."] if node.of else []
            return "judge", "judgement", ["The first that fits:", *waits][::-1]
    return "step", "node", []


def _measure_words(node: Measure, site: Site) -> str:
    what = WHAT.get(node.what, node.what)
    place = site.places.get(node.place)
    parts = [f"{what[:1].upper()}{what[1:]} at {place.says if place else node.place}"]
    if node.what != "amps":
        parts.append(f"{node.from_} to {node.to}")
    if node.load.amount != "none":
        parts.append(f"{node.load.amount} load on")
    if node.meter != "normal":
        parts.append(f"meter {node.meter}")
    return ", ".join(parts) + "."


def _counted(times: int) -> str:
    return "At most once." if times == 1 else f"At most {times} times."


def _end_box(name: str, node: End) -> Box:
    whom = [FIRST.get(node.first, node.first)] if node.first else []
    whom += [CALLS.get(node.call, node.call)] if node.call else []
    when = f" When: {node.call_when}." if node.call_when else ""
    calls = [f"Call {' first, then '.join(whom)}.{when}"] if whom else []
    return Box(name, "end", "ending", (node.because, *calls), verdict_mark(node.verdict))


def _part_box(name: str, use: Use, part: Part) -> Box:
    given = [f"{key}: {value}" for key, value in use.with_]
    words = [f"With {listed(given, 'and')}."] if given else []
    counts = Counter(node.verdict for node in _inner(use, part) if isinstance(node, End))
    inside: list[tuple[Mark, int]] = [(verdict_mark(v), counts[v]) for v in VERDICTS if counts[v]]
    on = dict.fromkeys(node.tree for node in _inner(use, part) if isinstance(node, Jump))
    words += [f"May go on in the tree {tree}." for tree in on]
    if use.at_most:
        words.append(_counted(use.at_most))
    return Box(name, "part", f"part {use.part}", tuple(words), inside=tuple(inside))


def _inner(use: Use, part: Part) -> Iterator[Node]:
    try:
        written = part(use.part)
    except KeyError:  # told where the part is wanted
        return
    for node in written.nodes.values():
        yield node
        if isinstance(node, Use):
            yield from _inner(node, part)
