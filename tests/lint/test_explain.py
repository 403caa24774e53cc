"""A rule in words, for whoever was told of it."""

from __future__ import annotations

import re
from textwrap import dedent

import pytest

from shorewalk.cli import run
from shorewalk.exits import Exit
from shorewalk.lint import RULES
from shorewalk.lint.rule import Rule
from shorewalk.lint.writing.explain import KNOWN, explain, markdown_of
from shorewalk.tree.source import read_source

from .conftest import Lint
from .test_cases import example

rules = pytest.mark.parametrize("rule", KNOWN, ids=lambda rule: rule.id)
widths = pytest.mark.parametrize("width", [40, 80])


@rules
@widths
def test_a_rule_is_told_whole(rule: Rule, width: int) -> None:
    """Its name, what it holds, both examples, what a finding is, and whether it may be silenced; in that width."""
    told = explain(rule.id, width)
    assert told.startswith(f"{rule.id}\n\n")
    assert "\n\nBad:\n\n    " in told
    assert "\n\nGood:\n\n    " in told
    flat = " ".join(told.split())
    assert rule.words.split("\n\n")[0].strip().replace("\n", " ") in flat
    assert f"A finding is {'an error' if rule.severity == 'error' else 'a warning'}." in flat
    assert ("It may be silenced with a reason:" if rule.silenceable else "It may not be silenced.") in flat
    for line in told.splitlines():
        assert len(line) <= width or " " not in line.strip(), line


@rules
def test_a_narrow_example_means_the_same(rule: Rule) -> None:
    """Lines of an example that had to be broken are still the same YAML."""

    def data(width: int, which: str) -> object:
        told = explain(rule.id, width)
        found = re.search(rf"^{which}:\n\n((?:    .*\n|\n)+)", told, re.MULTILINE)
        assert found
        return read_source(dedent(found[1]), "example.yaml").data

    for which in ("Bad", "Good"):
        assert data(40, which) == data(200, which)


def test_all_rules_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name: every rule with what it holds, and how to be told more."""
    assert run(["lint", "--explain"]) == Exit.CLEAN
    told = " ".join(capsys.readouterr().out.split())
    assert all(f"{rule.id} {rule.summary}" in told for rule in KNOWN)
    assert "`shorewalk lint --explain RULE`" in told


@widths
def test_the_list_keeps_to_the_terminal(width: int) -> None:
    """Names beside their summaries, or above them where there is no room."""
    assert all(len(line) <= width for line in explain("", width).splitlines())


def test_an_unknown_rule_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    """Misuse, told in a sentence."""
    assert run(["lint", "--explain", "no-endings"]) == Exit.USAGE
    said = capsys.readouterr()
    assert said.out == ""
    assert 'There is no rule "no-endings". Did you mean "no-ending"?' in said.err


def test_explaining_reads_no_files(capsys: pytest.CaptureFixture[str]) -> None:
    """Paths beside it are a misunderstanding, and are not passed over."""
    assert run(["lint", "--explain", "no-ending", "trees"]) == Exit.USAGE
    assert "--explain" in capsys.readouterr().err


@rules
def test_markdown_has_both_examples_as_yaml(rule: Rule) -> None:
    """For viewers that render a rule's help; nothing of it is indented into a block of its own."""
    told = markdown_of(rule)
    assert told.count("```yaml\n") == 2
    assert told.count("```") == 4
    assert "\n    nodes:" not in told


def test_the_rule_of_unreadable_files_has_true_examples(lint: Lint) -> None:
    """Its bad example cannot be read, its good one can."""
    (rule,) = (rule for rule in KNOWN if rule not in RULES)
    assert rule.id == "file"
    assert [finding.rule for finding in lint(example(rule, "Bad")).findings][:1] == ["file"]
    assert lint(example(rule, "Good")).findings == ()
