"""What a file allows to stand, where, and why."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.lint import RULES, Report, lint_paths
from shorewalk.lint.writing.text import summary
from shorewalk.tree.build import build_written
from shorewalk.tree.check import check_written
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import read_source

from .conftest import Lint

LONG = (
    "Dry both of your hands with a towel or a cloth that is clean before you go over to the pedestal and stand"
    " down in front of it."
)
TREE = f"""\
tree: wordy
symptom: Something for a test
starts: {{cord: unplugged}}
begin: one
nodes:
  one:
    step: Dry your hands.
    hint: {LONG}
    done: two
    cannot: stop_here
  two:
    step: Dry them again.
    hint: {LONG}
    done: stop_here
    cannot: stop_here
  stop_here:
    end: unplug-now
    because: It is not known to be safe.
    safe_action: Keep the cord out.
    call: park
"""
IN_ONE = TREE.replace(
    "    done: two\n", "    done: two\n    allows: {long-sentence: it is read aloud at home}\n"
)
AT_TOP = "allows: {long-sentence: a test}\n"
PART = f"""\
part: wordy-part
exits: [done]
begin: one
nodes:
  one: {{step: Dry your hands., hint: "{LONG}", done: done, cannot: done}}
"""
USES = """\
tree: uses
symptom: Something for a test
starts: {cord: unplugged}
begin: one
nodes:
  one: {part: wordy-part, exits: {done: stop_here}}
  stop_here: {end: unplug-now, because: It is over., safe_action: Keep the cord out., call: park}
"""


def told(report: Report) -> list[tuple[str, int]]:
    return [(finding.rule, finding.place.line) for finding in report.findings]


def test_rules_of_shape_and_safety_may_not_be_silenced() -> None:
    """Only rules of wording and style say that they may; whatever can hurt somebody always stays told."""
    assert {rule.id for rule in RULES if rule.silenceable} == {
        "asks-nothing",
        "colour-alone",
        "double-negative",
        "endings-alike",
        "hard-to-read",
        "long-sentence",
        "one-action",
        "too-long-to-send",
        "too-many-lines",
        "verb-first",
    }


def test_a_node_silences_what_stands_in_it_and_no_more(lint: Lint) -> None:
    """Its finding is kept with the reason and the place of the reason; the same finding next door is told."""
    assert told(lint({"wordy.yaml": TREE})) == [("long-sentence", 8), ("long-sentence", 13)]
    report = lint({"wordy.yaml": IN_ONE})
    assert told(report) == [("long-sentence", 14)]
    (silenced,) = report.silenced
    assert (silenced.finding.rule, silenced.finding.place.line) == ("long-sentence", 8)
    assert silenced.reason == "it is read aloud at home"
    assert (silenced.place.line, silenced.place.column) == (10, 14)
    assert summary(report).endswith(" 1 finding silenced.")


def test_nodes_written_on_one_line_are_told_apart(lint: Lint) -> None:
    """A node ends where its bracket closes, on whatever line."""
    inline = "  {0}: {{step: Dry your hands., hint: '" + LONG + "', done: {1}, cannot: {1}{2}}}"
    nodes = (
        "nodes: {"
        + ", ".join(
            (
                inline.strip().format("one", "two", ", allows: {long-sentence: a test}"),
                inline.strip().format("two", "stop_here", ""),
            )
        )
        + ", stop_here: {end: unplug-now, because: It is over., safe_action: Keep the cord out., call: park}}\n"
    )
    report = lint({"wordy.yaml": TREE[: TREE.index("nodes:")] + nodes})
    assert len(report.silenced) == 1
    assert len(report.findings) == 1
    assert report.silenced[0].finding.place < report.findings[0].place


def test_the_top_of_a_file_silences_all_of_it_and_the_nearest_reason_counts(lint: Lint) -> None:
    """Above or below the nodes alike; a node's own reason goes before that of the file."""
    for text in (AT_TOP + IN_ONE, IN_ONE + AT_TOP):
        report = lint({"wordy.yaml": text})
        assert report.findings == ()
        assert [each.reason for each in report.silenced] == ["it is read aloud at home", "a test"]


