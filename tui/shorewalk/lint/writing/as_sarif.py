"""Findings as SARIF 2.1.0 (OASIS), for viewers and code-scanning services.

Files below the folder the linter was run in are named from there (`%SRCROOT%`); columns count UTF-16 units, as
most viewers do whatever the file says.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from typing import Any
from urllib.parse import quote

from shorewalk import __version__
from shorewalk.tree.source import Place

from ..finding import Finding
from ..report import Report
from ..rule import Rule
from .explain import KNOWN, markdown_of
from .lines import Lines, columns, shown

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "%SRCROOT%"


def write_sarif(report: Report) -> str:
    """Return the report as one run; what a file allows is there too, as suppressed."""
    told = {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(report)]}
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _run(report: Report) -> dict[str, Any]:
    results = _Results()
    shown_ = [results.result(finding, []) for finding in report.findings]
    hidden = [
        results.result(
            each.finding,
            [{"kind": "inSource", "justification": each.reason, "location": results.location(each.place)}],
        )
        for each in report.silenced
    ]
    stopped = [{"level": "error", "message": _message(each.message)} for each in report.stopped]
    return {
        "tool": {"driver": {"name": "shorewalk", "version": __version__, "rules": [_rule(r) for r in KNOWN]}},
        "columnKind": "utf16CodeUnits",
        "originalUriBaseIds": {ROOT: {"description": {"text": "The folder the linter was run in."}}},
        "invocations": [{"executionSuccessful": not stopped, "toolExecutionNotifications": stopped}],
        "results": [*shown_, *hidden],
    }


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.id,
        "shortDescription": {"text": rule.summary},
        "help": {"text": rule.words.strip(), "markdown": markdown_of(rule)},
        "defaultConfiguration": {"level": str(rule.severity)},
        "properties": {"silenceable": rule.silenceable},
    }


class _Results:
    """Results of one run; they share the lines that were read, and count findings that are told alike."""

    def __init__(self) -> None:
        self.lines = Lines()
        self.alike: Counter[str] = Counter()

    def result(self, finding: Finding, suppressions: list[dict[str, Any]]) -> dict[str, Any]:
        """Return a finding as a result. Suppressions are always named: a run names them for all or for none."""
        told: dict[str, Any] = {
            "ruleId": finding.rule,
            "ruleIndex": next(at for at, rule in enumerate(KNOWN) if rule.id == finding.rule),
            "level": str(finding.severity),
            "message": _message(" ".join(filter(None, (finding.message, finding.hint)))),
            "locations": [self.location(finding.place)],
            "partialFingerprints": {"findingInFile/v1": self._fingerprint(finding)},
            "suppressions": suppressions,
        }
        if finding.related:
            told["relatedLocations"] = [
                {**self.location(place, label), "id": at} for at, (place, label) in enumerate(finding.related)
            ]
        if finding.steps:
            told["codeFlows"] = [self._flow(finding.steps)]
        return told

    def location(self, place: Place, label: str | None = None) -> dict[str, Any]:
        """Return a place, and what it is where that is told."""
        first, last = columns(self.lines(place.file, place.line), place)
        region = {"startLine": place.line, "startColumn": first, "endColumn": last}
        told: dict[str, Any] = {
            "physicalLocation": {"artifactLocation": _artifact(place.file), "region": region}
        }
        if label:
            told["message"] = _message(label)
        return told

    def _flow(self, steps: Iterable[tuple[Place, str]]) -> dict[str, Any]:
        places = [{"location": self.location(place, words)} for place, words in steps]
        return {"message": _message("How a walk comes there."), "threadFlows": [{"locations": places}]}

    def _fingerprint(self, finding: Finding) -> str:
        """Return what stays the same while lines move: rule, file, message, and which of those told alike."""
        words = "\0".join((finding.rule, shown(finding.place.file), finding.message))
        self.alike[words] += 1
        return sha256(f"{words}\0{self.alike[words]}".encode()).hexdigest()


def _message(text: str) -> dict[str, str]:
    """Return a message; braces in one are doubled (section 3.11.5 of the standard: single ones hold a number)."""
    return {"text": text.replace("{", "{{").replace("}", "}}")}


def _artifact(file: str) -> dict[str, str]:
    path = Path(shown(file))
    if path.is_absolute() or ".." in path.parts:
        return {"uri": Path(file).resolve().as_uri()}
    return {"uri": quote(path.as_posix()), "uriBaseId": ROOT}
