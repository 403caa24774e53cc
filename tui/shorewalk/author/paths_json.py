"""Paths and coverage for programs, as one JSON object. A change that breaks a reader gets a new `version`."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from shorewalk.tree.library import Library
from shorewalk.tree.model import End
from shorewalk.tree.source import Place
from shorewalk.walk.answers import to_json

from .coverage import KINDS, Coverage, kind_of
from .paths import Path, TreePaths
from .paths_text import in_order, percent
from .trail import Mark

VERSION = 1


def as_json(library: Library, found: list[TreePaths], coverage: Coverage, meter: str) -> str:
    """Return all that was found; lines and columns count from 1."""
    told = {
        "version": VERSION,
        "meter": meter,
        "trees": [
            {"tree": tree.tree, "whole": tree.whole, "paths": [_path(path) for path in tree.paths]}
            for tree in found
        ],
        "coverage": {
            "walks": coverage.walks,
            **{kind: _count(*coverage.counts(kind)) for kind in KINDS},
            "missing": _marks(library, coverage.missing),
            "never": _marks(library, coverage.never),
        },
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _marks(library: Library, marks: Iterable[Mark]) -> list[dict[str, Any]]:
    return [
        {"kind": kind_of(mark), **_place(place), "node": str(mark.route[-1]), "label": mark.label}
        for place, mark in in_order(library, marks)
    ]


def _path(path: Path) -> dict[str, Any]:
    node = path.node
    what = {"verdict": node.verdict, "call": node.call} if isinstance(node, End) else {"on_to": node.tree}
    answers = (
        [{"at": one.at, **to_json(one.answer)} for one in path.proven.walk.answers] if path.proven else None
    )
    return {"at": path.name, **_place(path.place), **what, "answers": answers}


def _count(have: int, all_: int) -> dict[str, int]:
    return {"covered": have, "all": all_, "percent": percent(have, all_)}


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
