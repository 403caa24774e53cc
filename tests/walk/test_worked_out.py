"""Arithmetic on the way: `work` nodes and tallies."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.model import Tally, Work
from shorewalk.walk.answers import Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import record_markdown
from shorewalk.walk.meter import Meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf


def gap(shelf: Shelf, make: Make, meter: Meter) -> Walk:
    """Two readings, how far they are apart, judged by a limit of 3 V."""
    shelf.add(
        "t",
        make.measure("one", "pedestal-30 L N", "two"),
        make.measure("two", "pedestal-30 L G", "apart", "apart"),
        Work(
            name="apart",
            out="gap",
            using="difference",
            inputs=(("a", "one"), ("b", "two")),
            bands=(make.band("ask ok below gap-stop"), make.band("bad stop")),
            missing=make.way("gone"),
        ),
        make.ask("ask", "neighbours", {"fine": "good", "same": "good"}),
        make.end("good", say="They are {apart} apart."),
        make.end("bad"),
        make.end("gone"),
    )
    return begin(shelf, "t", meter)


def test_work_is_passed_and_told(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A work node asks nothing; its number, formula and grade are there with the next question, and later."""
    now = gap(shelf, make, basic).answer(Read("121.0")).answer(Read("120.0")).now
    assert now.node.name == "ask"
    (worked,) = now.worked
    assert (worked.at, worked.out, worked.value, worked.unit, worked.shows) == (
        "apart",
        "gap",
        1.0,
        "V",
        "1.0 V",
    )
    assert (worked.formula, worked.numbers, worked.grade) == ("|a - b|", "|121 - 120| V", "ok")
    assert worked.low is not None
    assert worked.low < 1.0
    later = gap(shelf, make, basic).answer(Read("121.0")).answer(Read("120.0")).answer(Choose("fine")).now
    assert (later.worked, later.worked_all) == ((), now.worked)


