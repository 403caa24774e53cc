"""A folder's own facts add to the shared ones and are nowhere milder.

A folder of trees may bring a `site/`, laid over the shared one by id. New names are free. Of a shared fact its words
may differ; a limit, a least grade or the grade of an answer may be stricter, never milder; all else stays as it is.
Safety rules may be added, and the shared ones stay. A shared limit that no least grade cuts at stays too: nobody
can tell which way it would be stricter.

Bad:

    # site/signs.yaml
    heat:
      says: heat at plug and outlet
      by: hand
      at: pedestal
      answers: {cool: ok, warm: ok, hot: stop}

Good:

    # site/signs.yaml
    heat:
      says: how hot plug and outlet are
      by: hand
      at: pedestal
      answers: {cool: ok, warm: stop, hot: stop}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from shorewalk.tree.facts import Cut, Site
from shorewalk.tree.model import AGAIN, Route
from shorewalk.tree.site import ALLOWS, read_site
from shorewalk.tree.source import Source
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..sweep import is_milder, milder_bands
from ..view import View

ID = "own-facts"
STRICTER = "A folder may be stricter than the shared facts, never milder."


class Kind(NamedTuple):
    """Facts of one kind: their file, the key above them, what one is called, and the keys that may differ."""

    file: str
    group: Route
    what: str
    words: tuple[str, ...] = ()
    grades: tuple[str, ...] = ()  # looked at more closely


KINDS = (
    Kind("limits", (), "limit", ("says", "source"), ("value",)),
    Kind("grades", ("quantities",), "quantity", ("says", "normal"), ("floor",)),
    Kind("grades", ("results",), "result", ("says",), ("floor",)),
    Kind("signs", (), "sign", ("says",), ("answers",)),
    Kind("places", (), "place", ("says",)),
    Kind("states", (), "state", ("says",)),
    Kind("loads", (), "load", ("says", "source")),
    Kind("faults", (), "fault", ("says",)),
    Kind("headings", (), "heading", ("says", "trees")),
    Kind("cautions", (), "caution"),
    Kind("safety", (), "safety rule"),
)


def check(view: View) -> Iterator[Finding]:
    """Find shared facts that a folder has put others in the place of."""
    if len(view.library.site_folders) == 1 or view.site is None:
        return
    for kind in KINDS:
        layers = view.library.layers(kind.file)
        if len(layers) == 2:
            yield from _changed(kind, *layers)
    shared = read_site(view.library.site_folders[0])
    yield from _answers(view, view.site, shared)
    yield from _floors(view, view.site, shared)


def _changed(kind: Kind, shared: Source, own: Source) -> Iterator[Finding]:
    theirs, mine = _facts(shared, kind.group), _facts(own, kind.group)
    for name in mine.keys() & theirs.keys():
        before, after = theirs[name], mine[name]
        free = {*kind.words, *kind.grades}
        for key in sorted({*before, *after} - free):
            if before.get(key) != after.get(key):
                says = f"another `{key}`" if key in after else f"no `{key}`"
                message = f"The shared {kind.what} {quoted(name)} has {says} here."
                may = f" Only {listed(sorted(free), 'and')} may differ." if free else ""
                place = own.place((*kind.group, name, key), key=True)
                there = Related(shared.place((*kind.group, name), key=True), f"the shared {kind.what}")
                hint = f"Leave it as it is shared, or take a new name.{may}"
                yield Finding(ID, Severity.ERROR, place, message, (there,), hint)


def _facts(source: Source, group: Route) -> Mapping[str, Any]:
    data: Any = source.data
    for key in group:
        data = data.get(key, {})
    return {name: fact for name, fact in data.items() if isinstance(fact, dict) and name != ALLOWS}


def _answers(view: View, site: Site, shared: Site) -> Iterator[Finding]:
    for sign in shared.signs.values():
        answers = site.signs[sign.id].answers
        for answer, least in sign.answers.items():
            place = view.fact("signs", (sign.id, "answers", answer))
            if answer not in answers:
                message = f"The shared sign {quoted(sign.id)} has no answer {quoted(answer)} here."
                yield Finding(
                    ID, Severity.ERROR, place, message, hint="Add it; a sign may only gain answers."
                )
            elif is_milder(answers[answer], least):
                gives = _grade(answers[answer])
                message = f"The answer {quoted(answer)} gives {gives} here, and {quoted(least)} for all."
                yield Finding(ID, Severity.ERROR, place, message, hint=STRICTER)


def _floors(view: View, site: Site, shared: Site) -> Iterator[Finding]:
    moved = {name for name, limit in shared.limits.items() if site.limits[name].value != limit.value}
    # Both lines of limits in one: the shared ones under names that no file can hold.
    limits = {**site.limits, **{f"shared {name}": limit for name, limit in shared.limits.items()}}
    cut: set[str] = set()
    for group in ("quantities", "results"):
        for name, theirs in getattr(shared, group).items():
            mine = getattr(site, group)[name]
            here = {limit for each in (*mine.floor, *theirs.floor) if (limit := each.below or each.upto)}
            cut |= here
            if not theirs.floor or (mine.floor == theirs.floor and not here & moved):
                continue
            floor = [replace(each, grade=None) if each.grade == AGAIN else each for each in mine.floor]
            least = [_renamed(each) for each in theirs.floor]
            for mild in milder_bands(floor or [Cut(None)], least, limits, theirs.unit):
                place = view.fact("grades", (group, name, "floor", mild.at))
                if (
                    mine.floor == theirs.floor
                ):  # so a limit was moved: the one that ends this stretch, or begins it
                    ends = [mine.floor[at].below or mine.floor[at].upto for at in (mild.at, mild.at - 1)]
                    culprit = next((limit for limit in ends if limit in moved), min(here & moved))
                    place = view.fact("limits", (str(culprit), "value"))
                here_is = f"The least grade of {name} is {_grade(mild.grade)} here {mild.where}"
                message = f"{here_is}; it is {quoted(mild.least)} for all."
                yield Finding(ID, Severity.ERROR, place, message, hint=STRICTER)
    for name in moved - cut:
        mine, theirs = site.limits[name].value, shared.limits[name].value
        message = f"The shared limit {quoted(name)} is {mine:g} here, and {theirs:g} for all."
        hint = "No least grade cuts at it, so nobody can tell which way is stricter. Take a new name."
        yield Finding(ID, Severity.ERROR, view.fact("limits", (name, "value")), message, hint=hint)


def _renamed(cut: Cut) -> Cut:
    return Cut(cut.grade, cut.below and f"shared {cut.below}", cut.upto and f"shared {cut.upto}")


def _grade(grade: str | None) -> str:
    return quoted(grade) if grade else "none"


RULE = Rule(ID, "A folder's own facts are nowhere milder than the shared ones.", check)
