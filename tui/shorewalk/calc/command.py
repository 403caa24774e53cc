"""`shorewalk calc`: the list, one calculation, its explanation or its plot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from difflib import get_close_matches

from shorewalk.exits import Exit
from shorewalk.marks import cannot_show_blocks
from shorewalk.starting import Usage
from shorewalk.tree.library import shipped

from .as_json import listing_json, results_json
from .calculation import Calculation
from .catalog import CALCULATIONS
from .explained import explained
from .given import read_given
from .text import listing, results_text

LEAST = 24


def run_calc(
    name: str | None,
    words: Sequence[str],
    write: Callable[[str], None],
    room: int,
    *,
    as_json: bool = False,
    explain: bool = False,
    plot: bool = False,
) -> int:
    """Write what was asked for, `room` cells wide; raise `Usage` in one line where it cannot be done."""
    room = max(LEAST, room)
    if name is None:
        write(listing_json() if as_json else listing(room))
        return Exit.CLEAN
    calculation = find_calculation(name)
    if plot and calculation.plot is None:
        drawn = ", ".join(each.name for each in CALCULATIONS.values() if each.plot)
        raise Usage(f"{calculation.name} has no plot. These have: {drawn}.")
    alone = explain and not words
    given = read_given(calculation, calculation.example.split() if alone else words, shipped().site)
    results = calculation.work(given)
    if alone:
        write(explained(calculation, results, room, moved=False))
        return Exit.CLEAN
    if as_json:
        write(results_json(calculation, given, results))
        return Exit.CLEAN
    ascii_only = cannot_show_blocks()
    if plot and calculation.plot:
        from shorewalk.plots import draw

        write(draw(calculation.plot(given), room, ascii_only=ascii_only) + "\n")
    if explain:
        write(explained(calculation, results, room, moved=True) + "\n")
    write(results_text(calculation, given, results, room, ascii_only=ascii_only))
    return Exit.CLEAN


def find_calculation(name: str) -> Calculation:
    """Return a calculation by its name or the beginning of one; raise `Usage` with the nearest."""
    word = name.lower().replace("_", "-")
    begun = [word] if word in CALCULATIONS else [each for each in CALCULATIONS if each.startswith(word)]
    if len(begun) == 1:
        return CALCULATIONS[begun[0]]
    near = begun or get_close_matches(word, list(CALCULATIONS), 3)
    nearest = f" Nearest: {', '.join(near)}." if near else ""
    raise Usage(f'There is no calculation "{name}".{nearest} All of them: shorewalk calc')
