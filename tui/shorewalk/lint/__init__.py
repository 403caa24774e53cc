"""Proving trees before anybody stands in the rain with one: findings, one file a rule, and how they are told."""

from __future__ import annotations

from .finding import Finding, Related, Severity
from .report import Report, Silenced, Stopped
from .request import BadPathError
from .rule import Rule
from .rules import RULES
from .run import lint_library, lint_paths

__all__ = [
    "RULES",
    "BadPathError",
    "Finding",
    "Related",
    "Report",
    "Rule",
    "Severity",
    "Silenced",
    "Stopped",
    "lint_library",
    "lint_paths",
]
