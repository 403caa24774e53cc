"""Findings for programs, as one JSON object; `findings.schema.json` says what is in it.

A change that breaks a reader gets a new `version`. Keys may be added without one: readers pass over what they do
not know.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from shorewalk.tree.source import Place

from ..finding import Finding, Related
from ..report import Report

VERSION = 1


def schema_text() -> str:
    """Return the JSON Schema of what `write_json` returns."""
    return (Path(__file__).parent / "findings.schema.json").read_text(encoding="utf-8")


def write_json(report: Report) -> str:
    """Return the report as JSON; lines and columns count from 1, columns in characters; everything is told whole."""
    told = {
        "version": VERSION,
        "findings": [_finding(finding) for finding in report.findings],
        "silenced": [
            {**_finding(each.finding), "reason": each.reason, "allowed_at": _place(each.place)}
            for each in report.silenced
        ],
        "stopped": [{"message": each.message, "file": each.file} for each in report.stopped],
        "summary": {
            "errors": report.errors,
            "warnings": report.warnings,
            "silenced": len(report.silenced),
            "trees": report.trees,
            "parts": report.parts,
        },
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": str(finding.severity),
        **_place(finding.place),
        "message": finding.message,
        "hint": finding.hint,
        "path": list(finding.path),
        "steps": _labelled(finding.steps),
        "related": _labelled(finding.related),
    }


def _labelled(places: Iterable[Related]) -> list[dict[str, Any]]:
    return [{**_place(place), "label": label} for place, label in places]


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
