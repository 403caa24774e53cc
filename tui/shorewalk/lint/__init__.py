"""Proving trees before anybody stands in the rain with one: findings, one file a rule, and how they are told."""

from __future__ import annotations

from .finding import Finding, Related, Severity
from .rules import RULES
from .run import Report, lint_library, lint_paths

__all__ = ["RULES", "Finding", "Related", "Report", "Severity", "lint_library", "lint_paths"]
