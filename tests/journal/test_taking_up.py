"""Taking up walks that were left: open elsewhere, in trees that changed, with a clock that was set."""

from __future__ import annotations

import io
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.folders import demo_data
from shorewalk.journal import Journal, Keeper, take_up
from shorewalk.journal.keeper import COPY
from shorewalk.journal.taking_up import ASKED_ANEW, CHANGED, CLOCK_BACK
from shorewalk.plain import Talk
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Choose, Done, Read
from shorewalk.walk.walk import Walk, begin

from .conftest import TREE

HOLDS = """
import sys
from pathlib import Path
from shorewalk.journal import Journal
journal = Journal.open(Path(sys.argv[1]))
print(journal.hold(int(sys.argv[2])), flush=True)
sys.stdin.read()
"""


class Other:
    """Another program that has a walk open."""

    def __init__(self, home: Path, number: int) -> None:
        command = [sys.executable, "-c", HOLDS, str(home), str(number)]
        self._program = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        assert self._program.stdout
        self.has_it = self._program.stdout.readline().strip() == "True"

    def kill(self) -> None:
        self._program.send_signal(signal.SIGKILL)
        self._program.communicate()


@pytest.fixture
def left(journal: Journal, walk: Walk) -> Walk:
    """A walk that was kept with three answers to come back to, as number 1."""
    walk = walk.answer(Done(), "2024-05-01T18:29:00Z").answer(Choose("enough"), "2024-05-01T18:29:10Z")
    journal.begin(walk)
    return walk


@pytest.fixture
def again(journal: Journal, left: Walk, tmp_path: Path) -> Iterator[Journal]:
    """The journal, opened once more."""
    assert left.answers
    journal.close()
    opened = Journal.open(tmp_path / "home", clock=lambda: "2024-05-01T18:31:00Z")
    yield opened
    opened.close()


def test_a_walk_that_is_open_elsewhere_goes_on_as_a_copy(again: Journal, left: Walk, tmp_path: Path) -> None:
    """It is said in one line; both go on, each with its own answers, and where it was comes along."""
    again.label(1, site="14")
    other = Other(tmp_path / "home", 1)
    assert other.has_it
    assert again.is_open_elsewhere(1)
    walk, keeper = take_up(again, 1, left.library)
    assert keeper.news() == COPY
    assert keeper.number is None
    keeper.keep(walk.answer(Read("121.8")))
    assert keeper.number == 2
    assert [entry.site for entry in (again.entry(1), again.entry(2))] == ["14", "14"]
    assert again.entry(1).answers == 2
    assert again.entry(1).uuid != again.entry(2).uuid
    other.kill()


def test_plain_text_offers_it_as_open_elsewhere(again: Journal, left: Walk, tmp_path: Path) -> None:
    """Both is said: before one goes on with it that it is open, and then that this is a copy."""
    other, out = Other(tmp_path / "home", 1), io.StringIO()
    fresh = begin(left.library, left.tree, left.meter)
    talk = Talk(fresh, Keeper(again), io.StringIO("1\n121.8\n"), out, 400)
    talk.run(offer=True)
    other.kill()
    assert "(2 answers, left 1 minute ago, open in another terminal)" in out.getvalue()
    assert COPY in out.getvalue()
    assert talk.keeper.number == 2


def test_plain_text_begins_afresh_where_a_meter_is_damaged(again: Journal, left: Walk) -> None:
    """The walk that was left cannot be judged any more; one line says so, and the first question comes."""
    again._database.execute("update walks set meter = 'rubber'")
    out = io.StringIO()
    Talk(begin(left.library, left.tree, left.meter), Keeper(again), io.StringIO("1\n"), out, 400).run(
        offer=True
    )
    assert 'The meter of walk 1 cannot be read: "rubber". This is begun afresh.' in out.getvalue()
    assert "Read this." in out.getvalue()


def test_a_program_that_was_killed_holds_nothing(again: Journal, left: Walk, tmp_path: Path) -> None:
    """After a kill the walk is free at once, and taken up as itself."""
    Other(tmp_path / "home", 1).kill()
    assert not again.is_open_elsewhere(1)
    walk, keeper = take_up(again, 1, left.library)
    assert (keeper.number, keeper.news()) == (1, None)
    assert [one.answer for one in walk.answers] == [one.answer for one in left.answers]
    other = Other(tmp_path / "home", 1)
    assert not other.has_it
    other.kill()


def test_two_programs_never_write_to_one_walk(again: Journal, left: Walk, tmp_path: Path) -> None:
    """Whoever comes second, however they came to it, goes on with a copy from their next answer on."""
    other = Other(tmp_path / "home", 1)
    keeper = Keeper(again, 1)
    keeper.keep(left.answer(Read("121.8")))
    assert (keeper.number, keeper.news()) == (2, COPY)
    assert again.entry(1).answers == 2
    other.kill()


