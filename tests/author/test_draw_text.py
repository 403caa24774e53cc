"""The drawing as text art: as wide as asked, everything in it once, and readable without colour."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from shorewalk.author.draw.as_text import write_text
from shorewalk.author.draw.asked import Asked, asked_for
from shorewalk.author.draw.drawing import Drawing
from shorewalk.author.draw.gather import gather
from shorewalk.lines import cells
from shorewalk.tree.library import shipped
from shorewalk.tree.model import End, Use, ways_out

TREES = shipped().names()
PARTS = shipped().part_names()
SMALL = """\
tree: small
symptom: It hums
begin: hum
nodes:
  hum:
    at_most: 2
    spent: out
    ask: Does it hum?
    sign: light
    choices:
      enough: {says: "Yes, loud", grade: stop, goto: wait}
      too-dark: {says: "No", goto: volts}
    unsure: out
  wait:
    step: Wait.
    leaves: {rig-main: "off"}
    done: hum
    cannot: {goto: out, leaves: {cord: unplugged}}
  volts:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
    bands:
      - {below: utilization-b-low, grade: stop, goto: out}
      - {below: service-a-low, grade: watch, goto: so}
      - {upto: service-a-high, grade: ok, goto: so}
      - {below: service-a-surely-high, grade: watch, goto: so}
      - {grade: stop, goto: out}
    unable: out
  so:
    judge:
      - {when: {volts: {from: service-a-low, below: usual-high}, hum: too-dark}, goto: fine}
      - {while: {protector: absent}, goto: out}
      - {worst: watch, goto: out}
      - {goto: out}
    of: [volts]
    missing: out
  out:
    end: stay-unplugged
    because: It hums.
    safe_action: Keep the cord out.
    call: park
  fine:
    end: emergency
    because: It does not.
    first: emergency-services
    safe_action: Keep away.
    call: electrician
    call_when: it hums again
"""

DRAWN = """\
small: It hums
6 nodes, 17 ways, 2 endings.

