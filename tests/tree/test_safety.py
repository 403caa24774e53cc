"""Safety rules as they stand in a file: every mistake in one line with its place, by either reader."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk import folders
from shorewalk.tree.check import check_site
from shorewalk.tree.safety import Event, SafetyRule
from shorewalk.tree.site import read_site
from shorewalk.tree.source import TreeError

SHARED = folders.trees() / "site"
HEAD = "own:\n  says: Something.\n  holds:\n    - "
NEED = "need: {cord: unplugged}"
END = "never: {end: any}"


def written(folder: Path, text: str) -> Path:
    """A folder of facts of one's own with these safety rules."""
    (folder / "safety.yaml").write_text(text, encoding="utf-8")
    return folder


def told(folder: Path) -> list[str]:
    """What is wrong with a folder's safety rules, each as `line:column: words`."""
    with pytest.raises(TreeError) as caught:
        check_site(SHARED, folder)
    assert {Path(each.place.file) for each in caught.value.problems} == {folder / "safety.yaml"}
    return [f"{each.place.line}:{each.place.column}: {each.message}" for each in caught.value.problems]


@pytest.mark.parametrize(
    ("clause", "said"),
    [
        # Names that mean nothing
        (
            f"{{before: {{set: {{crod: plugged}}}}, {NEED}}}",
            '4:23: There is no state "crod". Did you mean "cord"?',
        ),
        (f"{{before: {{set: crod}}, {NEED}}}", '4:22: There is no state "crod". Did you mean "cord"?'),
        (
            "{before: {end: any}, need: {crod: plugged}}",
            '4:35: There is no state "crod". Did you mean "cord"?',
        ),
        (
            f"{{after: {{state: {{crod: plugged}}}}, {END}}}",
            '4:24: There is no state "crod". Did you mean "cord"?',
        ),
        (
            f"{{before: {{set: {{cord: pluged}}}}, {NEED}}}",
            (
                '4:29: There is no value of cord "pluged". Did you mean "plugged"? Use pedestal-20, pedestal-30, '
                "pedestal-50, plugged or unplugged."
            ),
        ),
        (
            "{before: {end: any}, need: {energised: maybe}}",
            '4:46: There is no value of energised "maybe". Use no or yes.',
        ),
        (
            f"{{before: {{end: any, while: {{energised: maybe}}}}, {NEED}}}",
            '4:46: There is no value of energised "maybe". Use no or yes.',
        ),
        (
            "{before: {measure: any}, need: {slots: full}}",
            '4:46: There is no value of slots "full". Use free.',
        ),
        (
            "{before: {end: any}, need: {look: full-lok}}",
            (
                '4:41: There is no look "full-lok". Did you mean "full-look"? Use dead-look, earth-look, full-look, '
                "look-a, look-b or skin."
            ),
        ),
        (
            f"{{after: {{sign: {{weathr: rain}}}}, {END}}}",
            '4:23: There is no sign "weathr". Did you mean "weather"?',
        ),
        (
            f"{{after: {{sign: {{weather: rainy}}}}, {END}}}",
            '4:32: There is no answer of weather "rainy". Did you mean "rain"? Use clear, rain, thunder or unsure.',
        ),
        (
            f"{{before: {{measure: oulet}}, {NEED}}}",
            '4:26: There is no place "oulet". Did you mean "outlet"?',
        ),
        (
            f"{{before: {{measure: any, between: [hot, metl]}}, {NEED}}}",
            (
                '4:46: There is no role of a terminal "metl". Did you mean "metal"? Use earth, ground, hot, metal, '
                "minus, neutral, other-ground, pin, plus or skin."
            ),
        ),
        (
            f"{{before: {{measure: any, between: [hot]}}, {NEED}}}",
            "4:40: between names the roles of two terminals; here stands one.",
        ),
        (
            f"{{before: {{end: unplugd}}, {NEED}}}",
            (
                '4:22: "unplugd" is not a verdict. Did you mean "unplugged"? Use any, emergency, good-to-use, '
                "hands-off, leave-as-is, stay-unplugged, unplug-now, unplugged or use-with-care."
            ),
        ),
        (f"{{after: {{grade: bad}}, {END}}}", '4:23: "bad" is not a grade. Use danger, ok, stop or watch.'),
        (
            f"{{after: {{grade: stop, side: left}}, {END}}}",
            '4:35: "left" is not a side of the plug. Use park or rig.',
        ),
        (
            f"{{before: {{touch: pedestl}}, {NEED}}}",
            '4:24: "pedestl" is not where a hand can go. Did you mean "pedestal"? Use any, pedestal or rig.',
        ),
        (
            f"{{before: {{end: any, call: parc}}, {NEED}}}",
            '4:33: "parc" is not one to call. Did you mean "park"? Use electrician or park.',
        ),
        (
            f"{{before: [{{measure: any}}, {{measure: any, load: one}}], {NEED}}}",
            '4:54: "one" is not an amount of load. Did you mean "none"? Use heavy, none, one-leg or usual.',
        ),
        (
            "{before: {end: any}, needs: {cord: unplugged}}",
            (
                '4:28: The key "needs" is not known here. Did you mean "need"? Use after, before, but, need, '
                "never or until."
            ),
        ),
        (f"{{before: {{ends: any}}, {NEED}}}", '4:17: The key "ends" is not known here. Did you mean "end"?'),
        # Clauses and events that say nothing, or two things
        ("{before: {end: any}}", "4:7: before and need stand together."),
        (f"{{{NEED}}}", "4:7: A clause has either before and need, or never."),
        (f"{{before: {{end: any}}, {NEED}, {END}}}", "4:7: A clause has either before and need, or never."),
        (f"{{before: {{end: any}}, {NEED}, after: {{grade: stop}}}}", "4:7: after and until go with never."),
        (f"{{until: {{grade: ok}}, {END}}}", "4:7: until goes with after."),
        ("{after: {grade: stop}}", "4:7: A clause has either before and need, or never."),
        (f"{{before: [], {NEED}}}", '4:8: "before" is empty. Write at least one.'),
        (f"{{before: {{end: []}}, {NEED}}}", '4:17: "end" is empty. Write at least one.'),
        (f"{{before: {{set: {{}}}}, {NEED}}}", '4:17: "set" is empty. Write at least one.'),
        ("{before: {end: any}, need: {cord: []}}", '4:35: "cord" is empty. Write at least one.'),
        ("{never: end}", '4:15: item 1 of "never" wants keys and values; found "end".'),
        (
            f"{{before: {{end: any, set: cord}}, {NEED}}}",
            (
                "4:16: An event has one of touch, measure, set, energise, ask, end, sign, grade or state; here stands "
                "set and end."
            ),
        ),
        (
            f"{{before: {{while: {{cord: plugged}}}}, {NEED}}}",
            (
                "4:16: An event has one of touch, measure, set, energise, ask, end, sign, grade or state; here stands "
                "none of them."
            ),
        ),
        # Events and facts out of place
        (
            "{never: {grade: stop}}",
            '4:15: "grade" is told, not done: it can stand under after or until only.',
        ),
        (
            "{never: {sign: {weather: rain}}}",
            '4:15: "sign" is told, not done: it can stand under after or until only.',
        ),
        (
            f"{{after: {{grade: stop}}, {END}, but: {{grade: ok}}}}",
            '4:54: "grade" is told, not done: it can stand under after or until only.',
        ),
        (
            f"{{before: {{end: any, while: {{look: full-look}}}}, {NEED}}}",
            '4:35: "look" can stand under need only.',
        ),
    ],
)
def test_a_mistake_in_a_clause_is_one_line_with_its_place(tmp_path: Path, clause: str, said: str) -> None:
    """Whatever is wrong, one sentence says what and where, and what is allowed."""
    assert told(written(tmp_path, f"{HEAD}{clause}\n")) == [said]


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ("own:\n  says: Something.\n", "1:1: A rule has either holds or held_by."),
        (
            f"own: {{says: S., held_by: lint, holds: [{{{END}}}]}}\n",
            "1:1: A rule has either holds or held_by.",
        ),
        ("own: {says: S., held_by: me}\n", '1:26: "me" is not what holds it. Use lint or walk.'),
        ("own: {says: S., holds: []}\n", '1:17: "holds" is empty. Write at least one.'),
        (f"own: {{holds: [{{{END}}}]}}\n", '1:1: "says" is missing here. Write it: the rule in a sentence.'),
        (
            f"Own_rule: {{says: S., holds: [{{{END}}}]}}\n",
            '1:1: "Own_rule" is not a name: small letters, digits and single hyphens, like rig-main.',
        ),
    ],
)
def test_a_mistake_in_a_rule_is_one_line_with_its_place(tmp_path: Path, rule: str, said: str) -> None:
    """A rule has a name, a sentence, and either clauses or what holds it."""
    assert told(written(tmp_path, rule)) == [said]


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    """Two clauses that are wrong are two lines."""
    text = f"{HEAD}{{before: {{set: crod}}, {NEED}}}\n    - {{never: {{grade: stop}}}}\n"
    assert [each.partition(": ")[0] for each in told(written(tmp_path, text))] == ["4:22", "5:15"]


