"""Every feature of YAML is either read as words, as `yaml_features` says, or refused with a place; never a crash."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.lint import lint_paths
from shorewalk.tree.source import Data, TreeError, read_source

from ..bench.yaml_features import READ, REFUSED


@pytest.mark.parametrize(("text", "words"), READ.values(), ids=READ)
def test_what_a_file_may_hold_is_read_as_words(text: str, words: Data) -> None:
    """No word becomes a number, a date, a truth or nothing, however it is written."""
    assert read_source(text, "t.yaml").data == words


@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED)
def test_what_a_file_may_not_hold_is_refused_with_a_place(text: str) -> None:
    """What could be read in two ways, or refers elsewhere, or is no YAML has a problem on a line of the file."""
    with pytest.raises(TreeError) as raised:
        read_source(text, "t.yaml")
    for problem in raised.value.problems:
        assert problem.place.file == "t.yaml"
        assert 1 <= problem.place.line <= text.count("\n") + 1
        assert problem.message.endswith(".")


def test_the_linter_has_a_finding_for_every_such_file(tmp_path: Path) -> None:
    """As files in one folder each of them is told of, and none keeps the linter from the others."""
    texts = {**{name: text for name, (text, _) in READ.items()}, **REFUSED}
    for at, text in enumerate(texts.values()):
        (tmp_path / f"t{at}.yaml").write_text(text, encoding="utf-8", newline="")
    report = lint_paths([tmp_path])
    assert not report.stopped
    assert {Path(finding.place.file).stem for finding in report.findings} == {
        f"t{at}" for at in range(len(texts))
    }
