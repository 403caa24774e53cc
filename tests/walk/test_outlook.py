"""About how many steps are left."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shorewalk.tree.model import Jump
from shorewalk.walk.outlook import Outlook

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf


def test_least_and_most_where_nothing_goes_wrong(shelf: Shelf, make: Make) -> None:
    """Ways of doubt, of stops and back into loops do not count; judges cost no step."""
    shelf.add(
        "t",
        make.ask("a", "neighbours", {"fine": "short", "same": "long1"}, "bad"),
        make.step("short", "j"),
        make.step("long1", "long2"),
        make.ask("long2", "weather", {"clear": "j", "rain": "long1 again", "thunder": "bad stop"}),
        make.judge("j", [make.row("e")]),
        make.step("worse1", "worse2"),
        make.end("e"),
        make.end("bad"),
    )
    outlook = Outlook(shelf.trees["t"])
    assert outlook.left("a") == (2, 3)
    assert outlook.left("e") == (0, 0)


def test_after_a_stop_the_whole_tree_counts(shelf: Shelf, make: Make) -> None:
    """Where every way is one of doubt, all ways count."""
    shelf.add("t", make.ask("a", "weather", {"rain": "b stop"}), make.step("b", "bad"), make.end("bad"))
    assert Outlook(shelf.trees["t"]).left("a") == (1, 2)


def test_a_loop_counts_once_and_a_long_tree_is_no_trouble(shelf: Shelf, make: Make) -> None:
    """A loop ends; ten thousand steps in a row need no deep stack."""
    steps = [make.step(f"s{at}", f"s{at + 1}") for at in range(10_000)]
    shelf.add(
        "t",
        *steps,
        make.ask("s10000", "weather", {"clear": "e", "rain": "s0"}),
        make.end("e"),
        make.end("bad"),
    )
    assert Outlook(shelf.trees["t"]).left("s0") == (10_001, 10_001)


def test_a_jump_counts_as_an_ending(shelf: Shelf, make: Make) -> None:
    """What another tree will ask is not counted before it is entered."""
    shelf.add("t", make.step("a", "j"), Jump(name="j", tree="u"), make.end("bad"))
    assert Outlook(shelf.trees["t"]).left("a") == (1, 1)


def test_where_use_can_be_reached_the_way_there_counts(shelf: Shelf, make: Make) -> None:
    """An early way out does not make the walk look short."""
    shelf.add(
        "t",
        make.ask("a", "weather", {"clear": "b", "rain": "bad"}),
        make.step("b", "c"),
        make.step("c", "e"),
        replace(make.end("e"), verdict="use-with-care"),
        make.end("bad"),
    )
    assert Outlook(shelf.trees["t"]).left("a") == (3, 3)


def test_it_counts_alike_wherever_it_is_asked_first(shelf: Shelf, make: Make) -> None:
    """A walk that is taken up within a loop has as many steps left as it had when it was left."""
    shelf.add(
        "t",
        make.step("s0", "s1"),
        make.ask("s1", "neighbours", {"fine": "s0", "same": "s2"}, "bad"),
        make.step("s2", "e"),
        make.end("e"),
        make.end("bad"),
    )
    taken_up = Outlook(shelf.trees["t"])
    assert taken_up.left("s1") == (2, 2)
    assert taken_up.left("s0") == (3, 3)
    assert Outlook(shelf.trees["t"]).left("s0") == (3, 3)
