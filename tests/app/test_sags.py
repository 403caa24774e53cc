"""The sag against the load, drawn and in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from shorewalk.folders import demo_data
from shorewalk.lines import as_text, width
from shorewalk.pages.sags import sag_lines, sags_in, sags_in_words
from shorewalk.plain.spoken import told
from shorewalk.replay import read_recorded
from shorewalk.screens.known import KnownScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.library import shipped
from shorewalk.walk.known import Worked
from shorewalk.walk.walk import Walk, begin

from .conftest import Make, press, type_line

SAG = Worked(
    tree="lights-dim",
    at="sag",
    out="rig-sag-percent",
    says="the sag in the rig",
    value=5.24,
    unit="%",
    formula="",
    numbers="",
    shows="5.2 %",
    low=4.6,
    high=5.9,
    using="sag_percent_scaled",
    inputs=(("unloaded", 121.4), ("loaded", 115.7), ("amps", 11.2)),
)
SITE = shipped().site


@pytest.mark.parametrize(("room", "ascii_only"), [(36, False), (36, True), (60, False)])
def test_the_plot_fits_and_names_its_limits(room: int, ascii_only: bool) -> None:  # noqa: FBT001
    """No line is wider than there is room; both limits and what was read are named, and ASCII is ASCII."""
    rows = sag_lines([SAG], SITE, room, ascii_only=ascii_only)
    text = as_text(rows)
    assert max(map(width, rows)) <= room
    assert "Sag in the rig against the load" in text
    for said in ("watch from 5 %", "stop from 7 %", "@ yours (11.2, 4.7)"):  # 100 x 5.7 / 121.4 = 4.695
        assert said in text
    assert text.isascii() is ascii_only


def test_the_same_in_a_sentence() -> None:
    """Whoever sees no picture hears its slope: 4.695 % at 11.2 A is 4.2 % at 10 A and 5.2 % at 12.5 A."""
    (said,) = sags_in_words([SAG], SITE)
    assert said == (
        "Sag in the rig against the load, a straight line: 4.2 % for each 10 A, 5.2 % at 12.5 A. "
        "At 12.5 A watch is from 5 %, stop is from 7 %."
    )


def test_what_did_not_sag_is_not_drawn() -> None:
    """A leg that rose, a sag without the amps, another result: none is a sag. Of two legs the worse is drawn."""
    rose = replace(SAG, inputs=(("unloaded", 121.0), ("loaded", 122.0), ("amps", 11.2)))
    other_leg = replace(SAG, inputs=(("unloaded", 121.4), ("loaded", 120.4), ("amps", 11.2)))
    for none in (rose, replace(SAG, using="sag_percent"), replace(SAG, out="leg-rise")):
        assert sag_lines([none], SITE, 60, ascii_only=True) == []
    assert sags_in([other_leg, SAG, rose]) == sags_in([SAG])


def followed(until: str) -> Walk:
    """Return the recorded walk with a poor plug, as it stands when a node is asked for, or at its end."""
    recorded = read_recorded(demo_data() / "walks" / "lights-dim-at-our-plug.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        if walk.now.node.name == until:
            break
        walk = walk.answer(answer, time=time)
    return walk


def test_plain_text_says_how_a_sag_that_is_not_good_goes_with_the_load() -> None:
    """After the load was ticked: the sum with its error and limits, a sound cord beside it, then the line in words."""
    said = list(told(followed("load_off_watch")))
    assert said[-1].startswith("Sag in the rig against the load, a straight line: 4.2 % for each 10 A")
    assert any(
        ": 0.51 ohm (" in line
        and "AWG cord has 0.06 ohm" in line
        and line.endswith("The sum: (121.4 - 115.7) V / 11.2 A.")
        for line in said
    )


@pytest.mark.parametrize("size", [(80, 24), (40, 20)])
async def test_all_that_is_known_shows_the_sag_drawn(make: Make, size: tuple[int, int]) -> None:
    """`k` at the ending: what was worked out, and below it one plot for the rig and one for the pedestal."""
    app = make(followed("the end"))
    async with app.run_test(size=size) as pilot:
        await press(pilot, "k")
        assert isinstance(app.screen, KnownScreen)
        text = as_text(app.screen.reading.lines)
    assert "Sag in the rig against the load" in text
    assert "Sag at the pedestal against the load" in text
    assert max(map(len, text.splitlines())) <= size[0]


async def test_the_amps_of_a_display_may_be_typed_where_loads_are_ticked(make: Make) -> None:
    """What has a point or a unit is no number of a load: it is what a display in the rig shows."""
    app = make(followed("which_load"))
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "11.7")
        assert isinstance(app.screen, WalkScreen)
        (amps,) = [known for known in app.screen.walk.now.known if known.at == "which_load"]
    assert (
        amps.shows == "11.7 A (11.2 to 12.2) by a display"
    )  # 3 % and one of its last digit (common practice)
