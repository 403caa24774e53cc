"""Findings as the workflow commands that a GitHub job turns into notes beside the lines of a pull request.

The escapes are those of "Workflow commands for GitHub Actions" in GitHub's documentation and of its toolkit
(`@actions/core`): %, CR and LF everywhere; : and , also in properties.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding
from ..report import Report
from .lines import Lines, columns, shown
from .text import summary

DATA = {"%": "%25", "\r": "%0D", "\n": "%0A"}
PROPERTY = {**DATA, ":": "%3A", ",": "%2C"}


def write_github(report: Report) -> str:
    """Return one command a finding, and a last line in plain words for the job's log."""
    lines = Lines()
    told = [_command(finding, lines) for finding in report.findings]
    stopped = [f"::error title=Not finished::{_escaped(each.message, DATA)}" for each in report.stopped]
    return "\n".join([*told, *stopped, summary(report)]) + "\n"


def _command(finding: Finding, lines: Lines) -> str:
    place = finding.place
    first, _ = columns(lines(place.file, place.line), place)
    properties = {
        "file": shown(place.file),
        "line": str(place.line),
        "col": str(first),
        "title": finding.rule,
    }
    written = ",".join(f"{name}={_escaped(value, PROPERTY)}" for name, value in properties.items())
    return f"::{finding.severity} {written}::{_escaped(chr(10).join(_message(finding)), DATA)}"


def _message(finding: Finding) -> Iterator[str]:
    yield finding.message
    if finding.path:
        yield f"Path: {' > '.join(finding.path)}"
    for place, label in finding.related:
        yield f"{shown(place.file)}:{place.line}:{place.column}: {label}"
    if finding.hint:
        yield finding.hint


def _escaped(text: str, escapes: dict[str, str]) -> str:
    return "".join(escapes.get(character, character) for character in text)
