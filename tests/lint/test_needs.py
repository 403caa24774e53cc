"""States that must hold on every walk: where a broken one is told, and by which walk."""

from __future__ import annotations

from pathlib import Path

from shorewalk.lint import Finding

from .conftest import Lint

PART = """\
part: pull
exits: [out]
begin: cord_out
nodes:
  cord_out:
    needs: {rig-main: "off"}
    step: Pull the plug out at the pedestal.
    leaves: {cord: unplugged}
    done: out
    cannot: out
"""
END = """\
  stop_here:
    end: stay-unplugged
    because: It is not known to be safe.
    safe_action: Keep the cord out.
    call: park
"""
HEAD = "symptom: Something for a test\n"
MAIN = """\
  main_off:
    step: Switch the rig's main breaker off.
    leaves: {{rig-main: "off"}}
    done: {done}
    cannot: {cannot}
"""


def needs(findings: tuple[Finding, ...]) -> list[Finding]:
    return [finding for finding in findings if finding.rule == "needs-hold"]


def test_a_need_in_a_part_used_twice_is_one_finding_by_its_shortest_walk(lint: Lint) -> None:
    """It stands at the need in the part, with both uses and the shorter of the two walks."""
    tree = f"tree: two\n{HEAD}begin: main_off\nnodes:\n{MAIN.format(done='long', cannot='first')}"
    tree += "  long: {step: Wait a while., done: second, cannot: second}\n"
    tree += "  first: {part: pull, exits: {out: stop_here}}\n  second: {part: pull, exits: {out: again}}\n"
    tree += '  again: {step: Switch the main on., leaves: {rig-main: "on"}, done: third, cannot: stop_here}\n'
    tree += f"  third: {{part: pull, exits: {{out: stop_here}}}}\n{END}"
    (found,) = needs(lint({"two.yaml": tree, "parts/pull.yaml": PART}).findings)
    assert (Path(found.place.file).name, found.place.line) == ("pull.yaml", 6)
    assert found.path == ("two begins", "main_off (cannot)", "first.cord_out")
    labels = [related.label for related in found.related]
    assert labels[1:] == ["used at first in the tree two", "used at third in the tree two"]


def test_a_need_written_where_a_part_is_put_in_is_told_there(lint: Lint) -> None:
    """What a use needs is handed down to the part's first node; the fault is the use's."""
    part = PART.replace('    needs: {rig-main: "off"}\n', "")
    tree = f"tree: one\n{HEAD}begin: main_off\nnodes:\n{MAIN.format(done='pull_it', cannot='pull_it')}"
    tree += (
        f'  pull_it:\n    part: pull\n    needs: {{rig-main: "off"}}\n    exits: {{out: stop_here}}\n{END}'
    )
    (found,) = needs(lint({"one.yaml": tree, "parts/pull.yaml": part}).findings)
    assert (Path(found.place.file).name, found.place.line) == ("one.yaml", 12)
    assert found.related[0].label == "rig-main has been so since the tree begins"


def test_a_tree_that_is_led_into_starts_as_it_says(lint: Lint) -> None:
    """Where a walk goes on to another tree, what that tree starts with must hold."""
    other = f"tree: other\n{HEAD}starts: {{cord: unplugged}}\nbegin: stop_here\nnodes:\n{END}"
    tree = f"tree: one\n{HEAD}begin: on\nnodes:\n  on: {{tree: other}}\n"
    (found,) = needs(lint({"one.yaml": tree, "other.yaml": other}).findings)
    assert (Path(found.place.file).name, found.place.line) == ("one.yaml", 5)
    assert "starts with cord unplugged" in found.message
    sound = tree.replace("begin: on", "starts: {cord: unplugged}\nbegin: on")
    assert needs(lint({"one.yaml": sound, "other.yaml": other}).findings) == []


def test_a_judge_lets_pass_only_what_its_rows_say(lint: Lint) -> None:
    """A way that needs an answer somebody never gave, or a reading nobody took, is no way."""
    tree = f"tree: one\n{HEAD}starts: {{rig-main: 'off'}}\nbegin: which\nnodes:\n"
    tree += "  which:\n    ask: What is it?\n    sign: breaker-feel\n    choices:\n"
    tree += "      firm: {says: Firm, goto: sorted}\n      spongy: {says: Spongy, goto: main_on}\n"
    tree += "    unsure: stop_here\n"
    tree += '  main_on: {step: Switch it on., leaves: {rig-main: "on"}, done: sorted, cannot: stop_here}\n'
    tree += (
        "  sorted:\n    judge:\n      - {when: {which: ANSWER}, goto: pull_it}\n      - {goto: stop_here}\n"
    )
    tree += f"  pull_it: {{part: pull, exits: {{out: stop_here}}}}\n{END}"
    for answer, broken in (("firm", 0), ("spongy", 1)):
        files = {"one.yaml": tree.replace("ANSWER", answer), "parts/pull.yaml": PART}
        assert len(needs(lint(files).findings)) == broken


def test_a_need_written_at_a_part_inside_a_part_is_told_there(lint: Lint) -> None:
    """The place is the inner use, in the file of the outer part."""
    part = PART.replace('    needs: {rig-main: "off"}\n', "")
    outer = "part: outer\nexits: [out]\nbegin: inner\nnodes:\n"
    outer += '  inner:\n    part: pull\n    needs: {rig-main: "off"}\n    exits: {out: out}\n'
    tree = f"tree: one\n{HEAD}begin: pull_it\nnodes:\n"
    tree += f"  pull_it: {{part: outer, exits: {{out: stop_here}}}}\n{END}"
    files = {"one.yaml": tree, "parts/pull.yaml": part, "parts/outer.yaml": outer}
    (found,) = needs(lint(files).findings)
    assert (Path(found.place.file).name, found.place.line) == ("outer.yaml", 7)


READING = """  volts:
    measure: {what: ac-volts, place: rig-outlet-a, from: L, to: N}
    next: other
    unable: UNABLE
  other:
    measure: {what: ac-volts, place: rig-outlet-b, from: L, to: N}
    next: apart
    unable: apart
  apart:
    work: {out: leg-difference, using: leg_difference, from: {hot1: volts, hot2: other}}
    next: NEXT
    missing: stop_here
  judged:
    judge:
      - {goto: pull_it}
    of: [volts, other]
    missing: stop_here
"""


def test_without_a_reading_only_the_way_for_that_is_gone(lint: Lint) -> None:
    """Arithmetic and judges that wait for a reading nobody took are left by `missing` alone."""
    skip = "  skip: {step: Leave it., done: UNREAD, cannot: UNREAD}\n"
    tree = f"tree: one\n{HEAD}begin: BEGIN\nnodes:\n{READING}{skip}"
    tree += f"  pull_it: {{part: pull, exits: {{out: stop_here}}}}\n{END}"
    for begin, unable, after, unread, broken in (
        ("skip", "skip", "pull_it", "apart", 0),  # nothing read: the arithmetic has nothing to go on with
        ("volts", "other", "pull_it", "apart", 1),
        ("skip", "skip", "judged", "judged", 0),
        ("volts", "other", "judged", "judged", 1),
    ):
        text = tree.replace("BEGIN", begin).replace("UNABLE", unable).replace("NEXT", after)
        files = {"one.yaml": text.replace("UNREAD", unread), "parts/pull.yaml": PART}
        assert len(needs(lint(files).findings)) == broken
