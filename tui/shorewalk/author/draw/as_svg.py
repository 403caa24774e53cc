"""A drawing as one SVG file that needs nothing beside it, readable on a light and on a dark ground."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement, indent, tostring

from shorewalk.lines import cells

from .drawing import Drawing
from .layout import CELL, EDGE, WIDE, Line, Placed, Words, lay_out
from .rooms import identifiers

STYLE = """
text { font: 12px "DejaVu Sans Mono", ui-monospace, Menlo, Consolas, monospace; fill: #1c1d22 }
.title { font-size: 18px; font-weight: bold } .head { font-weight: bold }
.ground { fill: #ffffff } .shape { fill: #f3f4f2; stroke: #5a5d66; stroke-width: 1.2 }
.line { fill: none; stroke: #5a5d66; stroke-width: 1.4 } .tip { fill: #5a5d66 }
.danger .shape { stroke: #b3122a; stroke-width: 3 } .stop .shape { stroke: #b3122a; stroke-width: 2 }
.watch .shape { stroke: #8a5a00; stroke-width: 2; stroke-dasharray: 7 3 }
.ok .shape { stroke: #1a7431; stroke-width: 2 }
a:hover text, a:focus text { text-decoration: underline }
@media (prefers-color-scheme: dark) {
  text { fill: #e7e6e1 } .ground { fill: #15161a } .shape { fill: #24262b; stroke: #9ea1a8 }
  .line { stroke: #9ea1a8 } .tip { fill: #9ea1a8 }
  .danger .shape, .stop .shape { stroke: #ff7b86 } .watch .shape { stroke: #dfb24c } .ok .shape { stroke: #56c271 }
}
"""
CORNER = 12.0


def write_svg(drawing: Drawing) -> str:
    """Return the drawing as SVG. Every row of text is as long as it says, whatever letters a viewer has."""
    sheet, ids = lay_out(drawing), identifiers(drawing)
    width = max(sheet.width, 2 * EDGE + cells(drawing.title) * 11, 2 * EDGE + cells(drawing.about) * CELL)
    size = {"width": _n(width), "height": _n(sheet.height), "viewBox": f"0 0 {_n(width)} {_n(sheet.height)}"}
    top = Element("svg", {"xmlns": "http://www.w3.org/2000/svg", **size, "aria-labelledby": "title desc"})
    SubElement(top, "title", id="title").text = _plain(drawing.title)
    SubElement(top, "desc", id="desc").text = _plain(
        f"A decision tree. {drawing.about} A line leads to the box beside or below; a way to any other box "
        "names it after an arrow, and is a link to it."
    )
    SubElement(top, "style").text = STYLE
    marker = SubElement(SubElement(top, "defs"), "marker", id="tip", orient="auto", refX="8", refY="4")
    marker.attrib |= {"markerWidth": "9", "markerHeight": "8", "markerUnits": "userSpaceOnUse"}
    SubElement(marker, "path", {"class": "tip", "d": "M0 0L9 4L0 8z"})
    SubElement(top, "rect", {"class": "ground", "width": _n(width), "height": _n(sheet.height)})
    _text(top, Words(EDGE, 34, drawing.title, "title"), 11)
    _text(top, Words(EDGE, 56, drawing.about, "about"))
    for line in sheet.lines:
        _line(top, line)
    for placed in sheet.boxes:
        _box(top, placed, ids)
    indent(top)
    return tostring(top, encoding="unicode", xml_declaration=False) + "\n"


def _box(top: Element, placed: Placed, ids: dict[str, str]) -> None:
    box = placed.box
    look = f"box {box.kind} {box.mark.role if box.mark else ''}".strip()
    group = SubElement(top, "g", {"id": ids[box.name], "class": look})
    SubElement(group, "title").text = _plain(box.heading())
    _shape(group, placed)
    if placed.rule is not None:
        _stroke(group, f"M{_n(placed.x)} {_n(placed.rule)}h{_n(WIDE)}")
    for words in placed.words:
        into = SubElement(group, "a", href=f"#{ids[words.goto]}") if words.goto else group
        _text(into, words)


def _shape(group: Element, placed: Placed) -> None:
    """Draw the outline: an ending's tells its verdict, a part has double sides, a question round corners."""
    role = placed.box.mark.role if placed.box.mark else placed.box.kind
    x, y, wide, high = placed.x, placed.y, WIDE, placed.height
    if role == "danger":
        c, d = CORNER, wide - 2 * CORNER
        across, down = _n(d), _n(high - 2 * c)
        path = f"M{_n(x + c)} {_n(y)}h{across}l{c} {c}v{down}l-{c} {c}h-{across}l-{c} -{c}v-{down}z"
        SubElement(group, "path", {"class": "shape", "d": path})
        return
    corner = {"ok": 18.0, "ask": 9.0}.get(role, 0.0)
    frame = {"x": _n(x), "y": _n(y), "width": _n(wide), "height": _n(high), "rx": _n(corner)}
    SubElement(group, "rect", {"class": "shape", **frame})
    if role == "stop":
        _stroke(group, f"M{_n(x + 4)} {_n(y + 4)}h{_n(wide - 8)}v{_n(high - 8)}h-{_n(wide - 8)}z")
    if role == "part":
        _stroke(group, f"M{_n(x + 5)} {_n(y)}v{_n(high)}M{_n(x + wide - 5)} {_n(y)}v{_n(high)}")


def _stroke(group: Element, path: str) -> None:
    SubElement(group, "path", {"class": "line", "d": path})


def _line(top: Element, line: Line) -> None:
    path = "L".join(f"{_n(x)} {_n(y)}" for x, y in line.corners)
    SubElement(top, "path", {"class": "line way", "d": f"M{path}", "marker-end": "url(#tip)"})


def _text(into: Element, words: Words, cell: float = CELL) -> None:
    length = {"textLength": _n(cells(words.text) * cell), "lengthAdjust": "spacingAndGlyphs"}
    at = {"x": _n(words.x), "y": _n(words.y), **length, "class": words.role}
    SubElement(into, "text", at).text = _plain(words.text)


def _plain(text: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in text)


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
