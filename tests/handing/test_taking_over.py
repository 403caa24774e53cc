"""A walk begun on one machine is finished on another; whatever is there already is neither lost nor doubled."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from shorewalk.handing import (
    Handed,
    NothingToHandOver,
    NotTaken,
    hand_over,
    handed_text,
    read_file,
    read_handed,
    take_over,
)
from shorewalk.handing.taking_over import AHEAD, APART, BEHIND, CLOCKS, LOOK, OPEN, OTHER_TREES, SAME
from shorewalk.handing.times import LONG_AGO, believed
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import FILE
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask, Measure
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.record import record_markdown
from shorewalk.walk.walk import Refused, Walk, begin, resume

from ..bench.handed.walks import LATER, LONG, NAME, SOON, WRITTEN, handed_of, walked
from .conftest import Machine

AT_A_LOOK = 48
"""Answers of the long walk after which slots were read and the next question rests on it."""


def kept(journal: Journal, walk: Walk) -> Keeper:
    keeper = Keeper(journal)
    keeper.keep(walk)
    return keeper


def sent(walk: Walk, keeper: Keeper) -> Handed:
    """Hand a walk over, as the other machine reads it."""
    return read_handed(handed_text(walk, keeper).encode())


def bare(walk: Walk) -> list[object]:
    return [answered.answer for answered in walk.answers]


def rows(home: Path) -> list[str]:
    """All that is on a disk."""
    with sqlite3.connect(home / FILE) as other:
        found = [line for line in other.iterdump() if line.startswith("INSERT")]
    other.close()
    return found


def test_a_walk_begun_by_one_is_finished_by_another(machine: Machine, tmp_path: Path) -> None:
    """Through a file, half a walk comes to another machine, is finished there, and comes back whole."""
    here, there = machine("here", WRITTEN), machine("there", WRITTEN)
    whole = walked()
    half = walked(upto=30)
    keeper = kept(here, half)
    path = hand_over(half, keeper, tmp_path)
    walk, other = take_over(read_handed(read_file(path)), there)
    assert (bare(walk), walk.now.node) == (bare(half), half.now.node)
    for answered in whole.answers[30:]:
        walk = walk.answer(answered.answer, WRITTEN)
        other.keep(walk)
    back, _ = take_over(sent(walk, other), here)
    assert bare(back) == bare(walk)
    assert len(here.walks()) == 1


@pytest.mark.parametrize("name", [LONG, "arrival-not-out", "arrival-plug-scorched"])
def test_grades_and_ending_come_out_the_same(machine: Machine, name: str) -> None:
    """A walk that ended has its verdict, its grades and its words there as here."""
    walk = walked(name)
    there, _ = take_over(handed_of(walk), machine("there"))
    assert there.ended
    assert ending(there) == ending(walk)
    assert [known.grade for known in there.now.known] == [known.grade for known in walk.now.known]
    assert there.now.worst == walk.now.worst


@pytest.mark.parametrize("part", range(4))
def test_no_file_claims_an_ending(machine: Machine, part: int) -> None:
    """Without an answer, or with a dead slot where 120 V were read, the same later answers end at nothing good."""
    walk = walked()
    assert ending(walk).verdict == "good-to-use"
    there = machine("there", WRITTEN)
    for n in range(part, len(walk.answers), 12):
        before, answered, after = walk.answers[:n], walk.answers[n], walk.answers[n + 1 :]
        files = [(*before, *after)]
        if isinstance(answered.answer, Read) and answered.answer.text > "1":
            files.append((*before, replace(answered, answer=Read("60.0", confirmed=True)), *after))
        for number, answers in enumerate(files):
            handed = handed_of(walk, answers=answers, id=f"{n:016x}{number:016x}")
            try:
                taken, _ = take_over(handed, there)
            except NotTaken:
                continue
            assert not taken.ended or ending(taken).verdict != "good-to-use", n


def test_where_it_was_goes_along(machine: Machine) -> None:
    """Site and park are kept there; what the other machine knows better of the same walk stays."""
    there = machine("there")
    _, keeper = take_over(handed_of(walked(upto=5)), there)
    assert keeper.number is not None
    assert there.entry(keeper.number)[-4:] == ("Juniper Flats", "14", None, None)
    there.label(keeper.number, site="15")
    take_over(handed_of(walked(upto=6)), there)
    assert there.entry(keeper.number)[-4:] == ("Juniper Flats", "15", None, None)


def test_the_same_walk_again_changes_nothing(machine: Machine, tmp_path: Path) -> None:
    """A file that is taken over twice is said to be here already, and opens the walk that is here."""
    there = machine("there")
    first, one = take_over(handed_of(walked(upto=20)), there)
    before = rows(tmp_path / "there")
    again, two = take_over(handed_of(walked(upto=20)), there)
    assert (two.number, bare(again)) == (one.number, bare(first))
    assert SAME in str(two.news())
    assert rows(tmp_path / "there") == before


def test_an_older_file_takes_nothing_away(machine: Machine, tmp_path: Path) -> None:
    """Where the walk here is further on, it stays so."""
    there = machine("there")
    take_over(handed_of(walked(upto=20)), there)
    before = rows(tmp_path / "there")
    walk, keeper = take_over(handed_of(walked(upto=12)), there)
    assert len(walk.answers) == 20
    assert BEHIND in str(keeper.news())
    assert rows(tmp_path / "there") == before


def test_a_later_file_goes_on_with_the_same_walk(machine: Machine) -> None:
    """Where the file is further on, the walk here goes on; times that were taken here are kept."""
    there = machine("there")
    _, one = take_over(handed_of(walked(upto=12)), there)
    later = handed_of(walked(upto=20))
    moved = replace(later, answers=tuple(replace(each, time=WRITTEN) for each in later.answers))
    walk, two = take_over(moved, there)
    assert two.number == one.number
    assert AHEAD in str(two.news())
    assert [each.time for each in walk.answers[:12]] == [each.time for each in walked(upto=12).answers]
    assert {each.time for each in walk.answers[12:]} == {WRITTEN}
    assert len(there.walks()) == 1


def other_way(walk: Walk) -> Walk:
    """Answer the question after a walk otherwise than the recorded one, and the next one too."""
    for answer in (Unsure(), Cannot()):
        try:
            other = walk.answer(answer, WRITTEN)
        except Refused:
            continue
        if not other.ended:
            return other
    raise LookupError


def test_two_ways_on_are_two_walks(machine: Machine) -> None:
    """Answered on in two places, both are kept; the file of the other one finds its own walk again, and goes on."""
    there = machine("there")
    ours = next(walk for n in range(8, 20) if (walk := _or_none(n)))
    take_over(handed_of(walked(upto=30)), there)
    walk, keeper = take_over(handed_of(ours), there)
    assert bare(walk) == bare(ours)
    assert APART in str(keeper.news())
    assert len(there.walks()) == 2
    again, same = take_over(handed_of(ours), there)
    assert (same.number, bare(again)) == (keeper.number, bare(ours))
    further = ours.answer(Unable() if isinstance(ours.now.node, Measure) else _first(ours), WRITTEN)
    longer, third = take_over(handed_of(further), there)
    assert (third.number, bare(longer)) == (keeper.number, bare(further))
    assert len(there.walks()) == 2


def _or_none(count: int) -> Walk | None:
    try:
        return other_way(walked(upto=count))
    except LookupError:
        return None


def _first(walk: Walk) -> Answer:
    node = walk.now.node
    return Choose(node.choices[0].id) if isinstance(node, Ask) else Done()


HOLDS = """
import sys
from pathlib import Path
from shorewalk.journal import Journal
print(Journal.open(Path(sys.argv[1])).hold(int(sys.argv[2])), flush=True)
sys.stdin.read()
"""


def test_a_walk_that_is_open_in_another_terminal_is_not_written_over(
    machine: Machine, tmp_path: Path
) -> None:
    """Two programs do not write one walk: the file waits until it is left there."""
    there = machine("there")
    number = there.take_in(walked(upto=12), NAME)
    before = rows(tmp_path / "there")
    words = [sys.executable, "-c", HOLDS, str(tmp_path / "there"), str(number)]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout
        assert other.stdout.readline() == "True\n"
        with pytest.raises(NotTaken, match=OPEN[:30]):
            take_over(handed_of(walked(upto=20)), there)
        other.communicate()
    assert rows(tmp_path / "there") == before
    take_over(handed_of(walked(upto=20)), there)
    assert rows(tmp_path / "there") != before


# Other trees.


def test_other_trees_take_what_fits_and_say_where_it_stopped(machine: Machine, tmp_path: Path) -> None:
    """Where a question is another one here, the walk stops before it, and says to look how things stand."""
    handed = handed_of(walked(upto=20))
    changed = list(handed.answers)
    changed[11] = replace(changed[11], at="asked_elsewhere_only")
    walk, keeper = take_over(replace(handed, answers=tuple(changed)), machine("there"))
    assert len(walk.answers) == 11
    news = str(keeper.news())
    assert "11 of 20 answers fit. Answer 12, to asked_elsewhere_only" in news
    assert LOOK in news
    assert len(rows(tmp_path / "there")) == 1 + 11


def test_trees_that_differ_are_told_even_where_all_fits(machine: Machine) -> None:
    """What the trees were there stands in the file; where it is not what they are here, that is said."""
    _, keeper = take_over(handed_of(walked(upto=5), content="f" * 32), machine("there"))
    assert OTHER_TREES in str(keeper.news())
    _, keeper = take_over(handed_of(walked(upto=5)), machine("elsewhere"))
    assert OTHER_TREES not in str(keeper.news())


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ({"tree": "arival"}, 'There is no tree "arival" here. Did you mean "arrival"?'),
        ({"tree": "../arrival"}, "There is no tree"),
        ({"tree": "site/states"}, "There is no tree"),
        ({"tree": "tingle"}, "Not one of its answers fits"),
        ({"shipped": False}, "take-over FILE --trees FOLDER"),
    ],
)
def test_a_walk_that_cannot_be_walked_here_leaves_nothing(
    machine: Machine, tmp_path: Path, other: dict[str, object], said: str
) -> None:
    """It is refused with what to do, and nothing of it is on the disk."""
    there = machine("there")
    with pytest.raises(NotTaken) as refused:
        take_over(handed_of(walked(upto=5), **other), there)
    assert said in str(refused.value)
    assert rows(tmp_path / "there") == []


OWN = """\
tree: small
symptom: Something small is wrong
starts: {cord: unplugged}
begin: begin
nodes:
  begin: {step: Read this., done: look, cannot: out}
  look: {step: Look there., done: out, cannot: out}
  out: {end: stay-unplugged, because: It was small., safe_action: Stay out., call: park, say: Small.}
