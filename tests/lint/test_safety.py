"""Safety rules on every walk: the shortest walk, latches over jumps, what is not known, what cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.folders import trees
from shorewalk.lint import Finding

from .conftest import CASES, Lint

HEAD = "symptom: Something for a test\n"
END = """\
  stop_here:
    end: unplug-now
    because: It is not known to be safe.
    safe_action: Switch the main off. Switch the breaker off. Pull the cord out.
    call: park
"""
ALL_OFF = {"pedestal-breaker": "off", "shown-dead": "yes", "rig-main": "off", "other-source": "off"}
ALL_OFF_NAMES = {state.replace("-", "_"): value for state, value in ALL_OFF.items()}


def tree(name: str, nodes: str, **starts: str) -> str:
    """A tree that begins at its first node; hyphens in the names of states are underscores here."""
    known = {state.replace("_", "-"): value for state, value in {"cautions": "read", **starts}.items()}
    written = ", ".join(f'{state}: "{value}"' for state, value in known.items())
    return f"tree: {name}\n{HEAD}starts: {{{written}}}\nbegin: {nodes.partition(':')[0].strip()}\nnodes:\n{nodes}{END}"


def step(name: str, leaves: str, done: str = "stop_here", cannot: str = "stop_here") -> str:
    """A step that changes a state."""
    return f"  {name}: {{step: Do this., leaves: {{{leaves}}}, done: {done}, cannot: {cannot}}}\n"


def ask(name: str, sign: str, unsure: str = "stop_here", **choices: str) -> str:
    """A question; what is not named leads to `stop_here`."""
    answers = {
        "burn-marks": ("none", "present"),
        "weather": ("clear", "rain", "thunder"),
        "breaker-position": ('"on"', '"off"', "tripped"),
    }[sign]
    written = ", ".join(
        f"{answer}: {{says: An answer, goto: {choices.get(answer.strip(chr(34)), 'stop_here')}}}"
        for answer in answers
    )
    return f"  {name}: {{ask: What is it?, sign: {sign}, choices: {{{written}}}, unsure: {unsure}}}\n"


def of(rule: str, findings: tuple[Finding, ...]) -> list[Finding]:
    """The findings of one rule."""
    return [finding for finding in findings if finding.rule == rule]


ON = 'pedestal-breaker: "on"'


def test_the_walk_that_is_told_is_the_shortest(lint: Lint) -> None:
    """Of a way of two steps and one of three the shorter is told, wherever it stands in the file."""
    nodes = ask("which", "burn-marks", none="long_one", unsure="short_one")
    nodes += step("long_one", 'other-source: "off"', "long_two", "long_two")
    nodes += step("long_two", 'shown-dead: "yes"', "last", "last")
    nodes += step("short_one", 'other-source: "off"', "last", "last") + step("last", ON)
    (found,) = of("main-last", lint({"one.yaml": tree("one", nodes, cord="pedestal-30")}).findings)
    assert found.path == ("one begins", "which (unsure)", "short_one (done)", "last")


def test_a_latch_is_set_by_the_shortest_walk_that_sets_it(lint: Lint) -> None:
    """A still shorter walk to the place that sets no latch is not the one told, nor does it hide the other."""
    nodes = ask("first", "burn-marks", none="last", unsure="second", present="stop_here")
    nodes += ask("second", "burn-marks", none="third", present="third", unsure="stop_here")
    nodes += step("third", 'shown-dead: "yes"', "last") + step("last", ON)
    text = tree("one", nodes, cord="pedestal-30", rig_main="off").replace(
        "unsure: second", "unsure: {goto: second, grade: watch}"
    )
    (found,) = of("no-start-after-stop", lint({"one.yaml": text}).findings)
    assert found.path == ("one begins", "first (unsure)", "second (choose present)", "third (done)", "last")
    assert found.related[0].label == "graded so at second (choose present)"


@pytest.mark.parametrize(("long", "short"), [("none", "present"), ("present", "none")])
def test_behind_a_latch_too_the_shortest_walk_is_told(lint: Lint, long: str, short: str) -> None:
    """Whichever way is written first, of two ways on from a stop the shorter is told."""
    nodes = ask("burns", "burn-marks", present="which")
    nodes += ask("which", "burn-marks", **{long: "long_one", short: "short_one"})
    nodes += step("long_one", 'other-source: "off"', "long_two", "stop_here")
    nodes += step("long_two", 'shown-dead: "yes"', "last", "stop_here")
    nodes += step("short_one", 'other-source: "off"', "last", "stop_here") + step("last", ON)
    text = tree("one", nodes, cord="pedestal-30", rig_main="off")
    (found,) = of("no-start-after-stop", lint({"one.yaml": text}).findings)
    steps = ("burns (choose present)", f"which (choose {short})", "short_one (done)", "last")
    assert found.path == ("one begins", *steps)


@pytest.mark.parametrize(("asked", "broken"), [("rain", 1), ("clear", 0)])
def test_a_latch_is_kept_over_a_jump_and_closed_behind_it(lint: Lint, asked: str, broken: int) -> None:
    """It rained in the first tree; the second asks again, and plugs in while it still rains, or once it is clear."""
    one = tree("one", ask("sky", "weather", rain="on") + "  on: {tree: two}\n", **ALL_OFF_NAMES)
    nodes = ask("again", "weather", **{asked: "plug_in"}) + step("plug_in", "cord: pedestal-30")
    two = tree("two", nodes, **ALL_OFF_NAMES)
    found = of("weather", lint({"one.yaml": one, "two.yaml": two}).findings)
    assert [Path(each.place.file).name for each in found] == ["two.yaml"] * broken


def test_a_jump_keeps_the_latch_of_the_tree_before(lint: Lint) -> None:
    """The second tree asks nothing of the weather: alone it keeps the rule, after the first it breaks it."""
    nodes = step("plug_in", "cord: pedestal-30")
    two = tree("two", nodes, **ALL_OFF_NAMES)
    one = tree("one", ask("sky", "weather", rain="on") + "  on: {tree: two}\n", **ALL_OFF_NAMES)
    assert of("weather", lint({"two.yaml": two}).findings) == []
    (found,) = of("weather", lint({"one.yaml": one, "two.yaml": two}).findings)
    assert found.path == ("one begins", "sky (choose rain)", "on (on to two)", "plug_in")


@pytest.mark.parametrize("unknown", ALL_OFF)
@pytest.mark.parametrize("given", [False, True])
def test_what_a_tree_does_not_start_with_may_be_anything(lint: Lint, unknown: str, *, given: bool) -> None:
    """Of each state that must be known before a protector goes in, leaving it out is as bad as the wrong value."""
    starts = {name.replace("-", "_"): value for name, value in ALL_OFF.items() if name != unknown or given}
    nodes = step("fit_it", "protector: fitted")
    found = of("dead-cord", lint({"one.yaml": tree("one", nodes, cord="unplugged", **starts)}).findings)
    wrong = "no" if unknown == "shown-dead" else "on"
    said = f'"fit_it" sets protector to "fitted" while {unknown} may be {wrong}.'
    assert [each.message.startswith(said) for each in found] == [] if given else [True]


def test_what_could_not_be_done_may_be_done_or_not(lint: Lint) -> None:
    """After `cannot` of a step neither the value before nor the one it leaves is sure."""
    rule = "a-{0}:\n  says: It is {0}.\n  holds:\n    - before: {{set: {{adapter: none}}}}\n"
    rule += '      need: {{pedestal-breaker: "{0}"}}\n'
    nodes = step("off", 'pedestal-breaker: "off"', "stop_here", "take_off") + step(
        "take_off", "adapter: none"
    )
    files = {"site/safety.yaml": rule.format("on") + rule.format("off")}
    files["one.yaml"] = tree("one", nodes, cord="unplugged", pedestal_breaker="on")
    found = of("own-safety", lint(files).findings)
    assert [each.message.partition(" while ")[2].split(".")[0] for each in found] == [
        "pedestal-breaker may be off",
        "pedestal-breaker may be on",
    ]
    files["one.yaml"] = files["one.yaml"].replace(
        "done: stop_here, cannot: take_off", "done: take_off, cannot: stop_here"
    )
    (found_,) = of("own-safety", lint(files).findings)
    assert found_.message.endswith("It is on.")


@pytest.mark.parametrize(("answers", "broken"), [("rain", 0), ("[rain, unsure]", 1), ("[unsure]", 1)])
def test_not_knowing_counts_where_it_is_listed(lint: Lint, answers: str, broken: int) -> None:
    """`unsure` sets a latch where the rule lists it, and there only."""
    rule = f"dry:\n  says: Not in the rain.\n  holds:\n    - after: {{sign: {{weather: {answers}}}}}\n"
    rule += '      never: {set: {other-source: "on"}}\n'
    nodes = ask("sky", "weather", unsure="start") + step("start", 'other-source: "on"')
    found = of("own-safety", lint({"one.yaml": tree("one", nodes), "site/safety.yaml": rule}).findings)
    assert len(found) == broken


BOTH = """\
  read:
    measure: {{what: ac-volts, place: pedestal-30, from: L, to: "N"}}
    bands:
      - {{below: utilization-b-low, grade: stop, goto: first}}
      - {{below: service-a-low, grade: watch, goto: first}}
      - {{upto: service-a-high, grade: ok, goto: first}}
      - {{grade: stop, goto: first}}
    unable: stop_here
  first:
    judge: [{{when: {{read: {{{0}}}}}, grade: watch, goto: second}}, {{grade: stop, goto: stop_here}}]
    of: [read]
    missing: stop_here
  second:
    judge: [{{when: {{read: {{{1}}}}}, grade: watch, goto: on}}, {{grade: stop, goto: stop_here}}]
    of: [read]
    missing: stop_here
