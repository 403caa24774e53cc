"""Which rows of a judge a path may take, and what each asks of the numbers given before."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from shorewalk.tree.model import GRADES, Judge
from shorewalk.tree.model import Row as Written

from .claims import Case, Claim, Row

if TYPE_CHECKING:
    from .stepping import State, Steps


class Rows:
    """The rows of a judge that can be met from a state: what each asks of numbers, by its place from 0.

    `sure` holds those that are met whenever their tests are; of others something else is not known.
    """

    def __init__(self, steps: Steps, state: State, judge: Judge) -> None:
        self.steps, self.state = steps, state
        self.tests: dict[int, Row] = {}
        self.sure: set[int] = set()
        for place, row in enumerate(judge.rows):
            found = self._asked(row)
            if found is None:
                continue
            self.tests[place] = found[0]
            if found[1]:
                self.sure.add(place)
                if not found[0]:
                    return  # always met

    def claim(self, places: Collection[int]) -> Claim | None:
        """Return what it claims that the first row met is one of these; `None` where it claims nothing."""
        cases: list[Case] = []
        for place in sorted(places):
            above = tuple(
                dict.fromkeys(
                    tests
                    for other, tests in self.tests.items()
                    if other < place and other in self.sure and other not in places
                )
            )
            cases.append((self.tests[place], above))
        cases = [case for at, case in enumerate(cases) if not _within(case, cases[at + 1 :])]
        cases = [case for case in cases if not any(set(row) <= set(case[0]) for row in case[1])]
        if any(case == ((), ()) for case in cases):
            return None
        names = {test.node for must, never in cases for test in (*must, *(t for row in never for t in row))}
        bases = {base for name in names for base in self.steps.claims.bases(name)}
        return self.steps.claims.make(tuple(cases), (one for one in self.state.read if one.node in bases))

    def _asked(self, row: Written) -> tuple[Row, bool] | None:
        """Return what a row asks of numbers, and whether all else is known to be met; `None`: it cannot be met."""
        steps, state, sure = self.steps, self.state, True
        if row.worst is not None and state.worst < GRADES.index(row.worst):
            return None
        if row.lacks is not None:
            outlet = steps.outlet(state)
            if outlet is not None and steps.ahead.held(row.lacks, outlet, state.seen):
                return None
            sure = outlet is not None
        if not all(steps.standings.may(state.standing, name, value) for name, value in row.while_):
            return None
        tests: Row = ()
        for asked in row.when:
            if asked.choice is not None:
                if (asked.node, asked.choice) not in state.given:
                    return None
            elif not steps.there(state, asked.node):
                return None
            else:
                tests = (*tests, steps.claims.test(asked.node, asked))
        return tests, sure


def _within(case: Case, others: list[Case]) -> bool:
    """Tell whether one of the other cases holds whenever this one does."""
    return any(set(must) <= set(case[0]) and set(never) <= set(case[1]) for must, never in others)