"""


def test_a_walk_in_own_trees_needs_their_folder(machine: Machine, tmp_path: Path) -> None:
    """The file names no folder of the other machine: whoever takes it over says where the same trees are."""
    folders = []
    for name in ("one", "two"):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "small.yaml").write_text(OWN)
        folders.append(folder)
    walk = begin(Library(folders[0]), "small", parse_meter("basic")).answer(Done(), WRITTEN)
    keeper = kept(machine("here", WRITTEN), walk)
    handed = sent(walk, keeper)
    assert str(tmp_path) not in handed_text(walk, keeper)
    there = machine("there")
    with pytest.raises(NotTaken, match="--trees FOLDER"):
        take_over(handed, there)
    taken, own = take_over(handed, there, Library(folders[1]))
    assert taken.now.node.name == "look"
    assert own.number is not None
    assert there.entry(own.number).folder == str(folders[1])
    with pytest.raises(NotTaken, match="leave the folder out"):
        take_over(handed_of(walked(upto=3)), there, Library(folders[1]))


# Times.


@pytest.mark.parametrize(
    "time", [None, "", "noon", "2026-05-01T12:08:00", "2999-01-01T00:00:00Z", "2026-05-01T13:00:01Z"]
)
def test_a_reading_of_no_time_that_can_be_is_old(time: str | None) -> None:
    """Missing, not to be read, without a zone, or later than the file: the reading counts as taken long ago."""
    walk = walked(upto=AT_A_LOOK)
    assert any(walk.now.looks.values())
    answers = tuple(
        replace(each, time=time) if isinstance(each.answer, Read) else each for each in walk.answers
    )
    believing = believed(handed_of(walk, answers=answers), SOON)
    assert {each.time for each in believing if isinstance(each.answer, Read)} == {LONG_AGO}


def test_readings_are_as_old_as_they_are(machine: Machine) -> None:
    """Taken over at once, the looks hold; taken over hours later, they do not, as on the machine they came from."""
    walk = walked(upto=AT_A_LOOK)
    last = str(walk.answers[-1].time)
    handed = handed_of(walk, written=last)
    held = {look for look, holds in walk.now.looks.items() if holds}
    at_once, _ = take_over(handed, machine("there", last))
    assert held
    assert {look for look, holds in at_once.now.looks.items() if holds} == held
    late, _ = take_over(handed, machine("elsewhere", LATER))
    assert not any(late.now.looks.values())


def test_a_clock_that_is_ahead_makes_nothing_fresh(machine: Machine) -> None:
    """Where the file was written at a time yet to come here, the walk comes back the way it went, all of it old."""
    walk = walked(upto=AT_A_LOOK)
    there, keeper = take_over(handed_of(walk), machine("there", "2026-05-01T12:08:30Z"))
    assert CLOCKS in str(keeper.news())
    assert bare(there) == bare(walk)
    assert any(walk.now.looks.values())
    assert not any(there.now.looks.values())
    assert all(str(each.time) < "2000" for each in there.answers)
    assert {known.time for known in there.now.known} == {None}
    record = record_markdown(there)
    assert "When: not noted" in record
    assert not re.search(r"\b1999\b|\d\d:\d\d:\d\d", record)


def test_no_time_in_a_file_makes_a_reading_younger() -> None:
    """Whatever stands for a time, no look holds there that would not hold with the times as they were."""
    walk = walked(upto=AT_A_LOOK)
    for n in [n for n, each in enumerate(walk.answers) if isinstance(each.answer, Read)][::3]:
        for time in (
            "2026-05-01T13:30:00Z",
            "2026-05-01T12:00:00+14:00",
            "9999-12-31T23:59:59-14:00",
            "0001-01-01T00:00:00+23:59",
        ):
            answers = (
                *walk.answers[:n],
                replace(walk.answers[n], time=time, resumed=time),
                *walk.answers[n + 1 :],
            )
            believing = believed(handed_of(walk, answers=answers), LATER)
            again, _ = resume(shipped(), walk.tree, walk.meter, believing, LATER)
            assert not any(again.now.looks.values())


# Handing over.


def test_nothing_answered_is_nothing_to_hand_over(machine: Machine) -> None:
    """A walk without an answer is begun on the other machine as well."""
    with pytest.raises(NothingToHandOver, match="nothing to hand over"):
        handed_text(walked(upto=0), Keeper(machine("here")))


def test_no_file_is_written_over(machine: Machine, tmp_path: Path) -> None:
    """Handed over twice on one day, there are two files."""
    walk = walked(upto=4)
    keeper = kept(machine("here"), walk)
    first, second = (hand_over(walk, keeper, tmp_path) for _ in range(2))
    assert [path.name for path in (first, second)] == [
        "arrival-2026-05-01.walk.json",
        "arrival-2026-05-01-2.walk.json",
    ]


def test_a_reading_with_an_odd_blank_is_handed_over(machine: Machine) -> None:
    """A blank that cannot be seen is taken by the meter's line, so the file must not be refused for it."""
    walk = walked(upto=AT_A_LOOK)
    at = next(n for n, each in enumerate(walk.answers) if isinstance(each.answer, Read))
    text = walk.answers[at].answer.text  # type: ignore[union-attr]
    odd = walked(upto=at).answer(Read(f"{text}\u00a0\x1f V"), WRITTEN)
    handed = sent(odd, kept(machine("here", WRITTEN), odd))
    assert handed.answers[-1].answer == Read(f"{text} V")


def test_a_disk_that_fails_takes_all_or_nothing(machine: Machine, tmp_path: Path) -> None:
    """Where the disk gives up halfway, the walk is refused and nothing of it is there."""
    there = machine("there")
    take_over(handed_of(walked(upto=6)), there)
    with sqlite3.connect(tmp_path / "there" / FILE) as other:
        other.execute(
            "create trigger full before insert on answers when new.n = 9 begin select raise(abort, 'full'); end"
        )
    other.close()
    before = rows(tmp_path / "there")
    for handed in (handed_of(walked(upto=20)), handed_of(walked(upto=20), id="f" * 32)):
        with pytest.raises(NotTaken, match="not taken over"):
            take_over(handed, there)
        assert rows(tmp_path / "there") == before
