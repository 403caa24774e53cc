"""From a tree or part, its parts closed or open, to a drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from shorewalk.lint.graphs import Graphs
from shorewalk.lint.view import View
from shorewalk.tree.model import Jump, Node, Tree, Use, Written

from .asked import HERE, Asked, exit_name
from .boxes import box_of
from .drawing import Arrow, Box, Drawing, room_of
from .labels import arrows_of


def gather(asked: Asked, *, opened: bool) -> Drawing:
    """Return the drawing of what was asked for; raise `TreeError` where it cannot be read or leads nowhere."""
    tree, written = asked.tree(), asked.written
    drawing = _opened(asked, tree) if opened else _closed(asked, written)
    used = any(isinstance(node, Use) for node in written.nodes.values())
    parts = f"; parts {'open' if opened else 'closed'}" if used else ""
    ends = sum(box.kind == "end" for box in drawing.boxes.values())
    nodes = sum(box.kind != "exit" for box in drawing.boxes.values())
    about = f"{nodes} nodes, {len(drawing.arrows)} ways, {ends} endings{parts}."
    return replace(drawing, title=_title(written), about=about)


def _title(written: Written) -> str:
    return f"{written.name}: {written.symptom}" if written.symptom else f"{written.name} (part)"


def _closed(asked: Asked, written: Written) -> Drawing:
    graphs = Graphs(View(asked.library, ()))

    def target(name: str) -> str:
        return exit_name(name) if name in written.exits and name not in written.nodes else name

    def further(name: str, node: Node) -> Iterator[Arrow]:
        """Yield the ways on which a part leads to a node that it was given."""
        if isinstance(node, Use):
            given = (
                (key, value) for key, value in node.with_ if f"${key}" in graphs.summary(node.part).leaves
            )
            yield from (Arrow(name, value, f"${key}", f"by {key}") for key, value in given)

    arrows = _arrows(asked, written.nodes, target, further)
    return _drawing(asked, written.nodes, arrows, written.begin)


def _opened(asked: Asked, tree: Tree) -> Drawing:
    arrows = _arrows(asked, tree.nodes, str, lambda *_: ())
    return _near(_bared(_drawing(asked, tree.nodes, arrows, tree.begin)))


def _arrows(
    asked: Asked,
    nodes: Mapping[str, Node],
    target: Callable[[str], str],
    further: Callable[[str, Node], Iterator[Arrow] | tuple[()]],
) -> list[Arrow]:
    limits = asked.library.site.limits
    return [
        replace(arrow, target=target(arrow.target))
        for name, node in nodes.items()
        for arrow in (*arrows_of(name, node, limits), *further(name, node))
    ]


def _drawing(asked: Asked, nodes: Mapping[str, Node], arrows: list[Arrow], begin: str) -> Drawing:
    site, part = asked.library.site, asked.library.part
    boxes = {name: box_of(name, node, site, part) for name, node in nodes.items() if not _beside(node)}
    beyond = dict.fromkeys(arrow.target for arrow in arrows if arrow.target not in boxes)
    boxes |= {name: _outside(name) for name in beyond}
    return Drawing("", "", begin, boxes, tuple(arrows))


def _beside(node: Node) -> bool:
    """Tell whether a node only stands for an exit, or for what a part takes."""
    return isinstance(node, Jump) and not node.tree


def _outside(name: str) -> Box:
    if name.startswith("exit "):
        return Box(name, "exit", "the part is left here")
    return Box(name, "exit", "the part is left to a node that it was given")


def _near(drawing: Drawing) -> Drawing:
    """Shorten what sentences say of nodes in the same part."""

    def said(text: str, name: str) -> str:
        return text.replace(f"{room_of(name)}.", "") if room_of(name) else text

    boxes = {
        name: replace(box, words=tuple(said(words, name) for words in box.words))
        for name, box in drawing.boxes.items()
    }
    arrows = tuple(replace(arrow, says=said(arrow.says, arrow.source)) for arrow in drawing.arrows)
    return replace(drawing, boxes=boxes, arrows=arrows)


def _bared(drawing: Drawing) -> Drawing:
    """Name things as the part's author did where a part was put in to be drawn alone."""

    def bare(text: str) -> str:
        return text.replace(f"{HERE}.", "").replace(f"{{{HERE}", "{").replace(HERE, "$")

    boxes = [
        replace(box, name=bare(box.name), words=tuple(map(bare, box.words))) for box in drawing.boxes.values()
    ]
    arrows = [
        replace(arrow, source=bare(arrow.source), target=bare(arrow.target), says=bare(arrow.says))
        for arrow in drawing.arrows
    ]
    return replace(
        drawing, begin=bare(drawing.begin), boxes={box.name: box for box in boxes}, arrows=tuple(arrows)
    )
