"""No grade is milder than trees/site/grades.yaml and signs.yaml ask for; a tree may be stricter.

Bands are compared all along the line: at every limit, on both sides of it, to infinity, and for meters that may
be off. A row of a judge is too mild if some set of readings leads to it while one of them deserves worse.
A choice without a grade has the sign's. `unsure` has the worst of the choices unless it names a grade, and may
name one that is one step milder.

Bad:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        bands:
          - {below: skin-stop, grade: ok, goto: stop_here}
          - {grade: danger, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        bands:
          - {below: skin-ok, grade: ok, goto: stop_here}
          - {below: skin-stop, grade: watch, goto: stop_here}
          - {grade: danger, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.facts import Cut, Site
from shorewalk.tree.graded import worst_of_choices
from shorewalk.tree.model import AGAIN, GRADES, Ask, Measure, Tally, Tree, Work
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..judged import follow
from ..readings import Kind, kind_of
from ..rows import table_of
from ..rule import Rule
from ..shape import shape_of
from ..sweep import Mild, is_milder, milder_bands, milder_rows
from ..view import View

ID = "grade-too-mild"


def check(view: View) -> Iterator[Finding]:
    """Find grades milder than the least."""
    assert view.site  # noqa: S101 - the rule asks for it
    swept: dict[object, tuple[Mild, ...]] = {}
    for tree in view.trees:
        for name, node in tree.nodes.items():
            used = view.used_at(tree, name)
            if isinstance(node, Ask):
                yield from _signs(view, node, view.site, used)
            elif isinstance(node, Measure | Work | Tally) and node.bands:
                yield from _bands(view, node, view.site, swept, used)
            elif isinstance(node, Measure | Work | Tally):
                yield from _rows(view, tree, node, swept, used)


def _bands(
    view: View,
    node: Measure | Work | Tally,
    site: Site,
    swept: dict[object, tuple[Mild, ...]],
    used: tuple[Related, ...],
) -> Iterator[Finding]:
    kind = kind_of(node, site)
    if kind is None or not kind.floor:
        return
    cuts = tuple(Cut(band.way.grade, band.below, band.upto) for band in node.bands)
    key = (cuts, kind.floor)
    if key not in swept:  # the same bands stand in many places
        swept[key] = tuple(milder_bands(cuts, kind.floor, site.limits, kind.unit))
    for mild in swept[key]:
        gives = f"gives {quoted(mild.grade)}" if mild.grade else "gives no grade"
        message = (
            f"This band {gives} for {kind.id} {mild.where}; there the least grade is {quoted(mild.least)}."
        )
        place = view.of(node, "bands", mild.at, "grade")
        yield Finding(ID, Severity.ERROR, place, message, (_floor(view, kind), *used), _hint(mild))


def _rows(
    view: View,
    tree: Tree,
    node: Measure | Work | Tally,
    swept: dict[object, tuple[Mild, ...]],
    used: tuple[Related, ...],
) -> Iterator[Finding]:
    """Judge the judges that this reading comes to first; where it was judged before, it was judged enough."""
    site = view.site
    kind = kind_of(node, site) if site else None
    if site is None or kind is None or not kind.floor:
        return
    clean: set[object] = view.shown.setdefault("clean", set())
    for judge in follow(tree, node).judges:
        prefix = judge.name.rpartition(".")[0]
        name = node.name.removeprefix(f"{prefix}.")
        key = (judge.file, judge.route, name, kind)
        shape = (shape_of(judge, tree, node), kind)
        if shape in clean:  # one like it was
            continue
        if key not in swept:  # the same judge is put in at many places
            swept[key] = tuple(
                milder_rows(
                    judge,
                    node.name,
                    table_of(judge, tree, site),
                    kind.floor,
                    limits=site.limits,
                    unit=kind.unit,
                )
            )
        if not swept[key]:
            clean.add(shape)
        else:
            mild, *others = swept[key]
            gives = f"Row {mild.at + 1} gives {quoted(mild.grade)}"
            if others:
                gives += f" (and {listed([f'row {other.at + 1} {quoted(other.grade)}' for other in others], 'and')})"
            message = f"{gives} and may be met with {name} {mild.where}; there the least grade is {quoted(mild.least)}."
            with_ = (
                listed((words.removeprefix(f"{prefix}.") for words in mild.example), "and")
                if mild.example
                else ""
            )
            hint = f"{_hint(mild)} For example with {with_}." if with_ else _hint(mild)
            place = view.of(judge, "judge", mild.at, "grade")
            yield Finding(ID, Severity.ERROR, place, message, (_floor(view, kind), *used), hint)


def _floor(view: View, kind: Kind) -> Related:
    return Related(
        view.fact("grades", (kind.group, kind.id, "floor"), key=True), f"the least grades of {kind.id}"
    )


def _hint(mild: Mild) -> str:
    return f"Give at least {quoted(mild.least)} there, or cut at the limits of grades.yaml."


def _signs(view: View, node: Ask, site: Site, used: tuple[Related, ...]) -> Iterator[Finding]:
    sign = site.signs.get(node.sign)
    if sign is None:
        return
    for choice in node.choices:
        least = sign.answers.get(choice.id)
        if choice.way.grade and is_milder(choice.way.grade, least):
            gives = f"The answer {quoted(choice.id)} gives {quoted(choice.way.grade)}"
            message = f"{gives}; its least grade is {quoted(least)}."
            there = Related(
                view.fact("signs", (sign.id, "answers", choice.id), key=True), f"the answers of {sign.id}"
            )
            place = view.of(node, "choices", choice.id, "grade")
            hint = f"Give at least {quoted(least)}, or leave the grade out: then it is the sign's."
            yield Finding(ID, Severity.ERROR, place, message, (there, *used), hint)
    worst = worst_of_choices(node, site)
    named = node.unsure and node.unsure.grade
    least = GRADES[max(0, GRADES.index(worst) - 1)] if worst else None
    if named and (named == AGAIN or is_milder(named, least)):
        message = f"Not knowing gives {quoted(named)} here, and one of the answers {quoted(worst)}."
        hint = f"Give at least {quoted(least)}, or leave the grade out: then it is the worst of the answers."
        yield Finding(ID, Severity.ERROR, view.of(node, "unsure", "grade"), message, used, hint)


RULE = Rule(ID, "No grade is milder than the shared least grades.", check)
