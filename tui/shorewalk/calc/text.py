"""Results, and the list of calculations, as lines of text for a terminal of any width."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.lines import Span, wrap
from shorewalk.lines import as_text as joined
from shorewalk.marks import grade_mark

from .calculation import Calculation, Given, Result
from .catalog import GROUPS

CAUTION = (
    "General information. It does not replace a licensed electrician, your local codes or the makers' "
    "instructions, and a good figure does not prove that all is well."
)
COLUMN = 18


def listing(room: int) -> str:
    """Return every calculation with a line of what it gives, and how to ask for one."""
    rows: list[str] = []
    for group, calculations in GROUPS.items():
        rows += ["", group] if rows else [group]
        for each in calculations:
            rows += entry(each.name, each.says, room)
    rows += ["", *wrapped("shorewalk calc NAME --explain tells what one takes. For example:", room)]
    rows += wrapped("shorewalk calc sag unloaded=121.8 loaded=112.4 amps=11.7 meter=basic", room, 2)
    return "\n".join(rows) + "\n"


def entry(name: str, says: str, room: int) -> list[str]:
    """Return a name with what it says: beside it, or below where there is no room."""
    if room >= 60:
        return wrapped(says, room, COLUMN, f"  {name:{COLUMN - 2}}")
    return [f"  {name}", *wrapped(says, room, 4)]


def results_text(
    calculation: Calculation, given: Given, results: list[Result], room: int, *, ascii_only: bool
) -> str:
    """Return what came out, what it means, the source and the caution."""
    rows: list[str] = []
    for result in results:
        rows += [*_result(result, room, ascii_only=ascii_only), ""]
    if calculation.by_meter:
        rows += wrapped(meter_words(calculation, given), room)
    rows += wrapped(f"Source: {calculation.source}.", room)
    if calculation.beware:
        rows += wrapped(f"Caution: {calculation.beware}", room)
    rows += wrapped(CAUTION, room)
    return "\n".join(rows) + "\n"


def _result(result: Result, room: int, *, ascii_only: bool) -> Iterator[str]:
    mark = grade_mark(result.grade)
    graded = f"{mark.cell(ascii_only=ascii_only)} {mark.word}: " if result.grade else ""
    says = result.says if graded else result.says[:1].upper() + result.says[1:]
    yield from wrapped(graded + says, room)
    between = " = " if result.amount else ": "
    yield from wrapped(between.join(filter(None, (result.numbers, result.shows))), room, 4, "  ")
    for note in result.notes:
        yield from wrapped(note, room, 4)


def meter_words(calculation: Calculation, given: Given) -> str:
    """Return the meter whose error was counted."""
    meter = given.meter
    error = f"{meter.percent:g} % + {meter.counts:g} counts"
    parts = [meter.name, error] if meter.name != error else [error]
    if any(each.reading == "ac-volts" for each in calculation.inputs):
        parts.append({True: "tenths", False: "whole volts", None: "taken to show whole volts"}[meter.tenths])
    return f"Meter: {', '.join(parts)}. In brackets: the bounds it leaves, its gain shared by all readings."


def wrapped(text: str, room: int, indent: int = 0, first: str | None = None) -> list[str]:
    """Return a text in lines, `indent` deep; `first` stands before the first one instead."""
    ahead = (Span(" " * indent if first is None else first),) if indent else ()
    return joined(wrap(text, room, first=ahead, indent=indent)).split("\n")
