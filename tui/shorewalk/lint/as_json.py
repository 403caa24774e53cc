"""Findings for programs, as one JSON object. A change that breaks a reader gets a new `version`."""

from __future__ import annotations

import json
from typing import Any

from shorewalk.tree.source import Place

from .finding import Finding
from .run import Report

VERSION = 1


def write_json(report: Report) -> str:
    """Return the report as JSON; lines and columns count from 1, everything is told whole."""
    told = {
        "version": VERSION,
        "findings": [_finding(finding) for finding in report.findings],
        "summary": {
            "errors": report.errors,
            "warnings": report.warnings,
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
        "related": [{**_place(place), "label": label} for place, label in finding.related],
    }


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
