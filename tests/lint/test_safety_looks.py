"""What was read counts as evidence at an end only while nothing has voided it: held to one sound walk, changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.lint import Finding, lint_paths

from .conftest import CASES, Lint

SOUND = (CASES / "evidence" / "keeps.yaml").read_text(encoding="utf-8")
AFTER = "- {below: ghost-high, grade: ok, goto: good}"
DEAD = 'pedestal-breaker: "off", shown-dead: "yes", rig-main: "off"'


def step(name: str, leaves: str, done: str = "good", cannot: str = "stop_here") -> str:
    """A step that changes a state."""
    return f"  {name}: {{step: Do this., leaves: {{{leaves}}}, done: {done}, cannot: {cannot}}}\n"


def ask(sign: str, *good: str, others: tuple[str, ...]) -> str:
    """A question that leads to the good end with these answers, and stops at others."""
    ways = [f"{each}: {{says: An answer, goto: good}}" for each in good]
    ways += [f"{each}: {{says: An answer, goto: stop_here}}" for each in others]
    return f"  then: {{ask: What is it?, sign: {sign}, choices: {{{', '.join(ways)}}}, unsure: stop_here}}\n"


def at_the_end(lint: Lint, nodes: str, *changes: tuple[str, str]) -> list[Finding]:
    """What the evidence rule finds with these nodes between the last reading and an end that allows use with care."""
    text = SOUND.replace("end: good-to-use", "end: use-with-care")
    if nodes:
        text = text.replace(AFTER, AFTER.replace("good}", "then}")).replace("  good:\n", f"{nodes}  good:\n")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return [each for each in lint({"keeps.yaml": text}).findings if each.rule == "evidence"]


def lacking(found: list[Finding]) -> str:
    """What a single finding says is lacking; nothing where there is none."""
    assert len(found) <= 1
    return found[0].message.partition(" while ")[2].partition(" may ")[0] if found else ""


ON_AGAIN = 'pedestal-breaker: "on", rig-main: "on"'
MOVED = step("then", DEAD, "pull") + step("pull", "cord: unplugged", "push")
MOVED += step("push", "cord: pedestal-30", "on_later") + step("on_later", ON_AGAIN)
ALL = "the looks full-look, look-b and skin at pedestal-30"
THROUGH = "the looks look-b and skin at pedestal-30"


@pytest.mark.parametrize(
    ("nodes", "lost"),
    [
        ("", ""),
        (MOVED, THROUGH),
        (MOVED.replace("push: {", "push_in: {").replace("done: push", "done: push_in"), THROUGH),
        (step("then", "adapter: none"), THROUGH),
        (step("then", "protector: absent"), THROUGH),
        (step("then", "test-load: rig"), ""),
        (ask("breaker-position", "tripped", others=('"on"', '"off"')), ALL),
        (ask("breaker-position", '"on"', others=("tripped", '"off"')), ""),
        (ask("weather", "thunder", others=("clear", "rain")), ALL),
        (ask("weather", "rain", others=("clear", "thunder")), ""),
        (step("then", 'reset: used, pedestal-breaker: "on"'), ""),
    ],
)
def test_a_look_counts_until_what_voids_it(lint: Lint, nodes: str, lost: str) -> None:
    """A moved plug, a changed protector or adapter, a trip and a storm each take the looks that places.yaml says."""
    assert lacking(at_the_end(lint, nodes)) == lost


def test_the_cord_in_another_outlet_voids_the_outlet_before(lint: Lint) -> None:
    """What was read at the 30 A outlet says nothing of the 20 A one, nor of the 30 A one after the cord was there."""
    moved = MOVED.replace(
        "push: {step: Do this., leaves: {cord: pedestal-30}",
        "push: {step: Do this., leaves: {cord: pedestal-20}",
    )
    assert lacking(at_the_end(lint, moved)) == ALL.replace("30", "20")
    back = moved.replace("done: on_later", "done: pull_again") + step(
        "pull_again", "cord: unplugged", "push_again"
    )
    back += step("push_again", "cord: pedestal-30", "on_later")
    assert lacking(at_the_end(lint, back)) == ALL


def test_a_reading_with_the_breaker_off_is_no_look(lint: Lint) -> None:
    """Slots that were read while the breaker may have been off do not count."""
    found = at_the_end(lint, "", ('pedestal-breaker: "on", rig-main: "off", rig', 'rig-main: "off", rig'))
    assert lacking(found) == "the look full-look at pedestal-30"


DETECTOR = """\
  skin:
    ask: What does it say?
    sign: near-voltage
    choices:
      silent: {says: Nothing, goto: main_on}
      warns: {says: It warns, goto: stop_here}
      no-detector: {says: There is none, goto: NONE}
    unsure: stop_here
