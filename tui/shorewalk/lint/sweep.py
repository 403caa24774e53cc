"""Comparing grades along the whole line of a reading: what a tree gives against the least it may give.

Between two neighbouring limits nothing changes, and a meter that may be off by some width moves each limit by that
width either way. So one number in every stretch between those, and each of those itself, stand for all readings.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from shorewalk.tree.facts import Cut, Limit
from shorewalk.tree.model import AGAIN, GRADES, Judge
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import condition_met, judge_bands, limits_of

from .rows import Table, cells, exactly, value_in

WIDTHS = (0.0, 0.05, 0.4, 1.9, 6.0)
"""How far a meter may be off, in the reading's unit: not at all, to more than a basic meter is at 240 V."""

Limits = Mapping[str, Limit]


@dataclass(frozen=True, slots=True)
class Mild:
    """A band or row (`at`, from 0) that gives less than the least grade somewhere, and where that is."""

    at: int
    grade: str | None
    least: str
    where: str
    example: tuple[str, ...] = ()


def is_milder(grade: str | None, least: str | None) -> bool:
    """Tell whether `grade` is less than asked for. `again` is not: the reading counts for nothing."""
    if grade == AGAIN or least not in GRADES or least == "ok":
        return False
    return grade not in GRADES or GRADES.index(grade) < GRADES.index(least)


def milder_bands(bands: Sequence[Cut], floor: Sequence[Cut], limits: Limits, unit: str) -> Iterator[Mild]:
    """Yield each band that gives less than `floor` for some reading, and the least such reading's stretch."""
    told: dict[int, tuple[Mild, list[tuple[float, float]]]] = {}
    names = [cut.below or cut.upto for cut in (*bands, *floor)]
    for cell, amount in readings(names, limits):
        given, least = judge_bands(bands, amount, limits), judge_bands(floor, amount, limits).grade
        if is_milder(given.grade, least) and (given.index not in told or _sharp(amount)):
            mild = Mild(given.index, given.grade, str(least), "")
            told.setdefault(given.index, (mild, []))[1].append(
                (*cell,) if _sharp(amount) else (amount.value, math.nan)
            )
    for mild, found in told.values():
        yield Mild(mild.at, mild.grade, mild.least, _where(found, unit))


def milder_rows(
    judge: Judge, node: str, table: Table, floor: Sequence[Cut], *, limits: Limits, unit: str
) -> Iterator[Mild]:
    """Yield each graded row that some readings lead to while that of `node` asks for more; its worst case."""
    asked = {
        at: c for at, row in enumerate(judge.rows) for c in row.when if c.node == node and c.choice is None
    }
    names = [
        *(name for c in asked.values() for name in limits_of(c)),
        *(cut.below or cut.upto for cut in floor),
    ]
    told: dict[tuple[int, str], list[tuple[float, float]]] = {}
    examples: dict[int, tuple[str, ...]] = {}
    for cell, amount in readings(names, limits):
        least = judge_bands(floor, amount, limits).grade
        graded = [at for at, row in enumerate(judge.rows) if row.way.grade in GRADES]
        mild = [at for at in graded if is_milder(judge.rows[at].way.grade, least)]
        if not mild:
            continue
        met = {at for at, condition in asked.items() if condition_met(condition, amount, limits)}
        fixed = _fix(table, ("node", node), asked.keys(), met)
        for at in mild:
            if (at, str(least)) in told and not _sharp(amount):
                continue
            if found := fixed.first(at, fixed.domain):
                told.setdefault((at, str(least)), []).append(
                    (*cell,) if _sharp(amount) else (amount.value, math.nan)
                )
                examples.setdefault(at, tuple(fixed.told(found)))
    for at in sorted({at for at, _ in told}):
        least = max((grade for row, grade in told if row == at), key=GRADES.index)
        yield Mild(at, judge.rows[at].way.grade, least, _where(told[at, least], unit), examples[at])


def readings(names: Iterable[str | None], limits: Limits) -> Iterator[tuple[tuple[float, float], Amount]]:
    """Yield a reading for every stretch that differs, first as if no meter were ever off, and its stretch."""
    marks = sorted(
        {mark for name in names if name is not None and name in limits for mark in limits[name].marks}
    )
    for width in WIDTHS:
        moved = {mark + by for mark in marks for by in (-width, 0.0, width)}
        for cell in cells(moved):
            yield cell, exactly(value_in(cell), width)


def _sharp(amount: Amount) -> bool:
    return amount.span == amount.shown


def _fix(table: Table, var: tuple[str, str], asked: Iterable[int], met: set[int]) -> Table:
    """Return the table for one reading that is known: rows it does not meet can never be met."""
    rows = []
    for at, row in enumerate(table.rows):
        rest = {other: mask for other, mask in row.items() if other != var}
        rows.append(rest if at not in asked or at in met else {**rest, var: 0})
    return Table(rows, {**table.domain, var: 1}, {k: v for k, v in table.values.items() if k != var})


def _where(found: list[tuple[float, float]], unit: str) -> str:
    """Return the first stretch in words, neighbours joined."""
    if math.isnan(found[0][1]):
        return f"near {found[0][0]:g} {unit}, where a meter that may be off leaves both possible"
    low, high = found[0]
    closed_low, closed_high = low == high, low == high
    for after in found[1:]:
        if math.isnan(after[1]) or after[0] != high:
            break
        closed_high = after[0] == after[1]
        high = after[1]
    unit = "" if unit == "1" else f" {unit}"
    if low == high:
        return f"at {low:g}{unit}"
    if math.isinf(low) and math.isinf(high):
        return "everywhere"
    if math.isinf(low):
        return f"{'up to' if closed_high else 'under'} {high:g}{unit}"
    if math.isinf(high):
        return f"{'from' if closed_low else 'over'} {low:g}{unit}"
    return f"{'from' if closed_low else 'over'} {low:g} {'to' if closed_high else 'to just under'} {high:g}{unit}"
