"""Damage to grades, bands and rows."""

from __future__ import annotations

from itertools import pairwise

from shorewalk.tree.model import GRADES

from .edits import Data, Keys, Seeds
from .file import File

KEYS = ("goto", "grade", "leaves")


def band_milder(file: File) -> Seeds:
    """A band is graded one step milder."""
    return _milder(file, "band ")


def row_milder(file: File) -> Seeds:
    """A row of a judge is graded one step milder."""
    return _milder(file, "row ")


def choice_milder(file: File) -> Seeds:
    """An answer is graded one step milder."""
    return _milder(file, "choose ")


def unsure_milder(file: File) -> Seeds:
    """Not knowing is graded one step milder; where it has no grade of its own, ok."""
    yield from _milder(file, "unsure")
    for way in file.ways():
        if way.label == "unsure" and way.grade is None:
            yield f"{way.node}: {way.label} ok", (way.graded("ok"),)


def other_way_milder(file: File) -> Seeds:
    """Any other way (done, cannot, spent, an exit) is graded one step milder."""
    return _milder(file, "done", "cannot", "spent", "exit ", "next", "unable", "missing")


def stop_graded_ok(file: File) -> Seeds:
    """A stop or danger is graded ok."""
    for way in file.ways():
        if way.grade in ("stop", "danger"):
            yield f"{way.node}: {way.label}", (way.graded("ok"),)


def grade_dropped(file: File) -> Seeds:
    """A watch, stop or danger is left out."""
    for way in file.ways():
        if way.grade in GRADES[1:]:
            yield f"{way.node}: {way.label}", (way.graded(None),)


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


def band_ways_swapped(file: File) -> Seeds:
    """Two neighbouring bands keep their limits and change grades and ways."""
    return _crossed(file, "bands")


def row_ways_swapped(file: File) -> Seeds:
    """Two neighbouring rows keep what they ask and change grades and ways."""
    return _crossed(file, "judge")


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


def _milder(file: File, *labels: str) -> Seeds:
    for way in file.ways():
        if way.label.startswith(labels) and way.grade in GRADES[1:]:
            milder = GRADES[GRADES.index(way.grade) - 1]
            yield f"{way.node}: {way.label} {milder}", (way.graded(milder),)


def _swapped(file: File, key: str) -> Seeds:
    for name, at, one, other in _neighbours(file, key):
        route: Keys = ("nodes", name, key)
        yield f"{name}: {at + 1} and {at + 2}", (((*route, at), other), ((*route, at + 1), one))


def _crossed(file: File, key: str) -> Seeds:
    for name, at, one, other in _neighbours(file, key):
        if _way(one) != _way(other):
            route: Keys = ("nodes", name, key)
            first, second = _keeping(one, other), _keeping(other, one)
            yield f"{name}: {at + 1} and {at + 2}", (((*route, at), first), ((*route, at + 1), second))


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


def _way(row: Data) -> Data:
    return {key: row[key] for key in KEYS if key in row}


def _keeping(row: Data, other: Data) -> Data:
    return {key: value for key, value in row.items() if key not in KEYS} | _way(other)


KINDS = (
    band_milder,
    row_milder,
    choice_milder,
    unsure_milder,
    other_way_milder,
    stop_graded_ok,
    grade_dropped,
    again_graded_ok,
    bands_swapped,
    rows_swapped,
    band_ways_swapped,
    row_ways_swapped,
    band_dropped,
    row_dropped,
    condition_dropped,
    condition_changed,
)
