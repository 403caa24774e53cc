"""The gallery: pictures made from the app, the same bytes each time.

After a wanted change: `python -m shorewalk.picture`, then look at them.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from shorewalk.folders import demo_data
from shorewalk.looks import LOOKS
from shorewalk.picture.gallery import PICTURES, Picture, draw

FOLDER = demo_data() / "pictures"
LARGEST = 12_000
"""Bytes of a picture: a page loads several."""
SAYS = {
    "walk": ("0.7", "Known so far", "RED", "BLACK"),
    "phone": ("0.7", "RED", "q"),
    "ending": ("Do now", "Call", "Say", "Why"),
    "emergency": ("Do not touch",),
    "preview": ('There is no sign "burnt-marks".', "■"),
    "possible": ("Still possible",),
    "log": ("Site 14, Someday Flats",),
    "practice": ("The meter in your hands", "dial: AC volts", "RED"),
}
"""Words that must be on some of them."""


@pytest.mark.parametrize("picture", PICTURES, ids=lambda picture: picture.name)
def test_a_picture_is_what_the_app_shows(picture: Picture, monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawn again it is the same bytes, in whatever terminal; it is small, loads nothing, and has a title."""
    monkeypatch.setenv("TERM", "vt100")
    monkeypatch.setenv("NO_COLOR", "1")
    svg = draw(picture)
    if svg != (FOLDER / f"{picture.name}.svg").read_text(encoding="utf-8"):
        pytest.fail("The screen changed: .venv/bin/python -m shorewalk.picture makes it afresh; look at it.")
    assert len(svg.encode()) < LARGEST
    assert "url(" not in svg
    assert "href" not in svg
    root = ET.fromstring(svg)  # noqa: S314 (made here)
    assert root.attrib["role"] == "img"
    words = " ".join(root.itertext())
    assert picture.title in words
    for said in SAYS.get(picture.name, ()):
        assert said in " ".join(words.split())


def test_the_gallery_shows_each_look_once_and_no_more_than_is_drawn() -> None:
    """Every look has a picture of the same reading; no file is left of one that is gone."""
    assert set(LOOKS) <= {picture.look for picture in PICTURES}
    assert {file.stem for file in FOLDER.glob("*")} == {picture.name for picture in PICTURES}
