"""Every row of a judge can be the first that is met, for some readings, answers and states.

A row that never can is a mistake: the case its author had in mind is taken by a row above, or cannot be. (Rows
below one without a condition are told by `no-last-band`, those below a milder one by `rows-order`; cut points of
bands that do not rise by `bands-order`.)

Bad:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: verdict
        unable: stop_here
      verdict:
        judge:
          - {when: {hot_neutral: {from: twice-voltage}}, grade: stop, goto: stop_here}
          - {when: {hot_neutral: {below: service-a-low}}, grade: stop, goto: stop_here}
          - {when: {hot_neutral: {below: utilization-b-low}}, grade: stop, goto: stop_here}
          - {grade: ok, goto: stop_here}
        of: [hot_neutral]
        missing: stop_here

Good:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: verdict
        unable: stop_here
      verdict:
        judge:
          - {when: {hot_neutral: {from: twice-voltage}}, grade: stop, goto: stop_here}
          - {when: {hot_neutral: {below: utilization-b-low}}, grade: stop, goto: stop_here}
          - {when: {hot_neutral: {below: service-a-low}}, grade: stop, goto: stop_here}
          - {grade: ok, goto: stop_here}
        of: [hot_neutral]
        missing: stop_here
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from shorewalk.tree.model import GRADES, Judge, Row
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..rows import Table, table_of
from ..rule import Rule
from ..shape import shape_of
from ..view import View
from ..wide import wide_table

ID = "row-never-met"


@dataclass
class _Written:
    """A judge as written, its table where it was last put in, and the rows that no use so far can meet."""

    judge: Judge
    table: Table
    rows: set[int]


def check(view: View) -> Iterator[Finding]:
    """Find rows that are never met, in none of the uses of their part."""
    assert view.site  # noqa: S101 - the rule asks for it
    found: dict[object, _Written] = {}
    met: dict[Hashable, Table] = view.shown.setdefault("met", {})  # shapes of which every row is met
    for tree in view.trees:
        for node in tree.nodes.values():
            if not isinstance(node, Judge):
                continue
            key = (node.file, node.route)
            if key in found and not found[key].rows:
                continue
            shape = shape_of(node, tree)
            if shape in met:
                found[key] = _Written(node, met[shape], set())
                continue
            table = table_of(node, tree, view.site)
            known = found.setdefault(key, _Written(node, table, set(range(_told(node)))))
            known.rows -= set(table.firsts(table.domain))
            if known.rows:  # perhaps with a meter that is off
                known.table = wide_table(node, tree, view.site)
                known.rows = {at for at in known.rows if known.table.first(at, known.table.domain) is None}
            if not known.rows:
                met[shape] = known.table
    for written in found.values():
        for at in sorted(written.rows):
            rows = _taking(written.table, at)
            if not _told_by_order(written.judge, at, rows):
                yield _finding(view, written, at, rows)


def _told(judge: Judge) -> int:
    """Return how many rows there are down to the first that has no condition."""
    return next((at + 1 for at, row in enumerate(judge.rows) if _bare(row)), len(judge.rows))


def _bare(row: Row) -> bool:
    return not (row.when or row.while_ or row.worst or row.lacks)


def _told_by_order(judge: Judge, at: int, rows: list[int]) -> bool:
    """Tell whether `rows-order` says already that a milder row hides this one."""
    row = judge.rows[at]
    worse = [judge.rows[above] for above in rows if _rank(judge.rows[above]) < _rank(row)]
    return bool(worse) or any(judge.rows[above].worst and row.worst for above in rows)


def _rank(row: Row) -> int:
    return GRADES.index(row.way.grade) if row.way.grade in GRADES else len(GRADES)


def _finding(view: View, written: _Written, at: int, rows: list[int]) -> Finding:
    judge, table = written.judge, written.table
    place = view.of(judge, "judge", at)
    inside = {var: table.domain[var] & mask for var, mask in table.rows[at].items()}
    if none := [name for (_, name), mask in inside.items() if not mask]:
        names = listed((quoted(name.rpartition(".")[2]) for name in none), "and")
        message = f"This row is never met: no value of {names} is what it asks for."
        hint = "Look at what `of` waits for, and at both ends of the stretch; or leave the row out."
        return Finding(ID, Severity.ERROR, place, message, hint=hint)
    related = tuple(Related(view.of(judge, "judge", row), "a row above that takes it") for row in rows)
    said = f"row {rows[0] + 1} above takes" if len(rows) == 1 else "the rows above take"
    message = f"This row is never met: {said} every case of it."
    hint = "Put the narrower row first, or leave this one out."
    return Finding(ID, Severity.ERROR, place, message, related, hint)


def _taking(table: Table, at: int) -> list[int]:
    """Return few rows above that leave nothing to this one: every one that can be spared is."""
    rows = list(range(at))
    for row in range(at):
        fewer = [other for other in rows if other != row]
        left = Table([*(table.rows[other] for other in fewer), table.rows[at]], table.domain, table.values)
        if left.first(len(fewer), left.domain) is None:
            rows = fewer
    return rows


RULE = Rule(ID, "Every row of a judge can be met.", check)
