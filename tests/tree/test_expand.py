"""Putting parts into trees."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Condition, End, Judge, Measure, Step, Tally, Tree, Way
from shorewalk.tree.source import TreeError

Make = Callable[..., Library]
SAMPLES = Path(__file__).parent / "samples"
TREE = (SAMPLES / "small.yaml").read_text(encoding="utf-8")
PART = (SAMPLES / "parts/slots.yaml").read_text(encoding="utf-8")

SKIN = """\
part: skin
takes: [before]
exits: [out]
begin: running
nodes:
  running:
    tally: What runs?
    from: [kettle]
    at_voltage: $before
    next: out
    unsure: {goto: out, grade: watch}
"""


def wrong(library: Library, name: str = "small") -> list[str]:
    with pytest.raises(TreeError) as caught:
        library.tree(name)
    base = str(library.folder) + "/"
    return [str(problem).removeprefix(base) for problem in caught.value.problems]


def test_names_of_a_part_are_reached_through_its_use(library: Make) -> None:
    """A part's nodes are called `use.node`, and every way of the tree leads to such a name."""
    tree = library().tree("small")
    assert list(tree.nodes) == ["main_off", "at_30.hot_neutral", "at_30.verdict", "ready", "stay"]
    main_off, hot_neutral = tree.nodes["main_off"], tree.nodes["at_30.hot_neutral"]
    assert isinstance(main_off, Step)
    assert main_off.done == Way("at_30.hot_neutral")
    assert isinstance(hot_neutral, Measure)
    assert (hot_neutral.name, hot_neutral.place) == ("at_30.hot_neutral", "pedestal-30")
    assert hot_neutral.next == Way("at_30.verdict")
    assert Path(hot_neutral.file).name == "slots.yaml"
    assert hot_neutral.route == ("nodes", "hot_neutral")


def test_an_exit_joins_the_way_in_the_part_and_the_way_of_the_use(library: Make) -> None:
    """The grade is the worse of both; what is left behind is that of both, the caller's last."""
    verdict = library().tree("small").nodes["at_30.verdict"]
    assert isinstance(verdict, Judge)
    assert verdict.missing == Way("stay", "watch", (("cord", "unplugged"),))
    assert verdict.rows[0].way == Way("stay", "stop", (("rig-main", "off"), ("cord", "unplugged")))
    assert verdict.rows[0].when == (Condition("at_30.hot_neutral", below="no-voltage"),)
    assert verdict.rows[1].way == Way("ready", "ok")
    assert verdict.of == ("at_30.hot_neutral",)


def test_again_goes_through_an_exit(library: Make) -> None:
    """`again` is no grade, and yet a way out of a part keeps it where the caller names none."""
    part = PART.replace("{grade: ok, goto: sound}", "{grade: again, goto: sound}")
    verdict = library({"parts/slots.yaml": part}).tree("small").nodes["at_30.verdict"]
    assert isinstance(verdict, Judge)
    assert verdict.rows[1].way == Way("ready", "again")


def test_texts_get_words_and_keep_what_the_walk_fills(library: Make) -> None:
    """A parameter in a text becomes the place's words; nodes are named in full; the walk's own stay."""
    tree = library().tree("small")
    assert (
        tree.nodes["at_30.hot_neutral"].hint
        == "Hold the probes in the 30 A outlet. You read {at_30.hot_neutral}."
    )
    ready = tree.nodes["ready"]
    assert isinstance(ready, End)
    assert (ready.because, ready.say) == ("{at_30.hot_neutral} was read.", "[Site {site}: ]{readings}")


def test_parts_in_parts(library: Make) -> None:
    """A part may put in a part: names grow, exits pass outwards, a parameter names the caller's node."""
    outer = PART.replace("unable: cannot", "unable: look").replace("begin: hot_neutral", "begin: look")
    outer += """\
  look:
    part: skin
    with: {before: hot_neutral}
    exits: {out: {goto: cannot, leaves: {rig-main: "on"}}}
"""
    tree = library({"parts/slots.yaml": outer, "parts/skin.yaml": SKIN}).tree("small")
    running, main_off = tree.nodes["at_30.look.running"], tree.nodes["main_off"]
    assert isinstance(main_off, Step)
    assert isinstance(running, Tally)
    assert main_off.done.goto == "at_30.look.running"
    assert running.at_voltage == "at_30.hot_neutral"
    assert running.next == Way("stay", "watch", (("rig-main", "on"), ("cord", "unplugged")))


def test_a_parameter_passed_on_keeps_the_scope_it_was_written_in(library: Make) -> None:
    """A node handed through two parts is still the node of the tree that named it."""
    outer = (
        PART.replace("takes: [place]", "takes: [place, volts]").replace("unable: cannot", "unable: look")
        + """\
  look:
    part: skin
    with: {before: $volts}
    exits: {out: cannot}
"""
    )
    top = TREE.replace("{place: pedestal-30}", "{place: pedestal-30, volts: first}").replace(
        "  ready:",
        "  first: {measure: {what: ac-volts, place: x, from: L, to: E}, next: stay, unable: stay}\n  ready:",
    )
    tree = library({"small.yaml": top, "parts/slots.yaml": outer, "parts/skin.yaml": SKIN}).tree("small")
    running = tree.nodes["at_30.look.running"]
    assert isinstance(running, Tally)
    assert running.at_voltage == "first"


