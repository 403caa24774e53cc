"""The ways out of a node in the author's words: answers, stretches of a reading, rows of a judge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shorewalk.marks import GRADES
from shorewalk.tree.facts import Limit
from shorewalk.tree.model import Ask, Band, Condition, Judge, Measure, Node, Row, Tally, Work, ways_out
from shorewalk.tree.words import listed

from .drawing import Arrow

Limits = Mapping[str, Limit]

PLAIN = {
    "unsure": "not sure",
    "done": "done",
    "cannot": "cannot be done",
    "unable": "cannot be measured",
    "next": "then",
    "missing": "a reading is missing",
}


def arrows_of(name: str, node: Node, limits: Limits) -> Iterator[Arrow]:
    """Yield the ways out of a node, in the order written."""
    says = _says(node, limits)
    for key, way in ways_out(node):
        words = says.get(key) or PLAIN.get(key) or key.removeprefix("exit ")
        leaves = listed((f"{state} {value}" for state, value in way.leaves), "and") if way.leaves else ""
        yield Arrow(name, way.goto, key, words, way.grade, leaves)


def _says(node: Node, limits: Limits) -> dict[str, str]:
    match node:
        case Ask():
            return {f"choose {choice.id}": choice.says for choice in node.choices}
        case Measure() | Work() | Tally():
            return {f"band {at}": words for at, words in enumerate(bands_words(node.bands, limits), 1)}
        case Judge():
            alone = len(node.rows) == 1
            rows = (row_words(row, limits) or ("always" if alone else "else") for row in node.rows)
            return {f"row {at}": words for at, words in enumerate(rows, 1)}
    return {}


def bands_words(bands: tuple[Band, ...], limits: Limits) -> Iterator[str]:
    """Yield each band as a stretch: `under 104 V`, `104 to 114 V`, `114 V or more`."""
    low: dict[str, str | None] = {}
    for band in bands:
        yield stretch(limits, below=band.below, upto=band.upto, **low)
        low = {"from_": band.below, "above": band.upto}


def row_words(row: Row, limits: Limits) -> str:
    """Return what a row asks for; nothing where it is always met."""
    parts = [_condition_words(condition, limits) for condition in row.when]
    parts += [f"{state}: {value}" for state, value in row.while_]
    if row.worst:
        word = GRADES[row.worst].word if row.worst in GRADES else row.worst
        parts.append(f"worst so far: {word} or worse")
    if row.lacks:
        parts.append(f"without {row.lacks}")
    return listed(parts, "and") if parts else ""


def _condition_words(condition: Condition, limits: Limits) -> str:
    if condition.choice:
        return f"{condition.node}: {condition.choice}"
    asked = stretch(
        limits, from_=condition.from_, above=condition.above, below=condition.below, upto=condition.upto
    )
    return f"{condition.node} {asked}"


def stretch(
    limits: Limits,
    *,
    from_: str | None = None,
    above: str | None = None,
    below: str | None = None,
    upto: str | None = None,
) -> str:
    """Return a stretch of a reading between limits, in words; a limit that is not known by its name."""
    low, high = from_ or above, below or upto
    if low and high:
        least, most = _amount(limits, low), _amount(limits, high)
        unit = most.partition(" ")[2]
        short = least.removesuffix(f" {unit}") if unit else least
        return f"about {most}" if least == most else f"{short} to {most}"
    if high:
        return f"{'under' if below else 'up to'} {_amount(limits, high)}"
    if low:
        sure = "surely " if low in limits and limits[low].kind == "surely" else ""
        return f"{sure}over {_amount(limits, low)}" if above else f"{sure}{_amount(limits, low)} or more"
    return "any reading"


def _amount(limits: Limits, name: str) -> str:
    limit = limits.get(name)
    if limit is None:
        return name
    return f"{limit.value:g} {limit.unit}" if limit.unit != "1" else f"{limit.value:g}"