hum (question)
|  Does it hum?
|  At most 2 times.
+- Yes, loud (# stop)
|  wait (step)
|  |  Wait.
|  |  Leaves rig-main off.
|  +- done (loop) -> ^ hum
|  `- cannot be done (leaves cord unplugged) -> # out
+- No
|  volts (reading)
|  |  AC volts at the 30 A outlet, L to N.
|  +- under 104 V (# stop) -> # out
|  +- 104 to 114 V (~ watch) -> so
|  +- 114 to 126 V (+ good) -> so
|  +- about 126 V (~ watch) -> so
|  +- surely 126 V or more (# stop) -> # out
|  `- cannot be measured -> # out
|
|  so (judgement)
|  |  Waits for volts.
|  |  The first that fits:
|  +- volts 114 to 125 V and hum: too-dark
|  |  X Emergency: fine
|  |     It does not.
|  |     Call the emergency services first, then a licensed electrician. When:
|  |     it hums again.
|  +- protector: absent -> # out
|  +- worst so far: watch or worse -> # out
|  +- else -> # out
|  `- a reading is missing -> # out
+- not sure -> # out
`- spent -> # out

# Stay unplugged: out
   It hums.
   Call the park.
"""


def drawing_of(name: str, *, opened: bool = False) -> Drawing:
    return gather(Asked(shipped(), name, "tree" if name in TREES else "part"), opened=opened)


def flat(text: str) -> str:
    """Return the words of a drawing without its branches and line ends."""
    return re.sub(r"[\s│├└─]+", " ", text)


def test_a_small_tree_reads_like_this(tmp_path: Path) -> None:
    """Each box once, ways in the author's words, bands as stretches, loops and endings marked, all in ASCII."""
    file = tmp_path / "small.yaml"
    file.write_text(SMALL, encoding="utf-8")
    drawn = write_text(gather(asked_for(str(file)), opened=False), 80, ascii_only=True)
    assert drawn == DRAWN


@pytest.mark.parametrize("room", [40, 80, 120, 200])
@pytest.mark.parametrize("name", TREES)
def test_no_line_is_wider_than_the_window(name: str, room: int) -> None:
    """With parts closed and open; a narrower window than 40 cells is taken for one of 40."""
    for opened in (False, True):
        lines = write_text(drawing_of(name, opened=opened), room, ascii_only=False).splitlines()
        assert max(map(cells, lines)) <= room
        assert not any(line.endswith(" ") for line in lines)
    assert write_text(drawing_of(name), 10, ascii_only=True) == write_text(
        drawing_of(name), 40, ascii_only=True
    )


@pytest.mark.parametrize("name", [*TREES, *PARTS])
def test_every_node_and_every_way_that_is_written_is_drawn(name: str) -> None:
    """Counted in the file, not in the drawing: each node's heading once, each way one branch."""
    drawing = drawing_of(name)
    drawn = write_text(drawing, 200, ascii_only=False)
    library = shipped()
    written = library.written(name) if name in TREES else library.part(name)
    for node, found in written.nodes.items():
        says = (
            rf"^[│ ]*(\S [\w ,]+: {node}|{node} \(.*\))$" if isinstance(found, End) else rf"^[│ ]*{node} \("
        )
        assert len(re.findall(says, drawn, re.MULTILINE)) == 1, node
    ways = sum(len(ways_out(node)) for node in written.nodes.values())
    assert len(re.findall(r"^[│ ]*[├└]─ ", drawn, re.MULTILINE)) == ways
    for arrow in drawing.arrows:
        assert flat(arrow.words(loop=arrow in drawing.loops)) in flat(drawn)


@pytest.mark.parametrize("name", TREES)
def test_with_parts_open_every_node_a_walk_can_come_to_is_drawn(name: str) -> None:
    """As many branches as the flat tree has ways, and each of its nodes."""
    drawn = write_text(drawing_of(name, opened=True), 200, ascii_only=False)
    tree = shipped().tree(name)
    assert len(re.findall(r"^[│ ]*[├└]─ ", drawn, re.MULTILINE)) == sum(
        len(ways_out(node)) for node in tree.nodes.values()
    )
    headed = set(re.findall(r"^[│ ]*(?:\S [A-Z][\w ,]+: )?([a-z][\w.]*)(?: \(.*)?$", drawn, re.MULTILINE))
    assert set(tree.nodes) <= headed


def test_a_closed_part_is_one_box_with_its_exits() -> None:
    """Where it may end inside is said in words, with how many endings of each verdict there are."""
    drawing = drawing_of("arrival")
    box = drawing.boxes["hook_up_50"]
    assert (box.kind, box.says) == ("part", "part hook-up")
    told = " ".join(box.lines(ascii_only=True)).replace("\xa0", " ")
    assert "May end inside: # Unplug now (1), # Stay unplugged (5)." in told
    exits = [arrow.says for arrow in drawing.arrows if arrow.source == "hook_up_50"]
    written = shipped().written("arrival").nodes["hook_up_50"]
    assert isinstance(written, Use)
    assert exits == [name for name, _ in written.exits]


def test_a_part_alone_ends_at_its_exits() -> None:
    """Closed and open, an exit is a box, and names stand as the part's author wrote them."""
    for opened in (False, True):
        drawing = drawing_of("hook-up", opened=opened)
        assert drawing.begin == "laid_out"
        assert {"exit powered", "exit stale", "exit cannot", "plug_in"} <= set(drawing.boxes)
        assert all(name.isprintable() for name in drawing.boxes)
    assert "come_out.uncoil" not in drawing.boxes
    assert any(name.startswith("come_out.") for name in drawing.boxes)


def test_marks_are_ascii_where_the_terminal_shows_no_more() -> None:
    """The shipped trees are ASCII themselves, so nothing else is left."""
    for name in (*TREES, *PARTS):
        assert write_text(drawing_of(name), 80, ascii_only=True).isascii()


def test_what_nothing_leads_to_is_drawn_last(tmp_path: Path) -> None:
    """A node under way is not lost: its author has to see it."""
    file = tmp_path / "small.yaml"
    file.write_text(
        SMALL.replace("unsure: out", "unsure: fine") + "  lost:\n    step: Lost.\n    done: out\n"
        "    cannot: out\n",
        encoding="utf-8",
    )
    drawn = write_text(gather(asked_for(str(file)), opened=False), 80, ascii_only=True)
    assert drawn.index("lost (step)") > drawn.index("# Stay unplugged: out")
    assert "done -> ^ # out" in drawn


@pytest.mark.parametrize("name", PARTS)
def test_a_part_without_parts_in_it_is_the_same_open_and_closed(name: str) -> None:
    """What it takes stands there as its author wrote it, though the part had to be put in to be opened."""
    if any(isinstance(node, Use) for node in shipped().part(name).nodes.values()):
        assert "; parts open." in drawing_of(name, opened=True).about
    else:
        assert drawing_of(name, opened=True) == drawing_of(name)
