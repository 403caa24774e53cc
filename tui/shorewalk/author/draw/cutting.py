"""A piece of a drawing: from one node on, and only so many ways deep."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from shorewalk.starting import Usage
from shorewalk.tree.words import choose_from, quoted

from .drawing import Drawing


def cut(drawing: Drawing, node: str | None, depth: int | None) -> Drawing:
    """Return what is reached from `node` (the beginning where none is named) by at most `depth` ways.

    Raises `Usage` where there is no such node. A box at the rim says how many of its ways are left out.
    """
    if node is None and depth is None:
        return drawing
    import networkx as nx

    begin = node or drawing.begin
    if begin not in drawing.boxes:
        inside = " Nodes inside parts are there with --parts open." if "." in begin else ""
        known = choose_from(begin, drawing.boxes)
        raise Usage(f"--node: there is no node {quoted(begin)} in this drawing.{known}{inside}")
    kept = nx.single_source_shortest_path_length(drawing.graph, begin, cutoff=depth)
    shown = tuple(arrow for arrow in drawing.arrows if arrow.source in kept and arrow.target in kept)
    left = Counter(a.source for a in drawing.arrows if a.source in kept and a.target not in kept)
    boxes = {name: replace(box, unseen=left[name]) for name, box in drawing.boxes.items() if name in kept}
    of = [f"from {begin}"] * (node is not None) + [f"{depth} deep"] * (depth is not None)
    about = (
        f"A piece, {', '.join(of)}: {len(boxes)} of {len(drawing.boxes)} boxes. The whole: {drawing.about}"
    )
    return replace(drawing, begin=begin, boxes=boxes, arrows=shown, about=about)
