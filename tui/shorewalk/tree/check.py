"""Checking a file for its author: everything that is wrong at once, each with its place and what to do.

pydantic tells what does not fit the shapes; `crosswise` what shapes cannot say. What a checked file means is
read from what pydantic understood of it, by the same builder that walks use.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from functools import cache
from pathlib import Path
from typing import Any, get_args

from pydantic import TypeAdapter, ValidationError

from .build import build_written
from .crosswise import Told, told_of_site, told_of_tree
from .facts import Site
from .file_shapes import TAGS, File
from .kinds import Shape
from .layers import layer_of
from .model import Route, Written
from .node_shapes import NODES
from .site import ALLOWS, build_site, read_file
from .site import FILES as SITE_FILES
from .site_shapes import SITE, AllowsShape
from .source import Data, Problem, Source, TreeError, first_of, not_collecting
from .words import choose_from, listed, quoted

ROOTS = {"file": File, ALLOWS: AllowsShape, **SITE}


def check_written(source: Source) -> Written:
    """Return the tree or part in `source`; raise `TreeError` with everything that is wrong with it."""
    with not_collecting():
        data = _checked(source, "file", told_of_tree)
        return build_written(replace(source, data=data))


def check_site(*layers: Path) -> Site:
    """Return the facts in these folders, later ones laid over earlier ones.

    Raises `TreeError` with everything that is wrong in any of their files.
    """
    sources: dict[str, list[Source]] = {name: [] for name in SITE_FILES}
    problems: list[Problem] = []
    for name, path in ((name, folder / f"{name}.yaml") for folder in layers for name in SITE_FILES):
        try:
            if source := read_file(path):
                sources[name].append(source)
                problems += _told_of_facts(source, name)
        except TreeError as error:
            problems += error.problems
    site = build_site(sources.__getitem__)
    problems = problems or _not_made(site)
    if not problems:
        problems = [_across(sources[name], layers, name, told) for name, told in told_of_site(site)]
    if problems:
        raise TreeError(problems)
    return site


def _not_made(site: Site) -> list[Problem]:
    """Make every fact, and return what cannot be understood although it has its shape: a low number over the high."""
    problems: list[Problem] = []
    for each in fields(site):
        try:
            len(getattr(site, each.name))
        except TreeError as error:
            problems += error.problems
    return problems


def _across(sources: list[Source], layers: tuple[Path, ...], name: str, told: Told) -> Problem:
    """Return what facts say of each other that does not hold, where it is written.

    The shared facts are sound by themselves: what does not hold in them came with the layer over them.
    """
    problem = _problem(layer_of(sources, name, told.route) or sources[-1], told)
    if len(layers) == 1 or Path(problem.place.file).parent == layers[-1]:
        return problem
    return problem._replace(message=f"{problem.message} The facts in {layers[-1]} left it out.")


def _told_of_facts(source: Source, name: str) -> list[Problem]:
    """Return what is wrong with a file of facts; what it allows the linter to leave untold is no fact."""
    facts = {key: value for key, value in source.data.items() if key != ALLOWS}
    allows = {key: value for key, value in source.data.items() if key == ALLOWS}
    told = [*_validated(facts, name)[1], *_validated(allows, ALLOWS)[1]]
    return [_problem(source, each) for each in told]


@cache
def _adapter(name: str) -> TypeAdapter[Any]:
    return TypeAdapter(ROOTS[name])


def _checked(
    source: Source, name: str, crosswise: Callable[[dict[str, Any]], Iterator[Told]] | None = None
) -> dict[str, Any]:
    """Return the data as pydantic understood it."""
    data, told = _validated(source.data, name)
    told += crosswise(source.data) if crosswise else []
    if told:
        raise TreeError(first_of([_problem(source, each) for each in told]))
    return data


def _validated(given: dict[str, Data], name: str) -> tuple[dict[str, Any], list[Told]]:
    """Return the data as pydantic understood it, and what it cannot understand."""
    adapter, root = _adapter(name), ROOTS[name]
    try:
        found = adapter.validate_python(given)
    except ValidationError as error:
        return {}, [_told(details, root) for details in error.errors(include_url=False)]
    return adapter.dump_python(found, by_alias=True, exclude_unset=True), []


def _problem(source: Source, told: Told) -> Problem:
    return Problem(source.place(told.route, key=told.key), told.message)


def _told(error: Any, root: Any) -> Told:
    """Return one of pydantic's errors in our words and at our route, without tags and key marks."""
    loc, value = error["loc"], error["input"]
    route = tuple(step for step in loc if step != "[key]" and not str(step).startswith("#"))
    name = _named(route)
    match error["type"]:
        case "ours":
            return Told(route, error["ctx"]["said"], key="[key]" in loc)
        case "extra_forbidden":
            known = list(_fields(_shape_at(loc[:-1], root)))
            return Told(
                route, f"The key {name} is not known here.{choose_from(str(loc[-1]), known)}", key=True
            )
        case "missing":
            about = _fields(_shape_at(loc[:-1], root))[str(loc[-1])].description or "it must be there."
            about = about.split(". ")[0].rstrip(".") + "."  # the rest is for an editor to show
            return Told(route, f"{name} is missing here. Write it: {about[:1].lower()}{about[1:]}", key=True)
        case "no_kind":
            kinds = [kind for kind in NODES if isinstance(value, dict) and kind in value]
            found = f"has {listed(kinds, 'and')}" if kinds else "has none of these keys"
            return Told(route, f"A node is one of {listed(NODES)}; {name} {found}.", key=True)
        case "too_short":
            return Told(route, f"{name} is empty. Write at least one.", key=True)
        case "list_type":
            return Told(route, f"{name} wants a list; found {_found(value)}. Write [one, other].")
        case _:
            return Told(route, f"{name} wants keys and values; found {_found(value)}.")


def _named(route: Route) -> str:
    """Return the name of what stands at a route: a key, or a place in the list at a key."""
    if not route:
        return "the file"
    if isinstance(route[-1], int) and len(route) > 1:
        return f"item {route[-1] + 1} of {quoted(route[-2])}"
    return quoted(route[-1])


def _found(value: object) -> str:
    if isinstance(value, str):
        return quoted(value) if value else "nothing"
    return "a list" if isinstance(value, list) else "keys and values"


def _shape_at(loc: tuple[Any, ...], root: Any) -> type[Shape]:
    """Return the shape whose keys stand at `loc`, below the type `root`."""
    shape = _shape_in(root) or Shape
    for step in loc:
        if step in TAGS:
            shape = TAGS[step]
        elif field := _fields(shape).get(str(step)):
            shape = _shape_in(field.annotation) or shape
    return shape


def _fields(shape: type[Shape]) -> dict[str, Any]:
    return {field.alias or name: field for name, field in shape.model_fields.items()}


def _shape_in(annotation: Any) -> type[Shape] | None:
    if isinstance(annotation, type) and issubclass(annotation, Shape):
        return annotation
    return next((shape for part in get_args(annotation) if (shape := _shape_in(part))), None)
