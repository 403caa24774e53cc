"""Damage to what is read and asked: another pair, another place, a reading not waited for."""

from __future__ import annotations

from itertools import pairwise

from .edits import Data, Keys, Seeds
from .file import File


def pair_changed(file: File) -> Seeds:
    """One probe of a reading goes to another terminal."""
    for name, node in file.of_kind("measure"):
        measure = node["measure"]
        for key in ("from", "to"):
            ends = (measure["from"], measure["to"])
            for other in [end for end in _terminals(file, measure) if end not in ends][:1]:
                yield f"{name}: {key} {other}", ((("nodes", name, "measure", key), other),)


def place_changed(file: File) -> Seeds:
    """A reading is taken at another place that has these terminals."""
    for name, node in file.of_kind("measure"):
        measure = node["measure"]
        ends = {measure["from"], measure["to"]}
        fit = [place for place, fact in file.site.places.items() if ends <= set(fact.terminals)]
        for place in [place for place in fit if place != measure["place"]][:1]:
            yield f"{name}: {place}", ((("nodes", name, "measure", "place"), place),)


def what_changed(file: File) -> Seeds:
    """The dial stands on something else."""
    for name, node in file.of_kind("measure"):
        what = "ac-volts" if node["measure"]["what"] != "ac-volts" else "dc-volts"
        yield f"{name}: {what}", ((("nodes", name, "measure", "what"), what),)


def load_changed(file: File) -> Seeds:
    """A reading with a load is said to be one without, or the other way round."""
    for name, node in file.of_kind("measure"):
        load = node["measure"].get("load", {})
        amount = load.get("amount", "none")
        other = "one-leg" if amount == "none" else "none"
        changed: Data = {**load, "amount": other}
        yield f"{name}: {other}", ((("nodes", name, "measure", "load"), changed),)


def meter_changed(file: File) -> Seeds:
    """A reading is taken in low-impedance mode."""
    for name, node in file.of_kind("measure"):
        if "meter" not in node["measure"]:
            yield name, ((("nodes", name, "measure", "meter"), "low-impedance"),)


def of_shortened(file: File) -> Seeds:
    """A judge does not wait for one of its readings."""
    for name, node in file.of_kind("judge"):
        for at, reading in enumerate(node.get("of", ())):
            whole = len(node["of"]) == 1
            yield (
                f"{name}: {reading}",
                ((("nodes", name, "of") if whole else ("nodes", name, "of", at), None),),
            )


def inputs_swapped(file: File) -> Seeds:
    """Two readings that a result is worked out from change places."""
    for name, node in file.of_kind("work"):
        inputs = node["work"]["from"]
        for one, other in pairwise(inputs):
            route: Keys = ("nodes", name, "work", "from")
            yield (
                f"{name}: {one} and {other}",
                (((*route, one), inputs[other]), ((*route, other), inputs[one])),
            )


def result_changed(file: File) -> Seeds:
    """A result is called by the name of another in its unit, so that other least grades count."""
    for name, node in file.of_kind("work"):
        out = file.site.results.get(node["work"]["out"])
        fit = [each.id for each in file.site.results.values() if out and each.unit == out.unit]
        for other in [each for each in fit if out and each != out.id][:1]:
            yield f"{name}: {other}", ((("nodes", name, "work", "out"), other),)


def sign_changed(file: File) -> Seeds:
    """A question is about another sign: one that has these answers, else the next."""
    signs = list(file.site.signs)
    for name, node in file.of_kind("ask"):
        at = signs.index(node["sign"])
        order = signs[at + 1 :] + signs[:at]
        fit = [sign for sign in order if set(node["choices"]) <= set(file.site.signs[sign].answers)]
        for sign in (fit or order)[:1]:
            yield f"{name}: {sign}", ((("nodes", name, "sign"), sign),)


def choice_dropped(file: File) -> Seeds:
    """A question leaves out one answer."""
    for name, node in file.of_kind("ask"):
        for choice in node["choices"]:
            yield f"{name}: {choice}", ((("nodes", name, "choices", choice), None),)


def with_changed(file: File) -> Seeds:
    """A part is put in with something else: another place, another node of the kind it was given."""
    for name, node in file.of_kind("part"):
        for key, value in node.get("with", {}).items():
            for other in _instead(file, str(value))[:1]:
                yield f"{name}: {key} {other}", ((("nodes", name, "with", key), other),)


def _terminals(file: File, measure: Data) -> list[str]:
    place = file.site.places.get(measure["place"])
    if place:
        return list(place.terminals)
    two = {measure["from"], measure["to"]} & {"L1", "L2"} or "two-hot" in file.name
    return ["L1", "L2", "N", "G", "earth"] if two else ["L", "N", "G", "earth"]


def _instead(file: File, value: str) -> list[str]:
    if value in file.site.places:
        kind = file.site.places[value].kind
        return [place for place, fact in file.site.places.items() if fact.kind == kind and place != value]
    if value in file.nodes:
        kind = next(
            key
            for key in ("ask", "step", "measure", "work", "judge", "end", "tally", "part")
            if key in file.nodes[value]
        )
        return [name for name, _ in file.of_kind(kind) if name != value][:3]
    head, _, reading = value.partition(".")
    siblings = [
        name
        for name, node in file.of_kind("part")
        if name != head and node["part"] == file.nodes.get(head, {}).get("part")
    ]
    inner = file.parts.get(file.nodes.get(head, {}).get("part", ""), {}).get("nodes", {})
    readings = [name for name, node in inner.items() if "measure" in node and name != reading]
    return (
        [f"{head}.{name}" for name in readings[:2]] + [f"{name}.{reading}" for name in siblings[:1]]
        if reading
        else []
    )


KINDS = (
    pair_changed,
    place_changed,
    what_changed,
    load_changed,
    meter_changed,
    of_shortened,
    inputs_swapped,
    result_changed,
    sign_changed,
    choice_dropped,
    with_changed,
)
