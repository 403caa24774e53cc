"""Damage to grades, bands and rows."""

from __future__ import annotations

from itertools import pairwise

from shorewalk.tree.model import GRADES

from .edits import Data, Keys, Seeds
from .file import File


def grade_milder(file: File) -> Seeds:
    """A grade is one step milder; not knowing, where it has no grade of its own, is ok."""
    for way in file.ways():
        if way.grade in GRADES[1:]:
            milder = GRADES[GRADES.index(way.grade) - 1]
            yield f"{way.node}: {way.label} {milder}", (way.graded(milder),)
        elif way.label == "unsure" and way.grade is None:
            yield f"{way.node}: {way.label} ok", (way.graded("ok"),)


def stop_graded_ok(file: File) -> Seeds:
    """A stop or danger is graded ok."""
    for way in file.ways():
        if way.grade in ("stop", "danger"):
            yield f"{way.node}: {way.label}", (way.graded("ok"),)


def again_graded_ok(file: File) -> Seeds:
    """A reading to be taken again counts as ok."""
    for way in file.ways():
        if way.grade == "again":
            yield f"{way.node}: {way.label}", (way.graded("ok"),)


def bands_swapped(file: File) -> Seeds:
    """Two neighbouring bands change places."""
    return _swapped(file, "bands")


def rows_swapped(file: File) -> Seeds:
    """Two neighbouring rows change places."""
    return _swapped(file, "judge")


def band_dropped(file: File) -> Seeds:
    """A band is left out."""
    return _dropped(file, "bands")


def row_dropped(file: File) -> Seeds:
    """A row of a judge is left out."""
    return _dropped(file, "judge")


def condition_dropped(file: File) -> Seeds:
    """A row asks for one thing less, or for nothing."""
    for name, at, row in _rows(file):
        for key in ("when", "while"):
            for asked in row.get(key, {}):
                route: Keys = ("nodes", name, "judge", at, key)
                edit = ((*route, asked), None) if len(row[key]) > 1 else (route, None)
                yield f"{name}: row {at + 1} {asked}", (edit,)
        for key in ("worst", "lacks"):
            if key in row:
                yield f"{name}: row {at + 1} {key}", ((("nodes", name, "judge", at, key), None),)


def condition_changed(file: File) -> Seeds:
    """A row asks for another answer, another state or a worse grade."""
    signs = {name: list(node.get("choices", {})) for name, node in file.of_kind("ask")}
    for name, at, row in _rows(file):
        route: Keys = ("nodes", name, "judge", at)
        for asked, value in row.get("when", {}).items():
            others = [other for other in signs.get(asked, ()) if other != value]
            if isinstance(value, str) and others:
                yield f"{name}: row {at + 1} {asked} {others[0]}", (((*route, "when", asked), others[0]),)
        for asked, value in row.get("while", {}).items():
            others = [other for other in file.site.states[asked].values if other != value]
            yield f"{name}: row {at + 1} {asked} {others[0]}", (((*route, "while", asked), others[0]),)
        if row.get("worst") in GRADES[:-1]:
            worse = GRADES[GRADES.index(row["worst"]) + 1]
            yield f"{name}: row {at + 1} worst {worse}", (((*route, "worst"), worse),)


def _swapped(file: File, key: str) -> Seeds:
    for name, at, one, other in _neighbours(file, key):
        route: Keys = ("nodes", name, key)
        yield f"{name}: {at + 1} and {at + 2}", (((*route, at), other), ((*route, at + 1), one))


def _dropped(file: File, key: str) -> Seeds:
    for name, node in file.nodes.items():
        for at in range(len(node.get(key, ()))):
            if len(node[key]) > 1:
                yield f"{name}: {at + 1}", ((("nodes", name, key, at), None),)


def _neighbours(file: File, key: str) -> list[tuple[str, int, Data, Data]]:
    return [
        (name, at, one, other)
        for name, node in file.nodes.items()
        for at, (one, other) in enumerate(pairwise(node.get(key, ())))
    ]


def _rows(file: File) -> list[tuple[str, int, Data]]:
    return [(name, at, row) for name, node in file.of_kind("judge") for at, row in enumerate(node["judge"])]


KINDS = (
    grade_milder,
    stop_graded_ok,
    again_graded_ok,
    bands_swapped,
    rows_swapped,
    band_dropped,
    row_dropped,
    condition_dropped,
    condition_changed,
)
