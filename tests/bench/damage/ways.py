"""Damage to ways out: left away, led elsewhere, led on where somebody could not."""

from __future__ import annotations

from .edits import Seeds
from .file import LAST, File, Way


def exit_removed(file: File) -> Seeds:
    """An exit of a part leads nowhere."""
    for name, node in file.of_kind("part"):
        for exit_ in node.get("exits", {}):
            yield f"{name}: {exit_}", ((("nodes", name, "exits", exit_), None),)


def way_removed(file: File) -> Seeds:
    """A way for somebody who does not know or cannot go on is left out."""
    for way in file.ways():
        if way.label in LAST and way.label != "spent":
            yield f"{way.node}: {way.label}", ((way.route, None),)


def goto_next_node(file: File) -> Seeds:
    """A way leads to the node written behind the one meant."""
    targets = file.targets()
    for way in file.ways():
        if way.goto in targets:
            yield from _led(way, targets[(targets.index(way.goto) + 1) % len(targets)])


def goto_mildest_ending(file: File) -> Seeds:
    """A way that leads to an ending leads to the mildest of the file."""
    order = ("good-to-use", "use-with-care", "leave-as-is", "unplugged", "stay-unplugged")
    ends = {name: node["end"] for name, node in file.of_kind("end")}
    mild = sorted((name for name in ends if ends[name] in order), key=lambda name: order.index(ends[name]))
    for way in file.ways():
        if way.goto in ends and mild and ends[way.goto] != ends[mild[0]]:
            yield from _led(way, mild[0])


def led_on(file: File) -> Seeds:
    """Who does not know, could not do it or has no reading is led on as if all were well."""
    for name, _ in file.of_kind("ask", "step", "measure", "work", "judge"):
        rows = [each for each in file.ways(name) if each.label.startswith("row ")]
        best = rows[-1].goto if rows else file.forward(name)
        for label in ("unsure", "cannot", "unable", "missing"):
            way = file.way(name, label)
            if way and best and way.goto != best:
                yield from _led(way, best)


def at_most_dropped(file: File) -> Seeds:
    """A loop is not counted."""
    for name, node in file.nodes.items():
        if "at_most" in node:
            edits = [(("nodes", name, key), None) for key in ("at_most", "spent") if key in node]
            yield name, tuple(edits)


def jump_elsewhere(file: File) -> Seeds:
    """A jump leads to another tree."""
    for name, node in file.nodes.items():
        for other in file.trees:
            if "tree" in node and other not in (node["tree"], file.data.get("tree")):
                yield f"{name}: {other}", ((("nodes", name, "tree"), other),)


def _led(way: Way, goto: str) -> Seeds:
    if goto not in (way.goto, way.node):
        yield f"{way.node}: {way.label} to {goto}", (way.to(goto),)


KINDS = (
    exit_removed,
    way_removed,
    goto_next_node,
    goto_mildest_ending,
    led_on,
    at_most_dropped,
    jump_elsewhere,
)
