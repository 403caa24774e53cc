"""A walk: where answers lead, what they leave, what is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.model import Jump, Tree
from shorewalk.walk.answers import Answer, Answered, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.meter import Meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin, resume

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf


def walk_through(walk: Walk, *answers: Answer) -> Walk:
    for answer in answers:
        walk = walk.answer(answer)
    return walk


@pytest.fixture
def look(shelf: Shelf, make: Make, basic: Meter) -> Walk:
    """A step, a sign, a reading judged alone, and endings."""
    shelf.add(
        "look",
        make.step("off", "marks", "bad", rig_main="off"),
        make.ask("marks", "burn-marks", {"none": "volts", "present": "bad stop"}),
        make.measure(
            "volts", "pedestal-30 L N", ["bad stop below low", "good ok upto service-a-high", "bad stop"]
        ),
        make.end("good"),
        make.end("bad"),
        starts={"cord": "unplugged", "pedestal-breaker": "on"},
    )
    return begin(shelf, "look", basic)


def test_a_walk_begins_at_its_first_question(look: Walk) -> None:
    """The first position has step 1, the states the tree starts with, and nothing known."""
    now = look.now
    assert (now.node.name, now.nth, now.step) == ("off", 1, 1)
    assert now.state == {"cord": "unplugged", "pedestal-breaker": "on", "shown-dead": "no"}
    assert (now.known, now.worst, now.ended) == ((), None, False)
    assert now.energised == "no"


def test_answers_lead_to_an_ending(look: Walk) -> None:
    """Each answer goes its way, leaves its state and its grade, and the last one ends the walk."""
    walk = walk_through(look, Done(), Choose("none"), Read("121.8"))
    assert [answered.at for answered in walk.answers] == ["off", "marks", "volts"]
    assert walk.ended
    assert walk.now.node.name == "good"
    assert walk.now.state["rig-main"] == "off"
    assert [(known.shows, known.grade) for known in walk.now.known] == [
        ("it is none", "ok"),
        ("121.8 V", "ok"),
    ]
    assert walk.now.known[1].says == "hot to neutral, 30 A outlet"
    assert walk.now.worst == "ok"
    assert walk.now.left == (0, 0)


@pytest.mark.parametrize("answer", [Choose("none"), Unsure(), Read("121.8"), Unable(), Running()], ids=repr)
def test_an_answer_of_the_wrong_kind_is_refused(look: Walk, answer: Answer) -> None:
    """A step takes only done and cannot; anything else is refused with what is wanted."""
    with pytest.raises(Refused, match="Say that it is done"):
        look.answer(answer)
    assert look.now.node.name == "off"


def test_a_choice_that_is_not_there_is_refused(look: Walk) -> None:
    """An unknown choice is refused with the list of those there are, and nothing changes."""
    walk = look.answer(Done())
    before = walk.now
    with pytest.raises(Refused, match="none, present"):
        walk.answer(Choose("perhaps"))
    assert walk.now == before


def test_a_walk_that_ended_takes_no_answer(look: Walk) -> None:
    """After the ending every answer is refused; taking back the last one opens it again."""
    walk = walk_through(look, Done(), Choose("present"))
    with pytest.raises(Refused, match="ended"):
        walk.answer(Done())
    assert walk.back().now.node.name == "marks"


def test_back_is_where_it_was(look: Walk) -> None:
    """Back drops the last answer and all that came of it; at the start it is refused."""
    one = look.answer(Done())
    two = one.answer(Choose("none"))
    assert two.back() == one
    assert two.back().now == one.now
    with pytest.raises(Refused, match="first question"):
        look.back()


def test_unsure_takes_the_worst_of_its_choices(look: Walk) -> None:
    """Not sure about burn marks counts as burn marks."""
    walk = walk_through(look, Done(), Unsure())
    assert walk.now.worst == "stop"
    assert walk.now.known[-1].grade == "stop"


def test_unsure_is_never_told_as_good(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Where every answer is good, not knowing is noted: what nobody knows is not as it should be."""
    shelf.add(
        "sky",
        make.ask("weather", "weather", {"dry": "end ok", "wet": "end ok"}, unsure="end"),
        make.end("end"),
    )
    walk = begin(shelf, "sky", basic).answer(Unsure())
    assert [(known.shows, known.grade) for known in walk.now.known] == [("not sure", None)]


def test_a_reading_that_counted_once_counts_when_a_walk_is_taken_up(look: Walk) -> None:
    """A walk kept before a doubt was known goes on where it was left, its answers as they were given."""
    kept = walk_through(look, Done(), Choose("none"))
    old = (*kept.answers, Answered(*kept.ledger.key(), kept.ledger.nth, Read("0")))
    walk, lost = resume(look.library, "look", look.meter, old)
    assert (walk.ended, lost) == (True, 0)
    assert walk.answers == old


def test_unsure_with_a_grade_of_its_own(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Where the way of `unsure` names a grade, that one counts."""
    shelf.add("t", make.ask("a", "neighbours", {"fine": "e", "same": "e stop"}, "e watch"), make.end("e"))
    assert begin(shelf, "t", basic).answer(Unsure()).now.worst == "watch"


def test_a_sign_is_never_milder_than_signs_yaml(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A tree that grades burn marks as fine is overruled by the sign's least grade."""
    shelf.add("t", make.ask("a", "burn-marks", {"none": "e ok", "present": "e ok"}), make.end("e"))
    assert begin(shelf, "t", basic).answer(Choose("present")).now.worst == "stop"
    assert begin(shelf, "t", basic).answer(Choose("none")).now.worst == "ok"


def test_a_reading_is_never_milder_than_grades_yaml(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A tree that grades 60 V between neutral and ground as fine is overruled by the least grade."""
    shelf.add("t", make.measure("a", "pedestal-30 N G", ["e ok"]), make.end("e"))
    walk = begin(shelf, "t", basic).answer(Read("60.0"))
    assert walk.now.worst == "stop"
    assert walk.now.known[0].grade == "stop"


def test_cannot_leaves_both_possible(look: Walk) -> None:
    """After a step that could not be done its states are not known, and the record says so."""
    walk = look.answer(Cannot())
    assert "rig-main" not in walk.now.state
    assert walk.now.known[0].shows == "could not be done"


def test_unable_leaves_no_evidence(look: Walk) -> None:
    """What could not be measured has no grade and is no reading."""
    walk = walk_through(look, Done(), Choose("none"), Unable())
    assert walk.now.node.name == "bad"
    assert walk.now.known[-1].grade is None
    assert walk.now.looks["full-look"] is False


def test_judge_gives_its_grade_to_all_it_waits_for(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The grade of the row counts for each reading in `of`; a row naming what was not read does not fire."""
    shelf.add(
        "t",
        make.measure("earth", "pedestal-30 L earth", "ng", "ng"),
        make.measure("ng", "pedestal-30 N G", "ln", "bad"),
        make.measure("ln", "pedestal-30 L N", "verdict", "bad"),
        make.judge(
            "verdict",
            [
                make.row("bad stop", "earth below ghost-high"),
                make.row("good watch", "ln below service-a-low"),
                make.row("good ok"),
            ],
            of="ng ln",
        ),
        make.end("good"),
        make.end("bad"),
    )
    walk = walk_through(begin(shelf, "t", basic), Unable(), Read("0.4"), Read("112.0"))
    assert walk.now.node.name == "good"
    assert [known.grade for known in walk.now.known] == [None, "watch", "watch"]
    walk = walk_through(begin(shelf, "t", basic), Read("0.1"), Read("0.4"), Read("121.0"))
    assert walk.now.node.name == "bad"
    assert [known.grade for known in walk.now.known] == ["stop", "stop", "stop"]


def test_judge_goes_missing_only_for_what_it_waits_for(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Without a reading in `of` the judge takes its way `missing`."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", "verdict", "verdict"),
        make.judge("verdict", [make.row("good ok")], of="ln", missing="gone"),
        make.end("good"),
        make.end("gone"),
    )
    assert begin(shelf, "t", basic).answer(Unable()).now.node.name == "gone"


def test_a_row_without_a_grade_judges_nothing(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A branch on readings leaves them open for `again`; no least grade is applied yet."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", "branch"),
        make.judge("branch", [make.row("ask")], of="ln"),
        make.ask("ask", "neighbours", {"fine": "e", "same": "e"}),
        make.end("e"),
    )
    assert begin(shelf, "t", basic).answer(Read("0.0")).now.worst is None


def test_again_voids_and_spent_ends_the_loop(shelf: Shelf, make: Make, basic: Meter) -> None:
    """`again` makes readings count for nothing; after `at_most` arrivals the way is `spent`."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", "verdict"),
        make.judge(
            "verdict",
            [make.row("on again", "ln below no-voltage"), make.row("good ok")],
            of="ln",
            at_most=2,
            spent=make.way("gone"),
        ),
        make.step("on", "ln", pedestal_breaker="on"),
        make.end("good"),
        make.end("gone"),
    )
    walk = begin(shelf, "t", basic).answer(Read("0.0"))
    assert (walk.now.node.name, walk.now.worst) == ("on", None)
    assert walk.now.known[0].void
    walk = walk.answer(Done())
    assert (walk.now.node.name, walk.now.nth) == ("ln", 2)
    good = walk.answer(Read("121.0"))
    assert good.now.node.name == "good"
    assert [(known.shows, known.void) for known in good.now.known] == [("121.0 V", False)]
    spent = walk_through(walk, Read("0.0"), Done(), Read("0.0"))
    assert spent.now.node.name == "gone"


def test_a_later_unable_takes_the_older_reading_back(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Asked afresh and not measurable, an old reading no longer counts."""
    shelf.add(
        "t",
        make.measure("ng", "pedestal-30 N G", "more", "more"),
        make.ask("more", "neighbours", {"fine": "end_judge", "same": "ng"}),
        make.judge("end_judge", [make.row("good ok")], of="ng", missing="gone"),
        make.end("good"),
        make.end("gone"),
    )
    walk = walk_through(begin(shelf, "t", basic), Read("0.4"), Choose("same"), Unable(), Choose("fine"))
    assert walk.now.node.name == "gone"


