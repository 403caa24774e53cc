"""Which row of a judge can be the first that is met, against trying everything."""

from __future__ import annotations

from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as some

from shorewalk.lint.rows import Table, cells, value_in

VARS = (("node", "a"), ("node", "b"), ("state", "c"), ("worst", ""))
MASK = some.integers(0, 7)
ROW = some.dictionaries(some.sampled_from(VARS), MASK, max_size=3)


@given(some.lists(ROW, max_size=6), some.tuples(*[some.integers(1, 7)] * len(VARS)))
def test_the_rows_that_can_be_first_are_those_found_by_trying_everything(
    rows: list[dict[tuple[str, str], int]], domain: tuple[int, ...]
) -> None:
    """For every combination of values the first row met is among them, and each of them is met by one."""
    table = Table(rows, dict(zip(VARS, domain, strict=True)), {})
    tried = set()
    for values in product(*([bit for bit in (1, 2, 4) if bit & mask] for mask in domain)):
        taken = dict(zip(VARS, values, strict=True))
        met = (at for at, row in enumerate(rows) if all(taken[var] & mask for var, mask in row.items()))
        tried.add(next(met, None))
    tried.discard(None)
    assert set(table.firsts(table.domain)) == tried
    assert {at for at in range(len(rows)) if table.first(at, table.domain) is not None} == tried


@given(some.lists(some.floats(-300, 300), max_size=6))
def test_cells_make_up_the_whole_line(cuts: list[float]) -> None:
    """They touch each other from minus to plus infinity, and each has a number of its own."""
    line = cells(cuts)
    assert (line[0][0], line[-1][1]) == (float("-inf"), float("inf"))
    assert all(left[1] == right[0] for left, right in pairwise(line))
    assert len(line) == 2 * len(set(cuts)) + 1
    values = [value_in(cell) for cell in line]
    assert values == sorted(values)