@pytest.mark.parametrize(
    ("clause", "said"),
    [
        (f"{{before: {{end: any, set: cord}}, {NEED}}}", "4:16: An event has one of touch, measure,"),
        ("{never: end}", '4:15: "never" wants a list; found "end".'),
        ("[never]", "4:7: "),
    ],
)
def test_the_quick_reader_says_what_it_cannot_understand(tmp_path: Path, clause: str, said: str) -> None:
    """Without the check, too, a file that cannot be understood is one line with its place."""
    with pytest.raises(TreeError) as caught:
        len(read_site(written(tmp_path, f"{HEAD}{clause}\n")).safety)
    (problem,) = caught.value.problems
    assert f"{problem.place.line}:{problem.place.column}: {problem.message}".startswith(said)


def test_both_readers_understand_the_shared_rules_alike() -> None:
    """What the check makes of the shipped file is what the quick reader makes of it."""
    quick, checked = read_site(SHARED).safety, check_site(SHARED).safety
    assert dict(quick) == dict(checked)
    assert {rule.held_by for rule in quick.values() if not rule.clauses} == {"walk"}


@pytest.mark.parametrize(
    ("clause", "event"),
    [
        ("before: {set: cord}", Event("set", ("cord",))),
        ("before: {set: [cord, protector]}", Event("set", ("cord", "protector"))),
        (
            "before: {set: {cord: [unplugged, plugged]}, while: {energised: yes}}",
            Event("set", sets=(("cord", ("unplugged", "plugged")),), while_=(("energised", ("yes",)),)),
        ),
        (
            "before: {measure: outlet, what: ac-volts, meter: normal, between: [hot, ground], load: one-leg}",
            Event(
                "measure",
                ("outlet",),
                what="ac-volts",
                meter="normal",
                between=("hot", "ground"),
                load=("one-leg",),
            ),
        ),
        ("before: {end: any, call: park}", Event("end", ("any",), call="park")),
    ],
)
def test_an_event_is_read_whole_by_either_reader(tmp_path: Path, clause: str, event: Event) -> None:
    """A word is a list of one, and everything that narrows the event is kept."""
    folder = written(tmp_path, f"{HEAD}{{{clause}, {NEED}}}\n")
    for read in (read_site, check_site):
        (made,) = read(SHARED, folder).safety["own"].clauses
        assert made.before == (event,)
        assert made.need == ((("cord", ("unplugged",)),),)


def test_a_grade_narrows_another_event_and_is_one_by_itself(tmp_path: Path) -> None:
    """`grade` beside `measure` or `sign` says how bad it was; alone it is any grade at all."""
    clause = f"{{after: [{{measure: any, grade: stop}}, {{grade: danger, side: park}}], {END}}}"
    for read in (read_site, check_site):
        (made,) = read(SHARED, written(tmp_path, f"{HEAD}{clause}\n")).safety["own"].clauses
        assert made.after == (
            Event("measure", ("any",), grade="stop"),
            Event("grade", ("danger",), side="park"),
        )


def test_every_shared_rule_says_why_and_shows_how() -> None:
    """Each rule with clauses has a reason and both examples, as `lint --explain` shows them."""
    rules: list[SafetyRule] = [rule for rule in read_site(SHARED).safety.values() if rule.clauses]
    assert len(rules) > 15
    assert [rule.id for rule in rules if not (rule.why and rule.bad and rule.good)] == []