"""
BETWEEN = "from: utilization-b-low, below: service-a-low"


@pytest.mark.parametrize(
    ("first", "second", "broken"),
    [
        ("below: no-voltage", "above: service-a-high", 0),
        ("above: service-a-high", "below: no-voltage", 0),
        (BETWEEN, BETWEEN, 1),
        ("below: service-a-low", "from: utilization-b-low", 1),
        # A meter of whole volts may be 3 % + 10 counts off and still be taken (walk/meter.py), so 107 V may be either.
        ("below: utilization-b-low", "from: service-a-low", 1),
    ],
)
def test_a_walk_that_no_reading_can_walk_is_none(lint: Lint, first: str, second: str, broken: int) -> None:
    """One reading cannot be under 5 V at one judge and over 126 V at the next: no meter that counts is so far off."""
    nodes = BOTH.format(first, second) + step("on", 'rig-main: "on", pedestal-breaker: "on"')
    text = tree("one", nodes, cord="pedestal-20", pedestal_breaker="off", test_load="off")
    assert len(of("main-last", lint({"one.yaml": text}).findings)) == broken


AGAIN = """\
  again:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: "N"}
    next: second
    unable: stop_here
"""


def test_a_reading_that_is_taken_again_is_another(lint: Lint) -> None:
    """Read again between the two judges, the first may be under 5 V and the second over 126 V."""
    first, second = BOTH.format("below: no-voltage", "above: service-a-high").split("  second:")
    first = first.replace("goto: second}", "goto: again}")
    second = second.replace("{read: {above", "{again: {above").replace("of: [read]", "of: [again]")
    nodes = f"{first}{AGAIN}  second:{second}" + step("on", 'rig-main: "on", pedestal-breaker: "on"')
    text = tree("one", nodes, cord="pedestal-20", pedestal_breaker="off", test_load="off")
    assert len(of("main-last", lint({"one.yaml": text}).findings)) == 1


MAIN_LAST = (CASES / "main-last" / "breaks.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "own",
    [
        "main-last: {says: The main may be on., held_by: lint}\n",
        "main-last:\n  says: It may be on.\n  holds:\n    - before: {end: emergency}\n      need: {cautions: read}\n",
    ],
)
def test_a_folder_cannot_change_or_drop_a_shared_rule(lint: Lint, own: str) -> None:
    """A rule of the same name is told, and what is shared holds all the same."""
    found = lint({"breaks.yaml": MAIN_LAST, "site/safety.yaml": own}).findings
    assert [each.place.line for each in of("main-last", found)] == [11]
    assert 'The shared safety rule "main-last" has another `says` here.' in [each.message for each in found]


def test_a_folder_adds_a_rule_beside_the_shared_ones(lint: Lint) -> None:
    """Both are told at the same step, each under its name."""
    own = "in-the-dark:\n  says: Nobody switches here.\n  holds:\n    - never: {touch: pedestal}\n"
    found = lint({"breaks.yaml": MAIN_LAST, "site/safety.yaml": own}).findings
    assert sorted((each.rule, each.place.line) for each in found) == [("main-last", 11), ("own-safety", 11)]
    assert [each.related[0].label for each in of("own-safety", found)] == ["the rule in-the-dark"]


def test_clauses_that_break_together_are_told_in_one_sentence(lint: Lint) -> None:
    """An end that allows use with nothing read lacks three looks: one finding names them all."""
    text = (CASES / "evidence" / "breaks.yaml").read_text(encoding="utf-8")
    (found,) = lint({"breaks.yaml": text}).findings
    assert "the looks full-look, look-b and skin at pedestal-30 may be lacking" in found.message


UNTIL_OUT = (
    '{after: {sign: {weather: rain}}, until: {set: {cord: unplugged}, while: {pedestal-breaker: "off"}}, '
)
UNTIL_OUT += "never: {set: {adapter: none}}}"


def own(holds: str) -> str:
    """A rule of a folder's own."""
    return f"mine:\n  says: It is so.\n  holds:\n    - {holds}\n"


