"""The formats a report can be told in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from ..report import Report
from .as_github import write_github
from .as_json import write_json
from .as_sarif import write_sarif
from .text import write_text


def writers(width: int | None = None) -> Mapping[str, Callable[[Report], str]]:
    """Return what writes each format; `width` is the terminal's, which matters to people only."""
    return {
        "text": partial(write_text, width=width),
        "json": write_json,
        "sarif": write_sarif,
        "github": write_github,
    }
