"""A measure as a numbered step: where the probes go, what is usual, blanks to write on, the lines to take."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from shorewalk.tree.model import Load, Measure
from shorewalk.walk.evidence import quantity_of
from shorewalk.walk.judge import condemns
from shorewalk.walk.wording import sentence

from .compared import band_lines, kind_of
from .cuts import whole_condemns
from .desk import Desk
from .step import At, Step
from .uses import Given

UNITS: Mapping[str, str] = {"ac-volts": "V AC", "dc-volts": "V DC", "hertz": "Hz", "ohms": "ohm", "amps": "A"}
UNABLE = "cannot be measured"
WHICH = re.compile(r" \([^()]*\)")
"""Which of the slots one is: `(the short one)`."""


def read_step(desk: Desk, at: At, node: Measure) -> Step:
    """Return the step for a measure. A part that is done from several steps has a blank for each."""
    where = at[0]
    ahead = (
        *band_lines(desk, where, node.bands, kind_of(node)),
        *desk.rest(where, at[1], {"next": "read", "unable": UNABLE}),
    )
    froms = [f"from step {number}" for number, _, _ in desk.calls(where)] if where else []
    names = froms if len(froms) > 1 else ["Reading"]
    unit = UNITS.get(node.what, "")
    return Step(
        at=at,
        number=desk.numbers[at],
        kind="measure",
        does="Read",
        text=_words(desk, where, node),
        lines=tuple(_lines(desk, where, node)),
        fields=tuple(f"{name}|{unit}" for name in names),
        ahead=ahead,
    )


def _lines(desk: Desk, where: str, node: Measure) -> Iterator[tuple[str, str]]:
    quantity = quantity_of(next(_as_given(desk, where, node)), desk.site)
    normal = node.normal or (quantity.normal if quantity else None)
    if normal:
        yield "Usual", desk.text(where, normal)
    if quantity and quantity.small:
        cuts = quantity.floor or node.bands
        sure = whole_condemns(lambda found: condemns(cuts, found, desk.site.limits))
        counts = f"it counts from {sure:g} {quantity.unit} on; else " if sure is not None else ""
        yield "No tenths on your meter?", f'Then {counts}take the line "{UNABLE}".'


def _as_given(desk: Desk, where: str, node: Measure) -> Iterator[Measure]:
    """Yield the measure with what the part may be given put in."""
    for given in desk.uses.given(where):
        yield replace(
            node,
            what=_word(node.what, given),
            place=_word(node.place, given),
            from_=_word(node.from_, given),
            to=_word(node.to, given),
            load=Load(_word(node.load.amount, given), node.load.at and _word(node.load.at, given)),
            meter=_word(node.meter, given),
        )


def _word(name: str, given: Given) -> str:
    return given[name[1:]].word if name.startswith("$") and name[1:] in given else name


def _words(desk: Desk, where: str, node: Measure) -> str:
    """Return what to measure and where the probes go, for all places that the part is done at."""
    if node.text:
        return desk.text(where, node.text)
    found: dict[str, list[str]] = {}
    shared = node.place.startswith("$") and len(desk.uses.values(where, node.place[1:])) > 1
    for measure in _as_given(desk, where, node):
        place = desk.site.places.get(measure.place)
        says = sentence(measure, desk.site)
        if shared and place:
            says = says.replace(f"at {place.says}.", f"at [{node.place[1:]}].")
        found.setdefault(says, []).append(place.says if place else measure.place)
    plain = {WHICH.sub("", says) for says in found}
    if len(found) == 1:
        return next(iter(found))
    if len(plain) == 1:
        return f"{plain.pop()} Which slot is which: see the drawings."
    return " ".join(f"{' and '.join(dict.fromkeys(places))}: {says}" for says, places in found.items())
