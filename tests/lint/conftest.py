"""Small libraries to lint, and what is said of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.lint import Report, lint_paths
from shorewalk.lint.writing.lines import Lines
from shorewalk.lint.writing.text import write_text

CASES = Path(__file__).parent / "cases"
Lint = Callable[[dict[str, str]], Report]


@pytest.fixture
def lint(tmp_path: Path) -> Lint:
    """Lint files given by name and text, with the shipped parts and facts at hand; facts are not asked for."""

    def linted(files: dict[str, str]) -> Report:
        for name, text in files.items():
            (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / name).write_text(text, encoding="utf-8")
        return lint_paths([tmp_path / name for name in files if not name.startswith("site/")])

    return linted


def told(report: Report) -> str:
    """Return the report as text: no folder before a file's name, no line where a shipped file is named."""
    text = write_text(report, show=lambda file: Path(file).name, lines=Lines())
    return re.sub(r"^(    (?:grades|limits|signs|shut-rig)[.]yaml):\d+:\d+", r"\1", text, flags=re.MULTILINE)