@pytest.mark.parametrize(
    ("holds", "nodes", "starts", "broken"),
    [
        # What could not be done may have been done
        (
            '{after: {set: {other-source: "on"}}, never: {set: {adapter: none}}}',
            step("on", 'other-source: "on"', "stop_here", "out") + step("out", "adapter: none"),
            {},
            1,
        ),
        # A hand goes where a state is changed from, too
        ("{never: {touch: pedestal}}", step("load_off", 'test-load: "off"'), {"test_load": "pedestal-20"}, 1),
        ("{never: {touch: pedestal}}", step("load_off", 'test-load: "off"'), {"test_load": "off"}, 0),
        # A latch is closed only where what narrows the closing may hold
        (
            UNTIL_OUT,
            ask("sky", "weather", rain="pull")
            + step("pull", "cord: unplugged", "out")
            + step("out", "adapter: none"),
            {"cord": "pedestal-30", "pedestal_breaker": "on"},
            1,
        ),
        (
            UNTIL_OUT,
            ask("sky", "weather", rain="pull")
            + step("pull", "cord: unplugged", "out")
            + step("out", "adapter: none"),
            {"cord": "pedestal-30", "pedestal_breaker": "off"},
            0,
        ),
        # Probes go between two ends, whichever is named first
        (
            "{never: {measure: any, between: [neutral, hot]}}",
            (
                '  read: {measure: {what: ac-volts, place: pedestal-20, from: L, to: "N"}, next: stop_here, '
                "unable: stop_here}\n"
            ),
            {"test_load": "off"},
            1,
        ),
    ],
)
def test_what_happens_is_what_may_happen(
    lint: Lint, holds: str, nodes: str, starts: dict[str, str], broken: int
) -> None:
    """Events are told from facts and from how things may stand: none is missed, none is made up."""
    text = tree("one", nodes, **starts)
    found = of("own-safety", lint({"one.yaml": text, "site/safety.yaml": own(holds)}).findings)
    assert len(found) == broken