def test_a_part_silences_for_whoever_uses_it(lint: Lint) -> None:
    """The reason stands in the part, once, and holds when a tree that puts it in is looked at."""
    report = lint({"uses.yaml": USES, "parts/wordy-part.yaml": AT_TOP + PART})
    assert report.findings == ()
    assert [each.reason for each in report.silenced] == ["a test"]


def test_what_may_not_be_silenced_is_told_all_the_same(lint: Lint) -> None:
    """The finding stays, and so does that it may not be silenced."""
    text = TREE.replace("    call: park\n", "    allows: {end-incomplete: the park knows}\n")
    assert ("end-incomplete", 16) in told(lint({"wordy.yaml": text}))
    assert ("allows", 20) in told(lint({"wordy.yaml": text}))


@pytest.mark.parametrize("empty", ['""', "", "' '", "[]"])
def test_a_reason_must_be_written(lint: Lint, empty: str) -> None:
    """A rule is not silenced by its name alone."""
    (finding,) = lint({"wordy.yaml": f"allows: {{long-sentence: {empty}}}\n{TREE}"}).findings
    assert finding.rule == "file"
    assert (finding.place.line, finding.place.column) == (1, 10 + len("long-sentence: "))


def test_what_is_allowed_in_vain_is_told(lint: Lint) -> None:
    """A reason that outlived what it was for is a warning; so is a whole file's."""
    good = TREE.replace(LONG, "Use a towel.")
    report = lint({"wordy.yaml": AT_TOP + good})
    assert told(report) == [("allows", 1)]
    assert report.errors == 0
    assert lint({"wordy.yaml": good}).findings == ()


def test_in_a_part_it_is_told_only_where_all_its_trees_were_looked_at(lint: Lint, tmp_path: Path) -> None:
    """One tree may put words into a part that another does not; so one tree alone proves nothing of it."""
    files = {"uses.yaml": USES, "parts/wordy-part.yaml": AT_TOP + PART.replace(LONG, "Use a towel.")}
    other = USES.replace("tree: uses", "tree: other")
    assert lint({**files, "other.yaml": other}).findings != ()
    assert lint_paths([tmp_path / "uses.yaml"]).findings == ()
    assert told(lint_paths([tmp_path])) == [("allows", 1)]


def test_a_file_of_facts_may_allow_too(tmp_path: Path) -> None:
    """It is no fact, both readers pass over it, and it is told where it is in vain."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "faults.yaml").write_text(f"{AT_TOP}our-fault: {{says: a fault of ours}}\n")
    (tmp_path / "wordy.yaml").write_text(TREE.replace(LONG, "Use a towel."))
    for checked in (True, False):
        faults = Library(tmp_path, checked=checked).site.faults
        assert faults["our-fault"].says == "a fault of ours"
        assert set(faults) == {*shipped().site.faults, "our-fault"}
    (finding,) = lint_paths([tmp_path]).findings
    assert (finding.rule, Path(finding.place.file).name, finding.place.line) == ("allows", "faults.yaml", 1)
    (tmp_path / "site" / "faults.yaml").write_text("allows: {long-sentence: ''}\n")
    assert [finding.rule for finding in lint_paths([tmp_path]).findings] == ["file"]


@pytest.mark.parametrize("text", [AT_TOP + IN_ONE, AT_TOP + PART])
def test_both_readers_keep_what_a_file_allows(text: str) -> None:
    """The checker and the quick reader give the same, reasons and all."""
    source = read_source(text, "wordy.yaml")
    written = build_written(source)
    assert written == check_written(source)
    assert written.allows == (("long-sentence", "a test"),)
    assert written.nodes["one"].allows == (
        (("long-sentence", "it is read aloud at home"),) if text.startswith(AT_TOP + "tree") else ()
    )


def test_a_walk_knows_nothing_of_it(tmp_path: Path) -> None:
    """The tree that is walked is the same, word for word, with and without."""
    walked = []
    for text in (TREE, AT_TOP + IN_ONE):
        (tmp_path / "wordy.yaml").write_text(text)
        walked.append(Library(tmp_path, checked=False).tree("wordy"))
    assert walked[0] == walked[1]
