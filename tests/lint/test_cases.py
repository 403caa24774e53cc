"""What each rule says of a tree that breaks it, word for word, and that near misses keep it."""

from __future__ import annotations

import re
from textwrap import dedent

import pytest

from shorewalk.lint import RULES
from shorewalk.lint.rule import Rule

from .conftest import CASES, Lint, told

FILES = sorted(CASES.glob("*/*.yaml"))
HEAD = "tree: example\nsymptom: An example\nstarts: {cord: unplugged}\nbegin: "
STOP_HERE = """
  stop_here:
    end: unplug-now
    because: It is not known to be safe.
    safe_action: Keep the cord out.
    call: park
"""


@pytest.mark.parametrize("file", FILES, ids=[f"{file.parent.name}/{file.stem}" for file in FILES])
def test_a_case_is_told_word_for_word(file: object, lint: Lint) -> None:
    """A case that breaks its rule is told as in the file beside it; one that keeps it has nothing told.

    What lies in a folder of the case's name lies beside it.
    """
    path = next(each for each in FILES if each == file)
    beside = path.with_suffix("")
    files = {
        str(each.relative_to(beside)): each.read_text(encoding="utf-8") for each in beside.rglob("*.yaml")
    }
    report = lint({path.name: path.read_text(encoding="utf-8"), **files})
    assert told(report) == path.with_suffix(".out").read_text(encoding="utf-8")
    breaks = path.stem.startswith("breaks")
    assert (path.parent.name in {finding.rule for finding in report.findings}) is breaks


def test_rules_and_cases_are_the_same() -> None:
    """Every rule has a case that breaks it and one that keeps it, and no case is of another rule."""
    assert len({rule.id for rule in RULES}) == len(RULES)
    for stem in ("breaks", "keeps"):
        assert {file.parent.name for file in FILES if file.stem == stem} == {rule.id for rule in RULES}


def example(rule: Rule, which: str) -> dict[str, str]:
    """Return an example of a rule's words as a whole tree, or beside one as the file it names."""
    found = re.search(rf"^{which}:\n\n((?:    .*\n|\n)+)", rule.words + "\n", re.MULTILINE)
    assert found, f"{rule.id} has no example {which}"
    text = dedent(found[1]).strip("\n")
    if named := re.match("# (site/[a-z]+[.]yaml)\n", text):
        return {named[1]: text, "example.yaml": f"{HEAD}stop_here\nnodes:{STOP_HERE}"}
    assert text.startswith("nodes:")
    begin = text.splitlines()[1].strip().rstrip(":")
    return {"example.yaml": f"{HEAD}{begin}\n{text}{STOP_HERE if 'stop_here' in text else ''}\n"}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_the_examples_of_a_rule_are_true(rule: Rule, lint: Lint) -> None:
    """The bad example breaks the rule it stands at; the good one keeps it."""
    assert rule.id in {finding.rule for finding in lint(example(rule, "Bad")).findings}
    assert rule.id not in {finding.rule for finding in lint(example(rule, "Good")).findings}