def test_a_way_may_be_a_parameter(library: Make) -> None:
    """`goto: $name` leads to the caller's node, or to the first node of a part the caller puts in there."""
    part = PART.replace("takes: [place]", "takes: [place, back]").replace("missing: cannot", "missing: $back")
    top = TREE.replace("{place: pedestal-30}", "{place: pedestal-30, back: at_30}")
    verdict = library({"small.yaml": top, "parts/slots.yaml": part}).tree("small").nodes["at_30.verdict"]
    assert isinstance(verdict, Judge)
    assert verdict.missing == Way("at_30.hot_neutral")


def test_what_a_use_says_in_common_goes_to_the_first_node(library: Make) -> None:
    """Needs, cautions and counts of a use hold where the part begins, its heading over all of it."""
    top = TREE.replace(
        "    part: slots\n",
        "    part: slots\n    group: The 30\n    needs: {cord: unplugged}\n    cautions: [dry-hands]\n"
        "    at_most: 2\n    spent: stay\n",
    )
    tree = library({"small.yaml": top}).tree("small")
    first, second = tree.nodes["at_30.hot_neutral"], tree.nodes["at_30.verdict"]
    assert (first.group, first.needs, first.cautions) == ("The 30", (("cord", "unplugged"),), ("dry-hands",))
    assert (first.at_most, first.spent) == (2, Way("stay"))
    assert (second.group, second.needs, second.at_most) == ("The 30", (), None)


WRONG = [
    (
        "way",
        "done: at_30",
        "done: at_3",
        'small.yaml:10:11: "at_3" leads nowhere: no node here has that name.',
    ),
    ("nearest", "done: at_30", "done: at_3", 'Did you mean "at_30"?'),
    ("part", "part: slots", "part: slot", 'small.yaml:13:11: There is no part "slot". Did you mean "slots"?'),
    (
        "parameter",
        "{place: p",
        "{plaice: p",
        'small.yaml:14:12: The part slots takes no "plaice". Did you mean "place"?',
    ),
    ("parameter left out", "    with: {place: pedestal-30}\n", "", "The part slots also takes place."),
    (
        "exit",
        "sound: ready",
        "sund: ready",
        'small.yaml:16:7: The part slots has no exit "sund". Did you mean "sound"?',
    ),
    ("exit left open", "      sound: ready\n", "", "small.yaml:13:11: The part slots also has sound."),
    (
        "placeholder",
        "{at_30.hot_neutral}",
        "{at_30.hot}",
        'small.yaml:20:14: "at_30.hot" is not a node here.',
    ),
    (
        "placeholder of a use",
        "{at_30.hot_neutral}",
        "{at_30}",
        '"at_30" is a part, not a node; name a node in it.',
    ),
    ("stray parameter", "goto: stay, grade: stop", "goto: $x", '"$x" is not a parameter of this tree.'),
]


@pytest.mark.parametrize(
    ("old", "new", "said"), [case[1:] for case in WRONG], ids=[case[0] for case in WRONG]
)
def test_names_that_mean_nothing_are_told(library: Make, old: str, new: str, said: str) -> None:
    """Every name is looked up; what is told has the place of the name, and the nearest valid one."""
    assert old in TREE
    problems = wrong(library({"small.yaml": TREE.replace(old, new)}))
    assert any(said in problem for problem in problems), problems


def test_a_fault_in_a_part_is_told_once_however_often_it_is_used(library: Make) -> None:
    """Two uses of a part with a wrong name in it give one problem, in the part's file."""
    top = TREE.replace("sound: ready", "sound: at_20").replace(
        "  ready:", "  at_20: {part: slots, with: {place: x}, exits: {sound: ready, cannot: stay}}\n  ready:"
    )
    part = PART.replace("of: [hot_neutral]", "of: [hot_neutrl]")
    problems = wrong(library({"small.yaml": top, "parts/slots.yaml": part}))
    assert len(problems) == 1
    assert problems[0].startswith(
        'parts/slots.yaml:15:10: "hot_neutrl" is not a node here. Did you mean "hot_neutral"?'
    )


def test_parts_that_use_each_other_in_a_circle_are_refused(library: Make) -> None:
    """A circle of parts is told as the whole way round."""
    one, other = (
        f"part: {name}\nexits: [out]\nbegin: a\nnodes:\n  a: {{part: {use}, exits: {{out: out}}}}\n"
        for name, use in (("slots", "skin"), ("skin", "slots"))
    )
    top = TREE.replace("    with: {place: pedestal-30}\n", "").replace("sound: ready\n", "out: ready\n")
    problems = wrong(library({"small.yaml": top, "parts/slots.yaml": one, "parts/skin.yaml": other}))
    assert any("Parts use each other in a circle: slots > skin > slots." in p for p in problems)


def test_every_way_of_a_shipped_tree_leads_to_a_node(shipped_tree: Tree) -> None:
    """No shipped tree has a way to a name that is not there, nor a parameter left in it."""
    from shorewalk.tree.model import ways_out

    for node in shipped_tree.nodes.values():
        assert all(way.goto in shipped_tree.nodes for _, way in ways_out(node)), node.name
        assert "$" not in repr(node), node.name
