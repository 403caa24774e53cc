"""The drawing as SVG: well formed, nothing on top of anything, no text cut, told to a screen reader."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from shorewalk.author.draw.as_svg import write_svg
from shorewalk.author.draw.asked import Asked
from shorewalk.author.draw.drawing import Drawing
from shorewalk.author.draw.gather import gather
from shorewalk.author.draw.layout import WIDE, lay_out
from shorewalk.author.draw.rooms import identifiers
from shorewalk.tree.library import shipped

from .test_draw_files import NASTY, nasty

SVG = "{http://www.w3.org/2000/svg}"
TREES = shipped().names()
PARTS = shipped().part_names()
Frame = tuple[float, float, float, float]
EVERY = [(name, opened) for name in (*TREES, *PARTS) for opened in (False, True)]


def drawing_of(name: str, *, opened: bool) -> Drawing:
    return gather(Asked(shipped(), name, "tree" if name in TREES else "part"), opened=opened)


def parsed(text: str) -> ET.Element:
    return ET.fromstring(text)  # noqa: S314 (our own)


def groups(top: ET.Element) -> dict[str, ET.Element]:
    """Return each box by its identifier."""
    return {group.attrib["id"]: group for group in top.iter(f"{SVG}g")}


def frame(group: ET.Element) -> Frame:
    """Return left, top, right and bottom of a box, from what is drawn."""
    if (rect := group.find(f"{SVG}rect")) is not None:
        x, y, wide, high = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
        return x, y, x + wide, y + high
    path = group.find(f"{SVG}path")
    assert path is not None
    left, top, across, cut, down = (
        float(number)
        for number in re.findall(r"M([\d.]+) ([\d.]+)h([\d.]+)l([\d.]+) [\d.]+v([\d.]+)", path.attrib["d"])[0]
    )
    return left - cut, top, left + across + cut, top + down + 2 * cut


def rows(group: ET.Element) -> list[ET.Element]:
    return list(group.iter(f"{SVG}text"))


@pytest.mark.parametrize(("name", "opened"), EVERY)
def test_boxes_stand_apart_and_hold_their_text(name: str, *, opened: bool) -> None:
    """No two boxes overlap; every row of text lies in its box and in no other row; all is on the sheet."""
    top = parsed(write_svg(drawing_of(name, opened=opened)))
    boxes = groups(top)
    frames = sorted(map(frame, boxes.values()))
    for at, (left, upper, right, lower) in enumerate(frames):
        assert 0 <= left < right <= float(top.attrib["width"])
        assert 0 <= upper < lower <= float(top.attrib["height"])
        beside = [other for other in frames[at + 1 :] if other[0] < right]
        assert not [other for other in beside if other[1] < lower and upper < other[3]]
    for group in boxes.values():
        left, upper, right, lower = frame(group)
        for row in rows(group):
            x, y, long = (float(row.attrib[key]) for key in ("x", "y", "textLength"))
            assert left + 5 <= x
            assert x + long <= right - 5
            assert upper + 12 <= y <= lower - 4
        heights = [float(row.attrib["y"]) for row in rows(group)]
        assert all(after - before >= 15.9 for before, after in pairwise(heights))


@pytest.mark.parametrize(("name", "opened"), EVERY)
def test_every_node_and_every_way_is_on_the_sheet(name: str, *, opened: bool) -> None:
    """Each box with its words, each way in its box as a link to where it leads."""
    drawing = drawing_of(name, opened=opened)
    boxes, ids = groups(parsed(write_svg(drawing))), identifiers(drawing)
    assert set(boxes) == set(ids.values())
    for box in drawing.boxes.values():
        group = boxes[ids[box.name]]
        told = "".join("".join(row.itertext()) for row in rows(group)).replace(" ", "")
        for sentence in (box.heading(), *box.lines()):
            assert "".join(sentence.split()) in told
        ways = [arrow for arrow in drawing.arrows if arrow.source == box.name]
        for arrow in ways:
            assert arrow.words(loop=arrow in drawing.loops).replace(" ", "") in told
        links = {link.attrib["href"].removeprefix("#") for link in group.iter(f"{SVG}a")}
        assert links == {ids[arrow.target] for arrow in ways}


@pytest.mark.parametrize("name", TREES)
def test_lines_run_between_boxes(name: str) -> None:
    """No line crosses a box: each of its stretches touches boxes only at its two ends."""
    sheet = lay_out(drawing_of(name, opened=True))
    for line in sheet.lines:
        for (x1, y1), (x2, y2) in pairwise(line.corners):
            left, right, upper, lower = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
            crossed = [
                box
                for box in sheet.boxes
                if box.x < right and left < box.x + WIDE and box.y < lower and upper < box.bottom
            ]
            assert not crossed


@pytest.mark.parametrize("name", TREES)
def test_no_two_lines_meet(name: str) -> None:
    """Each can be followed by eye: none crosses another or runs along it."""
    stretches = [
        (number, min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2))
        for number, line in enumerate(lay_out(drawing_of(name, opened=True)).lines)
        for (x1, y1), (x2, y2) in pairwise(line.corners)
    ]
    for one, left, right, upper, lower in stretches:
        met = [
            other
            for other, *ends in stretches
            if other > one and left <= ends[1] and ends[0] <= right and upper <= ends[3] and ends[2] <= lower
        ]
        assert not met


def test_it_says_what_it_is_to_a_screen_reader() -> None:
    """Title, description, and a title for each box."""
    top = parsed(write_svg(drawing_of("tingle", opened=False)))
    title, desc = top.find(f"{SVG}title"), top.find(f"{SVG}desc")
    assert title is not None
    assert desc is not None
    assert title.text == "tingle: Somebody felt a tingle or a shock"
    assert "20 nodes, 43 ways, 5 endings" in str(desc.text)
    assert top.attrib["aria-labelledby"] == f"{title.attrib['id']} {desc.attrib['id']}"
    assert all(group.find(f"{SVG}title") is not None for group in groups(top).values())


def test_it_needs_nothing_beside_it_and_follows_the_ground() -> None:
    """No link leads out of the file, and it says how it looks on a dark ground."""
    drawn = write_svg(drawing_of("arrival", opened=False))
    assert set(re.findall(r'(?:href="|url\()(.)', drawn)) == {"#"}
    assert drawn.count("http") == 1  # the name of the format itself
    assert "prefers-color-scheme: dark" in drawn


def test_words_are_shown_as_written(tmp_path: Path) -> None:
    """Markup in a tree is text."""
    top = parsed(write_svg(nasty(tmp_path)))
    told = "".join("".join(row.itertext()) for row in rows(groups(top)["n_hum"]))
    assert told.replace(" ", "").count(NASTY.replace(" ", "")) == 2
