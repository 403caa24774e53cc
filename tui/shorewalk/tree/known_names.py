"""The names that shipped facts, parts and trees have, for an editor to offer while one writes.

They are offered, not demanded: a folder may have facts and parts of its own, and the linter knows those too.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from .facts import Site
from .library import Library, shipped

NAMES = "x-names"
"""Marks where a kind of name belongs, until the names themselves are put in."""


def known_names() -> dict[str, dict[str, Any]]:
    """Return each kind of name as a schema: the names, and what each stands for."""
    library = shipped()
    return {f"known-{kind}": _listed(names) for kind, names in _kinds(library, library.site)}


def known_states() -> dict[str, dict[str, Any]]:
    """Return what each state may be, by name."""
    return {
        name: {"description": state.says, "enum": [*state.values, *state.groups]}
        for name, state in shipped().site.states.items()
    }


def _kinds(library: Library, site: Site) -> Iterator[tuple[str, Mapping[str, str]]]:
    yield "signs", {name: f"{sign.says}: {', '.join(sign.answers)}" for name, sign in site.signs.items()}
    yield "places", {name: place.says for name, place in site.places.items()}
    yield (
        "limits",
        {name: f"{limit.value:g} {limit.unit}: {limit.says}" for name, limit in site.limits.items()},
    )
    yield "loads", {name: load.says for name, load in site.loads.items()}
    yield "cautions", {name: caution.text for name, caution in site.cautions.items()}
    yield "faults", {name: fault.says for name, fault in site.faults.items()}
    yield "parts", {part.name: part.about or "" for part in library.parts()}
    yield "trees", {name: library.header(name).symptom for name in library.names()}


def _listed(names: Mapping[str, str]) -> dict[str, Any]:
    words = [" ".join(says.split()) for says in names.values()]
    return {"enum": list(names), "enumDescriptions": words}
