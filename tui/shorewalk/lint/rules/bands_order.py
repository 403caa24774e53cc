"""Bands rise: each ends over the one before it, so that every reading falls into exactly one of them.

At one number, `below` comes before `upto` (between them lies the number itself), and a limit that is passed
only surely comes after one that is passed as shown.

Bad:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: service-a-low, grade: stop, goto: stop_here}
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {below: service-a-low, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.facts import Limit, Site
from shorewalk.tree.model import Band, Measure, Tally, Work, Written

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "bands-order"


def check(view: View) -> Iterator[Finding]:
    """Find bands that do not rise."""
    assert view.site  # noqa: S101 - the rule asks for it
    for written in view.files:
        yield from _of_file(view, written, view.site)


def _of_file(view: View, written: Written, site: Site) -> Iterator[Finding]:
    for node in written.nodes.values():
        if not isinstance(node, Measure | Work | Tally):
            continue
        before: tuple[int, Limit] | None = None
        for at, band in enumerate(node.bands):
            limit = site.limits.get(band.below or band.upto or "")
            if limit is None:
                continue
            if before and _mark(band, limit) <= _mark(node.bands[before[0]], before[1]):
                key = "below" if band.below else "upto"
                message = (
                    f"This band ends {_end(band, limit)}, and the one before it already "
                    f"{_end(node.bands[before[0]], before[1])}: nothing falls into it."
                )
                there = Related(view.of(node, "bands", before[0]), "the band before")
                hint = "Let the limits rise from band to band."
                yield Finding(ID, Severity.ERROR, view.of(node, "bands", at, key), message, (there,), hint)
            before = (at, limit)


def _mark(band: Band, limit: Limit) -> tuple[float, int]:
    return (limit.value, 2 if limit.kind == "surely" else 0 if band.below else 1)


def _end(band: Band, limit: Limit) -> str:
    return f"{'below' if band.below else 'with'} {limit.value:g} {limit.unit} ({limit.id})"


RULE = Rule(ID, "The limits of bands rise.", check)