RESCUED = ("somebody-hurt", "tingle", "parts/get-free", "parts/breathing", "parts/off-if-dry")
"""The trees that lead to somebody's breath, and the parts of a rescue."""


@pytest.mark.parametrize(
    ("file", "sound", "damaged"),
    [
        (
            "somebody-hurt",
            'they cannot let go", grade: danger, goto: held',
            'they cannot let go", grade: danger, goto: how',
        ),
        ("somebody-hurt", "unsure: {goto: held, grade: danger}", "unsure: {goto: what, grade: danger}"),
        ("tingle", "unsure: {goto: in_contact, grade: danger}", "unsure: {goto: how, grade: danger}"),
        ("parts/get-free", "    cannot: not_free", "    cannot: free"),
        ("parts/get-free", 'leaves: {freed: "yes"}', "leaves: {}"),
        ("parts/get-free", 'exits: {"off": pull, stays: power_stays}', 'exits: {"off": pull, stays: pull}'),
    ],
)
def test_a_damaged_rescue_is_found(lint: Lint, file: str, sound: str, damaged: str) -> None:
    """Whoever may still be held is freed with the breaker off before anybody looks at their breath: no slip goes by."""
    files = {f"{name}.yaml": (trees() / f"{name}.yaml").read_text(encoding="utf-8") for name in RESCUED}
    assert of("freed-first", lint(files).findings) == []
    assert sound in files[f"{file}.yaml"]
    files[f"{file}.yaml"] = files[f"{file}.yaml"].replace(sound, damaged)
    assert of("freed-first", lint(files).findings)
