"""Practice in a real terminal: a whole walk with the make-believe meter, by keys and by what the screen shows."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from shorewalk.exits import Exit
from shorewalk.pedestal.campground import bench_at, campground
from shorewalk.starting import start
from shorewalk.tree.model import Measure
from shorewalk.walk.answers import Read

from ..bench.walker import give_in_app, painted, read_on

if TYPE_CHECKING:
    from .conftest import Open

SITE, SEED = "creek-4", 3
DISPLAY = re.compile(r"(\d+\.\d) V\b")


def test_a_whole_walk_with_the_meter_finds_the_fault(terminal: Open) -> None:
    """What the display shows is typed in as read; the end says what was wrong, and that no mistake was seen."""
    window = terminal("practice", SITE, "--seed", str(SEED))
    walk = start("arrival", "basic,tenths")
    bench = bench_at(campground()[SITE], walk.meter, SEED)  # the same pedestal, for what there is to see
    read = 0
    while not walk.ended:
        window.wait_until(painted(walk, 80), walk.now.text)
        bench.follow(walk)
        node, answer = walk.now.node, bench.person.answer(walk)
        if isinstance(node, Measure):
            window.type("u")
            window.wait_for("The meter in your hands")
            window.type(f"dial ac black {node.from_} red {node.to}\r")
            shown = DISPLAY.search(
                window.wait_for(f"black at {node.from_}, red at {node.to}", "dial: AC volts")
            )
            assert shown is not None
            window.type("0\r")
            window.wait_until(painted(walk, 80), walk.now.text)
            answer, read = Read(shown[1]), read + 1
        give_in_app(window, walk, answer)
        walk = walk.answer(answer)
    assert read > 3
    window.wait_for("What was wrong:")
    said = read_on(window)
    for words in ("The breaker trips again", "Your walk ended as it", "You made no mistake"):
        assert words in said
    window.type("7\r")
    window.wait_for("1 Leave")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN
