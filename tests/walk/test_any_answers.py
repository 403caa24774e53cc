"""Whatever is answered: only refusals, no lost answer, the same place from the same answers."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.tree.model import Choice, Jump, Load, Tally, Way, Work
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending, message_text, record_markdown
from shorewalk.walk.meter import Meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin, resume

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf

TEXTS = [
    "0.0",
    "0.4",
    "3.0",
    "60.0",
    "95.0",
    "104.5",
    "112.0",
    "119.0",
    "121.3",
    "128.5",
    "243.0",
    "OL",
    "118-122",
]
CHOICES = ["none", "present", "yes", "no", "30", "20", "tripped", "on", "clear", "thunder", "silent", "warns"]
LOADS = st.tuples(st.sampled_from(["kettle", "microwave", "moon"]), st.integers(-1, 120))
ANSWERS: st.SearchStrategy[Answer] = st.one_of(
    st.builds(Choose, st.sampled_from(CHOICES) | st.text(max_size=3)),
    st.builds(Read, st.sampled_from(TEXTS), st.booleans()),
    st.builds(Read, st.text(max_size=6), st.booleans()),
    st.sampled_from([Unsure(), Unable(), Done(), Cannot(), Done(), Unable()]),
    st.builds(Running, st.lists(LOADS, max_size=3).map(tuple)),
)
METERS = st.sampled_from([None, True, False]).map(lambda tenths: Meter("basic", 1.2, 5, tenths=tenths))


@pytest.fixture(scope="module")
def trees(make: Make, empty_shelf: Shelf) -> Shelf:
    """Two trees with every kind of node, loops that end, and a jump."""
    loaded = make.measure("loaded", "pedestal-30 L N", "gap", "gap")
    gap = Work(
        name="gap",
        out="gap",
        using="difference",
        inputs=(("a", "ln"), ("b", "loaded")),
        bands=(make.band("tally ok below gap-stop"), make.band("tally watch")),
        missing=make.way("tally"),
    )
    tally = Tally(
        name="tally",
        text="What was running?",
        loads=("kettle", "microwave"),
        at_voltage="ln",
        bands=(make.band("go ok upto amps-80"), make.band("go watch")),
        unsure=make.way("go watch"),
    )
    empty_shelf.add(
        "one",
        make.ask("which", "outlet-used", {"30": "tenths", "20": "tenths"}, "bad"),
        make.ask("tenths", "tenths", {"yes": "on", "no": "on"}, "on"),
        make.step("on", "ng", "bad", pedestal_breaker="on"),
        make.measure("ng", "pedestal-30 N G", "ln", "ln"),
        make.measure("ln", "pedestal-30 L N", "verdict", "bad"),
        make.judge(
            "verdict",
            [
                make.row("bad danger", "ng from ghost-high"),
                make.row("handle again", "ln below no-voltage"),
                make.row("bad stop", "ln below low"),
                make.row("loaded watch", "ln below service-a-low"),
                make.row("loaded ok"),
            ],
            of="ng ln",
            missing="loaded watch",
            at_most=2,
            spent=make.way("bad stop"),
        ),
        make.ask("handle", "breaker-position", {"on": "bad", "off": "on", "tripped": "on"}),
        replace(loaded, load=Load("one-leg")),
        gap,
        tally,
        make.ask("go", "neighbours", {"fine": "in", "same": "jump"}, "bad"),
        make.step("in", "detector", "out", cord="pedestal-30"),
        make.ask("detector", "near-voltage", {"silent": "good", "warns": "out", "no-detector": "out"}, "out"),
        make.step("out", "bad", "bad", cord="unplugged"),
        Jump(name="jump", tree="two"),
        make.end(
            "good", "good-to-use", say="[Site {site}: ]{readings}[ and {gap}, {tally}].", call_when="it dims"
        ),
        make.end("bad"),
        starts={"cord": "unplugged", "pedestal-breaker": "off", "rig-main": "on"},
    )
    empty_shelf.add(
        "two",
        make.ask("sky", "weather", {"clear": "once", "rain": "bad", "thunder": "bad"}, "bad"),
        replace(
            make.ask("once", "burn-marks", {"none": "bad", "present": "sky"}, "sky"),
            at_most=3,
            spent=Way("back"),
        ),
        Jump(name="back", tree="one"),
        make.end("bad", "leave-as-is"),
    )
    return empty_shelf


def legal(walk: Walk) -> list[Answer]:
    """Answers that may fit the open question."""
    node = walk.now.node
    choices: tuple[Choice, ...] = getattr(node, "choices", ())
    kinds: dict[str, list[Answer]] = {
        "Ask": [*(Choose(choice.id) for choice in choices), Unsure()],
        "Step": [Done(), Cannot()],
        "Measure": [*(Read(text, confirmed=True) for text in TEXTS), Unable()],
        "Tally": [Running((("kettle", 1), ("microwave", 2))), Running(), Unsure()],
    }
    return kinds.get(type(node).__name__, [])


@settings(max_examples=150, deadline=None)
@given(meter=METERS, answers=st.lists(ANSWERS, max_size=25))
def test_any_answers_are_taken_or_refused(trees: Shelf, meter: Meter, answers: list[Answer]) -> None:
    """Any answer is taken, and is then the last of the walk, or refused with a sentence, changing nothing."""
    walk = begin(trees, "one", meter)
    for answer in answers:
        before, place = walk, walk.now
        try:
            walk = walk.answer(answer)
        except Refused as refused:
            assert refused.reason.endswith((".", "?"))  # noqa: PT017 (either may happen)
            assert before.now == place
            continue
        assert walk.answers[:-1] == before.answers
        assert walk.answers[-1].answer == answer
        assert (walk.answers[-1].at, walk.answers[-1].nth) == (place.node.name, place.nth)
        assert before.now == place


@settings(max_examples=150, deadline=None)
@given(meter=METERS, data=st.data())
def test_every_walk_ends_safely_and_can_be_told(trees: Shelf, meter: Meter, data: st.DataObject) -> None:
    """Legal answers lead to an ending in few steps; it can be told, taken back, resumed and revised."""
    walk = begin(trees, "one", meter)
    worst: str | None = None
    for _ in range(40):
        if walk.ended:
            break
        choices = legal(walk)
        walk = walk.answer(data.draw(st.sampled_from(choices)))
        order = [None, "ok", "watch", "stop", "danger"]
        assert order.index(walk.now.worst) >= order.index(worst)
        worst = walk.now.worst
    assert walk.ended
    assert resume(trees, "one", meter, walk.answers) == (walk, 0)
    assert resume(trees, "one", meter, walk.answers)[0].now == walk.now
    found = ending(walk)
    assert found.safe_action
    assert found.call in ("park", "electrician")
    assert "{" not in found.say + found.because + found.safe_action
    if worst in ("stop", "danger"):
        assert found.verdict not in ("good-to-use", "use-with-care", "leave-as-is")
    assert message_text(found)
    assert record_markdown(walk).startswith("# Record")
    index = data.draw(st.integers(0, len(walk.answers) - 1))
    assert walk.revise(index, walk.answers[index].answer).now == walk.now
    assert walk.back().answers == walk.answers[:-1]