"""


@pytest.mark.parametrize(("none", "lost"), [("stop_here", ""), ("main_on", "the look skin at pedestal-30")])
def test_a_detector_that_was_silent_is_a_look_at_the_metal(lint: Lint, none: str, lost: str) -> None:
    """With power at the rig a proved detector stands in for the reading; one that there is not does not."""
    skin = SOUND[SOUND.index("  skin:\n") : SOUND.index("  main_on:\n")]
    assert lacking(at_the_end(lint, "", (skin, DETECTOR.replace("NONE", none)))) == lost


@pytest.mark.parametrize(
    ("outlet", "broken"),
    [("30", []), ("20", ["the look full-look at pedestal-20 may be lacking"])],
)
def test_looks_are_kept_over_a_jump(tmp_path: Path, outlet: str, broken: list[str]) -> None:
    """A tree that is led into by one that has read all may end well; after a walk in another outlet it may not."""
    end, stop = SOUND.index("  good:\n"), SOUND.index("  stop_here:\n")
    first = f"{SOUND[:end]}  good: {{tree: other}}\n{SOUND[stop:]}"
    first = first.replace("leaves: {cord: pedestal-30}", f"leaves: {{cord: pedestal-{outlet}}}")
    other = f"tree: other\nsymptom: Something else\nbegin: good\nnodes:\n{SOUND[end:stop]}"
    other = other.replace("end: good-to-use", "end: use-with-care")
    for name, text in (("keeps", first), ("other", other)):
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    found = [each for each in lint_paths([tmp_path / "keeps.yaml"]).findings if each.rule == "evidence"]
    assert [each.message.partition(" while ")[2].partition(".")[0] for each in found] == broken


@pytest.mark.parametrize(("look", "lost"), [("look-b", ""), ("skin", "look-b at pedestal-30")])
def test_an_end_behind_lacks_is_come_to_only_with_the_look(lint: Lint, look: str, lost: str) -> None:
    """A judge that leads away where the look is lacking keeps the rule; one that asks for another look does not."""
    judge = f"  then:\n    judge:\n      - {{lacks: {look}, goto: stop_here}}\n      - {{goto: good}}\n"
    last = "      - {grade: danger, goto: stop_here}\n    unable: stop_here\n  then:"
    found = at_the_end(lint, judge, (last, last.replace("unable: stop_here", "unable: then")))
    assert lacking(found) == lost


def test_only_the_end_that_can_be_come_to_without_the_look_is_told(lint: Lint) -> None:
    """Of two ends that allow use, one behind a judge that branches off without the look, the other one is told."""
    judge = "  then:\n    judge:\n      - {lacks: look-b, goto: stop_here}\n      - {goto: good}\n"
    last = "      - {grade: danger, goto: stop_here}\n    unable: stop_here\n  then:"
    good = SOUND[SOUND.index("  good:\n") : SOUND.index("  stop_here:\n")].replace(
        "good-to-use", "use-with-care"
    )
    first = (
        "      - {upto: utilization-a-high, grade: ok, goto: ground_in_the_rig}\n"
        "      - {grade: stop, goto: stop_here}\n"
    )
    found = at_the_end(
        lint,
        judge + good.replace("  good:", "  other:"),
        (last, last.replace("unable: stop_here", "unable: then")),
        (f"{first}    unable: stop_here", f"{first}    unable: other"),
    )
    assert ['"other" ends' in each.message for each in found] == [True]


def test_the_metal_is_read_while_power_is_there(lint: Lint) -> None:
    """Read before the breaker is on again it shows nothing."""
    found = at_the_end(
        lint,
        "",
        ("done: on_again", "done: skin"),
        ("grade: ok, goto: main_on", "grade: ok, goto: on_again"),
        (
            "    done: skin\n    cannot: stop_here\n  skin:",
            "    done: main_on\n    cannot: stop_here\n  skin:",
        ),
    )
    assert lacking(found) == "the look skin at pedestal-30"


TRIP = """\
  trip:
    ask: Where does the breaker stand?
    sign: breaker-position
    choices:
      "on": {says: "On", goto: off}
      "off": {says: "Off", goto: off}
      tripped: {says: In the middle, goto: off}
    unsure: stop_here
