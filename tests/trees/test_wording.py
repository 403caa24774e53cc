"""How the trees speak: short, one action at a time, every answer possible, never a dangerous advice."""

from __future__ import annotations

import re
import textwrap

import pytest

from shorewalk.lint.rules.hard_to_read import HARDEST, grade_of
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask, End, Judge, Measure, Node, Step, Tally, Tree, Work

TREES = [name for name in shipped().names() if name != "arrival"]
NEVER = (
    r"open (the|a) (cover|panel)", r"(remove|take off) (the|a) (cover|panel)", r"screwdriver", r"bypass",
    r"go round the protector", r"without the protector, plug", r"should be fine", r"ignore", r"probably safe",
)  # fmt: skip


@pytest.fixture(params=TREES)
def tree(request: pytest.FixtureRequest, library: Library) -> Tree:
    """Each of these trees, put together."""
    return library.tree(request.param)


def sentences(text: str) -> list[str]:
    plain = re.sub(r"[\[\]]", " ", text)
    return [part for part in re.split(r"(?<=[.!?:;])\s+", plain) if part]


def texts(node: Node) -> list[str]:
    names = ("text", "why", "hint", "because", "safe_action", "say", "call_when")
    found = [getattr(node, name, None) for name in names]
    return [text for text in found if text] + (
        [c.says for c in node.choices] if isinstance(node, Ask) else []
    )


def test_sentences_are_short(tree: Tree) -> None:
    """No sentence has more than 20 words (US plain-language guidance: 15 to 20)."""
    long = {
        s
        for node in tree.nodes.values()
        for text in texts(node)
        for s in sentences(text)
        if len(s.split()) > 20
    }
    assert not long


def test_a_question_fits_nine_lines(tree: Tree) -> None:
    """Question, reason and hint take at most nine lines of 80 columns (after UK CAA CAP 676)."""
    for node in tree.nodes.values():
        if not isinstance(node, End):
            words = [text for text in (getattr(node, "text", None), node.why, node.hint) if text]
            assert sum(len(textwrap.wrap(text, 80)) for text in words) <= 9, node.name


def test_a_step_begins_with_its_verb(tree: Tree) -> None:
    """A step says first what to do; it does not begin with a condition, an article or a name."""
    for node in tree.nodes.values():
        if isinstance(node, Step):
            first = node.text.split()[0]
            assert first.lower() not in ("the", "a", "if", "when", "your", "you", "please", "now", "it"), (
                node.text
            )


def test_nothing_dangerous_is_advised(tree: Tree) -> None:
    """No text sends a hand under a cover, round a protector, or on when unsure."""
    for node in tree.nodes.values():
        for text in texts(node):
            assert not [word for word in NEVER if re.search(word, text, re.IGNORECASE)], text


@pytest.mark.parametrize(
    ("name", "at"),
    [
        ("adapter", "not_shut_in"),
        ("arrival", "not_out"),
        ("arrival", "hook_up_30.stuck"),
        ("arrival", "look_b_30.not_out"),
        ("arrival", "look_b_50.not_out"),
        ("batteries-flat", "stay_away"),
        ("hot-plug", "not_shut"),
        ("lights-dim", "not_out"),
        ("outlet-loose", "not_shut_in"),
        ("some-bright", "not_out"),
        ("storm", "power_unsure"),
        ("voltage-high", "not_out"),
        ("voltage-low", "lost.not_out"),
    ],
)
def test_the_warning_comes_before_the_hand(name: str, at: str, library: Library) -> None:
    """Where somebody is sent to the breaker alone, scorch, water and hum are asked for first, in the same words."""
    end = library.tree(name).nodes[at]
    assert isinstance(end, End)
    words = end.safe_action or ""
    warned = words.index("Is the pedestal scorched, wet, or does it hum? Then stay away from it. Else switch")
    assert "breaker off" not in words[:warned].replace("main breaker off", "")


def test_every_answer_of_a_sign_can_be_given(tree: Tree, library: Library) -> None:
    """An ask has one choice for each answer of its sign, so that any pedestal can answer it."""
    for node in tree.nodes.values():
        if isinstance(node, Ask):
            assert {choice.id for choice in node.choices} == set(library.site.signs[node.sign].answers), (
                node.name
            )


def test_nobody_is_ever_stuck(tree: Tree) -> None:
    """Every ask, measure, step, tally, work and judge over readings has a way for whoever does not know."""
    for node in tree.nodes.values():
        match node:
            case (
                Ask(unsure=way)
                | Tally(unsure=way)
                | Measure(unable=way)
                | Step(cannot=way)
                | Work(missing=way)
            ):
                assert way is not None, node.name
            case Judge(of=of, missing=way):
                assert way is not None or not of, node.name


def test_every_ending_is_whole(tree: Tree) -> None:
    """An ending says why, what to do, whom to call and the words; where nothing needs doing, when to call."""
    for node in tree.nodes.values():
        if isinstance(node, End):
            assert node.because
            assert node.safe_action
            assert node.say
            assert node.call in ("park", "electrician"), node.name
            assert (node.first == "emergency-services") == (node.verdict == "emergency"), node.name


def test_no_tree_that_begins_plugged_in_allows_use(tree: Tree) -> None:
    """These trees leave things as they are, unplug, or go on in arrival; none calls a rig fit for use."""
    assert not [
        n for n in tree.nodes.values() if isinstance(n, End) and n.verdict.startswith(("use", "good"))
    ]


def test_cautions_can_be_read_at_grade_8(library: Library) -> None:
    """What everybody reads aloud is as easy as the linter asks of a node (`hard-to-read`)."""
    hard = {c.id: grade for c in library.site.cautions.values() if (grade := grade_of([c.text])) > HARDEST}
    assert hard == {}