def test_the_record_has_the_numbers_put_in(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Whoever reads the record can work it out again."""
    walk = gap(shelf, make, basic).answer(Read("121.0")).answer(Read("120.0")).answer(Choose("fine"))
    assert "|121 - 120| V = 1.0 V (0.8 to 1.2), ok" in record_markdown(walk)


def test_work_takes_the_worse_side(shelf: Shelf, make: Make, basic: Meter) -> None:
    """2.9 V may be 3.1 V with a count of each reading; 2.7 V may not."""
    assert gap(shelf, make, basic).answer(Read("121.0")).answer(Read("118.1")).now.node.name == "bad"
    assert gap(shelf, make, basic).answer(Read("121.0")).answer(Read("118.3")).now.node.name == "ask"


def test_work_without_an_input_is_missing(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A reading that was not taken leads to `missing`."""
    assert gap(shelf, make, basic).answer(Read("121.0")).answer(Unable()).now.node.name == "gone"


@pytest.mark.parametrize(("other", "node"), [("121", "gone"), ("117", "gone"), ("114", "bad")])
def test_whole_volts_cannot_clear_a_difference(
    shelf: Shelf, make: Make, whole: Meter, *, other: str, node: str
) -> None:
    """A small difference on a meter of whole volts is missing, unless it is a stop for certain."""
    now = gap(shelf, make, whole).answer(Read("121")).answer(Read(other)).now
    assert now.node.name == node
    assert bool(now.notes) is (node == "gone") or now.node.name == "bad"


def running(shelf: Shelf, make: Make, meter: Meter) -> Walk:
    """A voltage, and what was running at it, judged by 24 A (80 % of 30 A, NEC 210.20(A))."""
    shelf.add(
        "t",
        make.measure("volts", "pedestal-30 L N", "what", "what"),
        Tally(
            name="what",
            text="What was running?",
            loads=("kettle", "microwave"),
            at_voltage="volts",
            bands=(make.band("few ok upto amps-80"), make.band("many watch")),
            unsure=make.way("unsure watch"),
        ),
        make.end("few"),
        make.end("many"),
        make.end("unsure"),
    )
    return begin(shelf, "t", meter)


@pytest.mark.parametrize(
    ("shown", "shows"),
    [
        ("11.7 A", "11.7 A (11.2 to 12.2) by a display"),  # 3 % and 0.1 A: 11.25 to 12.15
        ("12A", "12.0 A (10.6 to 13.4) by a display"),  # 3 % and 1 A
        ("11-12", "11.5 A (9.6 to 13.4) by a display"),
    ],
)
def test_a_display_may_tell_the_amps(shelf: Shelf, make: Make, basic: Meter, shown: str, shows: str) -> None:
    """A reading in the place of loads counts with 3 % and one of its last digit (common practice), and is judged."""
    now = running(shelf, make, basic).answer(Read("120.0")).answer(Read(shown)).now
    assert now.known[-1].shows == shows
    assert (now.node.name, now.known[-1].grade) == ("few", "ok")


def test_a_display_near_the_limit_is_the_worse(shelf: Shelf, make: Make, basic: Meter) -> None:
    """23.9 A may be 24.7 A, over 80 % of 30 A; 23 A on a display of whole amps may be too."""
    for shown in ("23.9", "23 A"):
        assert running(shelf, make, basic).answer(Read("120.0")).answer(Read(shown)).now.node.name == "many"


@pytest.mark.parametrize("shown", ["0 A", "11.7 V", "900 A", "OL", "some", "-3 A"])
def test_what_no_display_shows_of_a_load_is_refused(
    shelf: Shelf, make: Make, basic: Meter, shown: str
) -> None:
    """Nothing, volts, more than a rig can draw, a minus sign, words."""
    with pytest.raises(Refused):
        running(shelf, make, basic).answer(Read("120.0")).answer(Read(shown))


def test_a_tally_adds_up_at_the_voltage_measured(shelf: Shelf, make: Make, basic: Meter) -> None:
    """1,250 W resistive at 108 V is 9.4 A; 1,500 W constant is 13.9 A (I = P V / 120^2, I = P / V)."""
    now = (
        running(shelf, make, basic)
        .answer(Read("108.0"))
        .answer(Running((("kettle", 1), ("microwave", 1))))
        .now
    )
    assert now.known[-1].value == pytest.approx(1250 / 120 * 108 / 120 + 1500 / 108, abs=1e-6)
    assert now.known[-1].shows == "23.3 A (20.8 to 25.7)"


def test_a_tally_counts_labels_at_their_highest(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Labels differ: 23.3 A may be over 24 A, and then counts as over, with a note."""
    walk = running(shelf, make, basic).answer(Read("108.0"))
    both = walk.answer(Running((("kettle", 1), ("microwave", 1)))).now
    assert both.node.name == "many"
    assert both.notes[0].startswith("The worse grade was taken: this could be off by")
    assert walk.answer(Running((("kettle", 1),))).now.node.name == "few"


def test_a_tally_without_a_voltage_takes_the_nominal(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Without a reading 120 V is taken; nothing running is 0 A."""
    walk = running(shelf, make, basic).answer(Unable())
    assert walk.answer(Running((("microwave", 2),))).now.known[-1].value == pytest.approx(25.0)
    assert walk.answer(Running((("microwave", 2),))).now.node.name == "many"
    assert walk.answer(Running()).now.known[-1].value == 0


@pytest.mark.parametrize("loads", [(("moon", 1),), (("kettle", -1),), (("kettle", 100),)])
def test_a_tally_refuses_what_cannot_be(
    shelf: Shelf, make: Make, basic: Meter, loads: tuple[tuple[str, int], ...]
) -> None:
    """A load that is not in the list, and a count nobody can have, are refused."""
    with pytest.raises(Refused):
        running(shelf, make, basic).answer(Unable()).answer(Running(loads))


def test_amps_to_divide_by_are_not_nothing(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Where the load is only asked for, for a sum that comes, at least one is ticked; 0 A would blame the park."""
    tree = running(shelf, make, basic).library.tree("t")
    asked = tree.nodes["what"]
    assert isinstance(asked, Tally)
    used = replace(asked, bands=(), next=make.way("few"))
    shelf.trees["t"] = replace(tree, nodes={**tree.nodes, "what": used})
    walk = begin(shelf, "t", basic).answer(Unable())
    for nothing in ((), (("kettle", 0),)):
        with pytest.raises(Refused, match="Nothing is ticked"):
            walk.answer(Running(nothing))
    assert walk.answer(Running((("kettle", 1),))).now.node.name == "few"
    shelf.trees["t"] = replace(tree, nodes={**tree.nodes, "what": replace(used, nothing=True)})
    assert begin(shelf, "t", basic).answer(Unable()).answer(Running()).now.known[-1].value == 0


def test_a_tally_may_not_be_known(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Not sure what was running goes its own way."""
    walk = running(shelf, make, basic).answer(Unable()).answer(Unsure())
    assert (walk.now.node.name, walk.now.worst) == ("unsure", "watch")
