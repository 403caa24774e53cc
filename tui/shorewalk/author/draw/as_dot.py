"""A drawing in the DOT language, which Graphviz and other programs lay out."""

from __future__ import annotations

from .drawing import Box, Drawing
from .rooms import framed, identifiers, rooms
from .rows import rows_of

BOX, WAY = 40, 28
"""Letters in a line of a box, and of the words at an arrow."""

SHAPES = {
    "ask": "shape=box, style=rounded",
    "step": "shape=box",
    "measure": "shape=parallelogram",
    "work": "shape=hexagon",
    "tally": "shape=hexagon",
    "judge": "shape=diamond",
    "part": "shape=component",
    "jump": "shape=cds",
    "exit": "shape=rarrow",
}
ENDINGS = {
    "danger": "shape=octagon, peripheries=2",
    "stop": "shape=box, peripheries=2",
    "watch": "shape=house",
    "ok": "shape=ellipse",
}
"""An ending's shape by the role of its verdict."""


def write_dot(drawing: Drawing) -> str:
    """Return the drawing as one `digraph`; what stands in a part is a cluster."""
    ids = identifiers(drawing)
    rows = [
        f"digraph {_quoted(drawing.title)} {{",
        f"  label={_quoted(drawing.title, drawing.about)}; labelloc=t; fontname=Helvetica; newrank=true;",
        "  node [fontname=Helvetica, fontsize=11]; edge [fontname=Helvetica, fontsize=10];",
    ]
    for deep, name, box in framed(rooms(drawing)):
        pad = "  " * deep
        if box:
            rows.append(f"{pad}{ids[box.name]} [{_shape(box)}, label={_quoted(*_label(box))}];")
        elif name:
            rows.append(f"{pad}subgraph {_quoted(f'cluster {name}')} {{ label={_quoted(name)};")
        else:
            rows.append(f"{pad}}}")
    for arrow in drawing.arrows:
        loop = arrow in drawing.loops
        words = rows_of(arrow.words(loop=loop), WAY)
        style = ", style=dashed, constraint=false" if loop else ""
        rows.append(f"  {ids[arrow.source]} -> {ids[arrow.target]} [label={_quoted(*words)}{style}];")
    return "\n".join([*rows, "}"]) + "\n"


def _shape(box: Box) -> str:
    return ENDINGS.get(box.mark.role, "shape=box") if box.mark else SHAPES.get(box.kind, "shape=box")


def _label(box: Box) -> list[str]:
    return [row for text in (box.heading(), *box.lines()) for row in rows_of(text, BOX)]


def _quoted(*rows: str) -> str:
    """Return lines as one quoted string: a backslash and `&...;` would be read as more than they are."""
    return '"' + r"\n".join(_plain(row) for row in rows) + '"'


def _plain(text: str) -> str:
    shown = "".join(letter if letter.isprintable() else "?" for letter in text)
    return shown.replace("&", "&amp;").replace("\\", "\\\\").replace('"', '\\"')