def test_state_rows_count_what_may_be(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A row on a state that is not known may be met, so the worse row above wins."""
    shelf.add(
        "t",
        make.step("off", "which", "which", pedestal_breaker="off"),
        make.judge("which", [make.row("bad", while_={"pedestal-breaker": "on"}), make.row("good")]),
        make.end("good"),
        make.end("bad"),
        starts={"pedestal-breaker": "on"},
    )
    assert begin(shelf, "t", basic).answer(Done()).now.node.name == "good"
    assert begin(shelf, "t", basic).answer(Cannot()).now.node.name == "bad"


def test_worst_and_lacks_rows(shelf: Shelf, make: Make, basic: Meter) -> None:
    """`worst` is met from its grade on; `lacks` while a look is not held."""
    shelf.add(
        "t",
        make.ask("a", "neighbours", {"fine": "any ok", "same": "any watch"}),
        make.judge(
            "any", [make.row("bad", worst="watch"), make.row("lacking", lacks="look-a"), make.row("good")]
        ),
        make.end("good"),
        make.end("bad"),
        make.end("lacking"),
    )
    assert begin(shelf, "t", basic).answer(Choose("same")).now.node.name == "bad"
    assert begin(shelf, "t", basic).answer(Choose("fine")).now.node.name == "lacking"


def test_a_jump_carries_everything(shelf: Shelf, make: Make, basic: Meter) -> None:
    """State, grades and what is known go along into another tree."""
    shelf.add(
        "one", make.ask("a", "neighbours", {"fine": "j watch", "same": "j"}), Jump(name="j", tree="two")
    )
    shelf.trees["one"] = _with_starts(shelf.trees["one"], cord="unplugged")
    shelf.add(
        "two",
        make.ask("b", "weather", {"clear": "e", "rain": "e"}),
        make.end("e"),
        starts={"cord": "unplugged"},
    )
    walk = begin(shelf, "one", basic).answer(Choose("fine"))
    assert (walk.now.tree, walk.now.node.name, walk.now.worst) == ("two", "b", "watch")
    assert walk.now.state["cord"] == "unplugged"
    assert walk.now.known[0].tree == "one"
    assert walk.answer(Choose("clear")).answers[1].tree == "two"


def _with_starts(tree: Tree, **starts: str) -> Tree:
    from dataclasses import replace

    return replace(tree, starts=tuple(starts.items()))


@pytest.mark.parametrize("to", ["one", "nowhere", "plugged"])
def test_a_jump_that_cannot_be_made_ends_safely(shelf: Shelf, make: Make, basic: Meter, to: str) -> None:
    """A tree entered before, not there, or beginning otherwise than things stand: a safe ending."""
    shelf.add("one", make.step("a", "j", cord="unplugged"), Jump(name="j", tree=to))
    shelf.add("plugged", make.end("e"), starts={"cord": "plugged"})
    walk = begin(shelf, "one", basic).answer(Done())
    assert walk.ended
    assert walk.now.node.name == "j"
    assert getattr(walk.now.node, "verdict", None) == "stay-unplugged"


def test_a_circle_of_silent_nodes_ends_safely(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A tree that goes round without asking ends, and says unplug where the cord may be in."""
    shelf.add("t", make.judge("a", [make.row("b")]), make.judge("b", [make.row("a")]))
    walk = begin(shelf, "t", basic)
    assert walk.ended
    assert getattr(walk.now.node, "verdict", None) == "unplug-now"


def test_no_way_on_ends_safely(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A way that is missing or leads nowhere ends the walk on the safe side."""
    shelf.add("t", make.step("a", "nowhere", None))
    for answer in (Done(), Cannot()):
        assert begin(shelf, "t", basic).answer(answer).ended


def test_tenths_is_asked_once(shelf: Shelf, make: Make) -> None:
    """A meter that does not say is asked about; one that does is not; not sure means whole numbers."""
    shelf.add("t", make.ask("t", "tenths", {"yes": "e", "no": "e"}, "e"), make.end("e"))
    unknown = Meter("basic", 1.2, 5)
    walk = begin(shelf, "t", unknown)
    assert not walk.ended
    for answer, tenths in ((Choose("yes"), True), (Choose("no"), False), (Unsure(), False)):
        assert walk.answer(answer).now.meter.tenths is tenths
    assert begin(shelf, "t", Meter("basic", 1.2, 5, tenths=True)).ended


def test_whole_volts_condemn_but_do_not_clear(shelf: Shelf, make: Make, whole: Meter) -> None:
    """On a small quantity a meter of whole volts goes `unable`, with a note, unless it is surely a stop."""
    bands = ["good ok below ng-ok", "good watch below ng-stop", "bad stop"]
    shelf.add(
        "t",
        make.measure("a", "pedestal-30 N G", bands, "gone"),
        make.end("good"),
        make.end("bad"),
        make.end("gone"),
    )
    walk = begin(shelf, "t", whole).answer(Read("1"))
    assert walk.now.node.name == "gone"
    assert "whole volts" in (walk.now.known[0].note or "")
    assert walk.now.known[0].shows == "1 V"
    assert walk.now.notes
    assert walk.now.looks["full-look"] is False
    assert begin(shelf, "t", whole).answer(Read("60")).now.node.name == "bad"


def test_notes_tell_of_doubt(look: Walk) -> None:
    """What the last judgement said of the meter's doubt is there to show, and gone with the next answer."""
    walk = walk_through(look, Done(), Choose("none"))
    assert walk.now.notes == ()
    assert walk.answer(Read("125.5")).now.notes == ("Close to the edge; your meter could be off by 2 V.",)


def test_cautions_whole_once_then_short(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Cautions are shown whole where they are first listed, and as reminders before live readings after."""
    shelf.add(
        "t",
        make.measure("a", "pedestal-30 N G", "b", "b", cautions=("dry-hands", "black-first")),
        make.measure("b", "pedestal-30 L N", "c", "c"),
        make.ask("c", "weather", {"clear": "e", "rain": "e"}),
        make.end("e"),
    )
    walk = begin(shelf, "t", basic)
    assert ([c.id for c in walk.now.cautions], walk.now.cautions_full) == (["dry-hands", "black-first"], True)
    walk = walk.answer(Unable())
    assert ([c.id for c in walk.now.cautions], walk.now.cautions_full) == (
        ["dry-hands", "black-first"],
        False,
    )
    assert walk.answer(Unable()).now.cautions == ()


def test_revise_keeps_what_still_fits(look: Walk) -> None:
    """Changing an early answer keeps the later ones that come to the same questions in the same state."""
    walk = walk_through(look, Done(), Choose("none"), Read("121.8"))
    assert walk.revise(2, Read("100.0")).now.node.name == "bad"
    same = walk.revise(1, Choose("none"))
    assert same.now == walk.now
    changed = walk.revise(1, Choose("present"))
    assert [answered.at for answered in changed.answers] == ["off", "marks"]
    assert changed.now.node.name == "bad"
    with pytest.raises(Refused):
        walk.revise(3, Done())
    with pytest.raises(Refused):
        walk.revise(0, Choose("none"))


def test_revise_drops_what_was_said_in_another_state(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A reading taken while the breaker was on is not kept where it may now be off."""
    shelf.add(
        "t",
        make.step("on", "ln", "ln", pedestal_breaker="on"),
        make.measure("ln", "pedestal-30 L N", "e"),
        make.end("e"),
        starts={"pedestal-breaker": "off"},
    )
    walk = walk_through(begin(shelf, "t", basic), Done(), Read("121.0"))
    revised = walk.revise(0, Cannot())
    assert len(revised.answers) == 1
    assert revised.now.node.name == "ln"


def test_resume_feeds_what_still_fits(look: Walk, shelf: Shelf, basic: Meter) -> None:
    """Answers kept on disk lead to the same place; those that no longer fit are counted."""
    walk = walk_through(look, Done(), Choose("none"))
    assert resume(shelf, "look", basic, walk.answers) == (walk, 0)
    older = (*walk.answers[:1], Answered("look", "moved", 1, Done()))
    resumed, left = resume(shelf, "look", basic, older)
    assert (len(resumed.answers), left) == (1, 1)


def test_time_is_kept_as_given(look: Walk) -> None:
    """A walk knows no clock; it keeps the time it is given."""
    walk = look.answer(Done(), "2030-05-01T18:00:00Z")
    assert walk.answers[0].time == "2030-05-01T18:00:00Z"
    assert look.answer(Done()).answers[0].time is None


def test_steps_left(look: Walk) -> None:
    """About how many steps are left, where nothing goes wrong."""
    assert look.now.left == (3, 3)
    assert walk_through(look, Done(), Choose("none")).now.left == (1, 1)


def test_a_need_that_is_not_known_to_hold_ends_safely(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A node that needs the cord out is never asked while the cord may be in."""
    shelf.add(
        "t",
        make.step("out", "ln", "ln", cord="unplugged"),
        make.measure("ln", "pedestal-30 L N", "e", "e", needs=(("cord", "unplugged"),)),
        make.end("e"),
        starts={"cord": "plugged"},
    )
    walk = begin(shelf, "t", basic)
    assert walk.answer(Done()).now.node.name == "ln"
    assert not walk.answer(Done()).ended
    lost = walk.answer(Cannot())
    assert lost.ended
    assert "not known to be safe" in lost.now.text


def test_the_outlet_in_use_follows_the_cord_then_the_answer(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The outlet in use is the cord's, else the one it is meant for; not sure leaves none."""
    shelf.add(
        "t",
        make.ask("which", "outlet-used", {"20": "in", "30": "in"}, "in"),
        make.step("in", "e", "e", cord="pedestal-30"),
        make.end("e"),
        starts={"cord": "unplugged"},
    )
    walk = begin(shelf, "t", basic)
    assert walk.now.outlet is None
    assert walk.answer(Unsure()).now.outlet is None
    assert walk.answer(Choose("20")).now.outlet == "pedestal-20"
    assert walk.answer(Choose("20")).answer(Done()).now.outlet == "pedestal-30"


def test_a_judge_tells_of_doubt_where_it_matters(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A row met only because the meter could be off says so; an edge is told, at the reading too."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", "verdict"),
        make.judge(
            "verdict",
            [
                make.row("e stop", "ln below low"),
                make.row("e watch", "ln below service-a-low"),
                make.row("e ok", "ln upto service-a-high"),
                make.row("e watch"),
            ],
            of="ln",
        ),
        make.end("e"),
    )
    for text, grade, note in (
        ("105.0", "stop", "The worse grade was taken: your meter could be off by 1.8 V."),
        ("114.6", "ok", "Close to the edge; your meter could be off by 1.9 V."),
        ("120.0", "ok", None),
    ):
        now = begin(shelf, "t", basic).answer(Read(text)).now
        assert (now.known[0].grade, now.known[0].note) == (grade, note)
        assert now.notes == (() if note is None else (note,))