"""
OTHER = """\
  other:
    measure: {what: ac-volts, place: pedestal-20, from: L, to: "N"}
    bands:
      - {below: utilization-b-low, grade: stop, goto: stop_here}
      - {grade: ok, goto: trip}
    unable: stop_here
"""


@pytest.mark.parametrize(("nodes", "lost"), [(TRIP, "the look full-look at pedestal-30"), (OTHER + TRIP, "")])
def test_a_trip_voids_the_outlet_that_was_read_last(lint: Lint, nodes: str, lost: str) -> None:
    """With the cord out the question is of the outlet the probes were at: of another it says nothing."""
    begin = "other" if "other" in nodes else "trip"
    load_out = "    done: off\n    cannot: stop_here\n  off:"
    changed = load_out.replace("done: off", f"done: {begin}").replace("  off:", f"{nodes}  off:")
    assert lacking(at_the_end(lint, "", (load_out, changed))) == lost


def test_where_no_outlet_is_known_no_look_is_held(lint: Lint) -> None:
    """An end that allows use with the cord out and nothing read lacks everything."""
    text = SOUND[: SOUND.index("nodes:\n")].replace("begin: protector", "begin: good")
    text += "nodes:\n" + SOUND[SOUND.index("  good:\n") : SOUND.index("  stop_here:\n")]
    found = [each for each in lint({"keeps.yaml": text}).findings if each.rule == "evidence"]
    looks = [each for each in found if " while " in each.message]
    assert lacking(looks) == "the looks full-look, look-b, skin, earth-look and look-a"


def test_a_reading_that_was_given_up_counts_no_more(lint: Lint) -> None:
    """A judge that says `again` takes the reading back: going on without reading again lacks it."""
    judge = "  once_more:\n    judge: [{{grade: {0}, goto: good}}]\n    of: [ground_in_the_rig]\n"
    judge += "    missing: stop_here\n"
    last = AFTER.replace("good}", "once_more}")
    for grade, lost in (("ok", ""), ("again", "look-b at pedestal-30")):
        changes = ((AFTER, last), ("  good:\n", f"{judge.format(grade)}  good:\n"))
        assert lacking(at_the_end(lint, "", *changes)) == lost


ONCE_MORE = """\
  once_more: {step: Wait a while., leaves: {test-load: rig}, done: ground_in_the_rig, cannot: elsewhere}
  was_there:
    judge:
      - {while: {test-load: rig}, goto: good}
      - {goto: stop_here}
  elsewhere:
    measure: {what: ac-volts, place: rig-outlet-a, from: G, to: "N", load: {amount: one-leg, at: rig-outlet-a}}
    bands:
      - {below: ghost-high, grade: ok, goto: "good"}
      - {grade: danger, goto: stop_here}
    unable: stop_here
"""


@pytest.mark.parametrize(("unable", "lost"), [("was_there", "look-b at pedestal-30"), ("stop_here", "")])
def test_a_reading_that_is_tried_again_in_vain_counts_no_more(lint: Lint, unable: str, lost: str) -> None:
    """Come to a second time and not read, a measurement has no reading any more, whatever other one there may be."""
    last = "      - {grade: danger, goto: stop_here}\n    unable: stop_here\n  good:"
    changed = last.replace("unable: stop_here", f"unable: {unable}").replace("  good:", f"{ONCE_MORE}  good:")
    assert (
        lacking(at_the_end(lint, "", (last, changed), (AFTER, AFTER.replace("good}", "once_more}")))) == lost
    )


def test_a_band_that_says_again_takes_no_reading(lint: Lint) -> None:
    """A reading that is to be taken again is none, wherever the walk goes on."""
    assert (
        lacking(at_the_end(lint, "", (AFTER, AFTER.replace("grade: ok", "grade: again"))))
        == "look-b at pedestal-30"
    )
