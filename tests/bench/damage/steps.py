"""Damage to what is done and in which order: skipped, swapped, said to leave things otherwise."""

from __future__ import annotations

from .edits import Edit, Keys, Seeds
from .file import File

DOING = ("step", "measure", "part")


def caution_dropped(file: File) -> Seeds:
    """One caution of a node is left out."""
    for name, node in file.nodes.items():
        for at, caution in enumerate(node.get("cautions", ())):
            route: Keys = ("nodes", name, "cautions")
            edit = ((*route, at), None) if len(node["cautions"]) > 1 else (route, None)
            yield f"{name}: {caution}", (edit,)


def step_skipped(file: File) -> Seeds:
    """A step is passed by, as if it had been done."""
    for name, _ in file.of_kind("step"):
        yield from _skipped(file, name)


def question_skipped(file: File) -> Seeds:
    """A question is passed by, as if it had its best answer."""
    for name, _ in file.of_kind("ask"):
        yield from _skipped(file, name)


def measure_skipped(file: File) -> Seeds:
    """One slot pair's reading (or any other) is not taken."""
    for name, _ in file.of_kind("measure"):
        yield from _skipped(file, name)


def part_skipped(file: File) -> Seeds:
    """A part is passed by, as if it had left by its first exit."""
    for name, _ in file.of_kind("part"):
        yield from _skipped(file, name)


def judge_skipped(file: File) -> Seeds:
    """A judge or a result is passed by, as if it had come out best."""
    for name, _ in file.of_kind("judge", "work"):
        rows = [way.goto for way in file.ways(name) if way.label.startswith("row ")]
        to = rows[-1] if rows else file.forward(name)
        if to and to != name and (edits := file.skip(name, to)):
            yield f"{name}: on to {to}", edits


def steps_swapped(file: File) -> Seeds:
    """Two neighbouring steps, readings or parts are done the other way round."""
    for name, _ in file.of_kind(*DOING):
        second = file.forward(name)
        third = second and file.forward(second)
        if not second or not third or second == name or not any(k in file.nodes[second] for k in DOING):
            continue
        into = file.skip(name, second)
        first = tuple(way.to(third) for way in file.ways(name) if way.goto == second)
        then = tuple(way.to(name) for way in file.ways(second) if way.goto == third)
        if third not in (name, second) and into:
            kept = [edit for edit in into if edit[0] not in {other[0] for other in (*first, *then)}]
            yield f"{name} and {second}", (*kept, *first, *then)


def leaves_dropped(file: File) -> Seeds:
    """What a step or a way leaves is not said."""
    for where, route, leaves in _leaves(file):
        for state in leaves:
            edit: Edit = ((*route, state), None) if len(leaves) > 1 else (route, None)
            yield f"{where}: {state}", (edit,)


def leaves_flipped(file: File) -> Seeds:
    """A step or a way leaves the other state: the main on early."""
    for where, route, leaves in _leaves(file):
        for state, value in leaves.items():
            if state in file.site.states:
                for other in file.site.states[state].values:
                    if other != value and not (str(value).startswith("$") and other != "unplugged"):
                        yield f"{where}: {state} {other}", (((*route, state), other),)


def starts_changed(file: File) -> Seeds:
    """A tree begins without one thing that it starts with."""
    for state in file.data.get("starts", {}):
        yield (
            f"starts: {state}",
            ((("starts", state) if len(file.data["starts"]) > 1 else ("starts",), None),),
        )


def _skipped(file: File, name: str) -> Seeds:
    to = file.forward(name)
    if to and to != name and (edits := file.skip(name, to)):
        yield f"{name}: on to {to}", edits


def _leaves(file: File) -> list[tuple[str, Keys, dict[str, str]]]:
    steps = [
        (name, ("nodes", name, "leaves"), node["leaves"])
        for name, node in file.of_kind("step")
        if "leaves" in node
    ]
    ways = [
        (f"{way.node}: {way.label}", (*way.route, "leaves"), way.data["leaves"])
        for way in file.ways()
        if "leaves" in way.data
    ]
    return [*steps, *ways]


KINDS = (
    caution_dropped,
    step_skipped,
    question_skipped,
    measure_skipped,
    part_skipped,
    judge_skipped,
    steps_swapped,
    leaves_dropped,
    leaves_flipped,
    starts_changed,
)