def test_one_program_has_one_walk_open(again: Journal, left: Walk, tmp_path: Path) -> None:
    """Who begins another walk lets go of the one before, and who goes to the start of both."""
    _, keeper = take_up(again, 1, left.library)
    assert keeper.number == 1
    Keeper(again).keep(left)
    for number in (1, 2):
        other = Other(tmp_path / "home", number)
        assert other.has_it == (number == 1)
        other.kill()
    again.let_go()
    other = Other(tmp_path / "home", 2)
    assert other.has_it
    other.kill()


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            "enough: {says",
            "plenty: {says",
            'The tree was changed since: 1 of 2 answers fit. Answer 2, to light: "enough" is no answer there any more.',
        ),
        (
            "done: light",
            "done: volts",
            "The tree was changed since: 1 of 2 answers fit. Answer 2, to light: now volts comes there.",
        ),
        (
            "done: light",
            "done: out",
            "The tree was changed since: 1 of 2 answers fit. Answer 2, to light: the walk ends before it now.",
        ),
        ("It was small.", "It was tiny.", CHANGED),
        ("It was small.", "It was small.", None),
    ],
)
def test_a_tree_that_changed_says_where_the_walk_stopped(
    again: Journal, trees: Path, old: str, new: str, said: str | None
) -> None:
    """As many answers as fit are taken; how many, which one did not, and why, is said."""
    assert old in TREE
    (trees / "small.yaml").write_text(TREE.replace(old, new))
    _, keeper = take_up(again, 1, Library(trees))
    assert keeper.news() == said


def test_taking_up_keeps_every_answer_where_the_tree_ends_earlier_now(again: Journal, trees: Path) -> None:
    """Nothing was answered yet: with the tree as it was before, all of them fit again."""
    (trees / "small.yaml").write_text(TREE.replace("done: light", "done: out"))
    walk, _ = take_up(again, 1, Library(trees))
    assert walk.ended
    assert (again.entry(1).answers, again.entry(1).ending) == (2, None)
    (trees / "small.yaml").write_text(TREE)
    assert len(take_up(again, 1, Library(trees))[0].answers) == 2


def test_an_answer_that_cannot_be_read_is_told(again: Journal, left: Walk) -> None:
    """The walk is taken up as far as its answers can be read, and says where that ends."""
    again._database.execute("update answers set answer = '{\"shrug\": true}' where n = 1")
    walk, keeper = take_up(again, 1, left.library)
    assert len(walk.answers) == 1
    assert keeper.news() == "Answer 2 cannot be read: it stops there."


def test_a_clock_that_was_set_back_does_not_hide_the_last_walk(walk: Walk, tmp_path: Path) -> None:
    """The walk answered last comes first, whatever the clock said then."""
    times = iter(("2024-05-01T18:00:00Z", "2024-05-01T19:00:00Z", "1970-01-01T00:00:00Z"))
    journal = Journal.open(tmp_path / "home", clock=lambda: next(times))
    first, second = (journal.begin(walk.answer(Done())) for _ in range(2))
    journal.keep(first, walk.answer(Done()).answer(Choose("enough")))
    assert [entry.id for entry in journal.unfinished()] == [first, second]
    journal.close()


@pytest.mark.parametrize(
    ("later", "said"),
    [
        ("2024-05-01T18:10:00Z", None),
        ("2024-05-01T18:20:00Z", ASKED_ANEW),
        ("2024-05-01T17:30:00Z", CLOCK_BACK),
    ],
)
def test_readings_that_grew_old_meanwhile_are_told(tmp_path: Path, later: str, said: str | None) -> None:
    """With the plug in hand, what the slots showed is said to be too old, or that nobody can tell how old it is."""
    times = ["2024-05-01T18:00:00Z", later]
    journal = Journal.open(tmp_path / "home", clock=lambda: times[0])
    recorded = read_recorded(demo_data() / "walks" / "arrival-30-good.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        if walk.now.node.name == "hook_up_30.plug_in":
            break
        walk = walk.answer(answer, times[0])
    number = journal.begin(walk)
    del times[0]
    again, keeper = take_up(journal, number)
    assert keeper.news() == said
    assert (again.now.node.name == "hook_up_30.plug_in") == (said is None)
    journal.close()


def test_two_terminals_keep_their_walks_at_the_same_time(left: Walk, trees: Path) -> None:
    """Programs that write to one file by turns lose nothing, and each has a walk of its own."""
    code = """
import sys
from pathlib import Path
from shorewalk.journal import Journal, Keeper
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin
keeper = Keeper(Journal.open(Path(sys.argv[1])))
walk = begin(Library(Path(sys.argv[2]), checked=False), "small", parse_meter("basic")).answer(Done())
for _ in range(20):
    keeper.keep(walk)
    keeper.number = None
print(keeper.news())
"""
    del left
    home = trees.parent / "home"
    programs = [
        subprocess.Popen(
            [sys.executable, "-c", code, str(home), str(trees)], stdout=subprocess.PIPE, text=True
        )
        for _ in range(2)
    ]
    assert [program.communicate()[0] for program in programs] == ["None\n", "None\n"]
    journal = Journal.open(home)
    assert len(journal.unfinished()) == 41
    assert len({entry.uuid for entry in journal.unfinished()}) == 41
    journal.close()
