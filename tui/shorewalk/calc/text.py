"""Results, and the list of calculations, as lines of text for a terminal of any width."""

from __future__ import annotations

from collections.abc import Iterator
from inspect import cleandoc

from shorewalk.lines import Span, wrap
from shorewalk.lines import as_text as joined
from shorewalk.marks import grade_mark

from .calculation import Calculation, Given, Input, Result
from .catalog import GROUPS
from .given import says_number
from .results import parts_of

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
            rows += _entry(each.name, each.says, room)
    rows += ["", *_wrapped("shorewalk calc NAME --explain tells what one takes. For example:", room)]
    rows += _wrapped("shorewalk calc sag unloaded=121.8 loaded=112.4 amps=11.7 meter=basic", room, 2)
    return "\n".join(rows) + "\n"


def _entry(name: str, says: str, room: int) -> list[str]:
    if room >= 60:
        return _wrapped(says, room, COLUMN, f"  {name:{COLUMN - 2}}")
    return [f"  {name}", *_wrapped(says, room, 4)]


def results_text(
    calculation: Calculation, given: Given, results: list[Result], room: int, *, ascii_only: bool
) -> str:
    """Return what came out, what it means, the source and the caution."""
    rows: list[str] = []
    for result in results:
        rows += [*_result(result, room, ascii_only=ascii_only), ""]
    if calculation.by_meter:
        rows += _wrapped(meter_words(calculation, given), room)
    rows += _wrapped(f"Source: {calculation.source}.", room)
    if calculation.beware:
        rows += _wrapped(f"Caution: {calculation.beware}", room)
    rows += _wrapped(CAUTION, room)
    return "\n".join(rows) + "\n"


def _result(result: Result, room: int, *, ascii_only: bool) -> Iterator[str]:
    mark = grade_mark(result.grade)
    graded = f"{mark.cell(ascii_only=ascii_only)} {mark.word}: " if result.grade else ""
    says = result.says if graded else result.says[:1].upper() + result.says[1:]
    yield from _wrapped(graded + says, room)
    between = " = " if result.amount else ": "
    yield from _wrapped(between.join(filter(None, (result.numbers, result.shows))), room, 4, "  ")
    for note in result.notes:
        yield from _wrapped(note, room, 4)


def meter_words(calculation: Calculation, given: Given) -> str:
    """Return the meter whose error was counted."""
    meter = given.meter
    error = f"{meter.percent:g} % + {meter.counts:g} counts"
    parts = [meter.name, error] if meter.name != error else [error]
    if any(each.reading == "ac-volts" for each in calculation.inputs):
        parts.append({True: "tenths", False: "whole volts", None: "taken to show whole volts"}[meter.tenths])
    return f"Meter: {', '.join(parts)}. In brackets: the bounds it leaves, its gain shared by all readings."


def explained(calculation: Calculation, results: list[Result], room: int, *, moved: bool) -> str:
    """Return what it takes, each formula with its source; with `moved`, which number moves a result how far."""
    rows = [*_wrapped(f"{calculation.name}: {calculation.says}.", room), "", "It takes"]
    for each in calculation.inputs:
        rows += _entry(each.name, _says_input(each), room)
    if calculation.by_meter:
        rows += _entry(
            "meter", "basic, good or its own error like 1%+3; then ,tenths or ,whole (default: basic)", room
        )
    rows += ["", *_wrapped("A number may be 121.8, 118-121, 11.7+-0.5 or 11.7+-5%, with its unit.", room)]
    rows += ["", *_wrapped(f"shorewalk calc {calculation.name} {calculation.example}", room, 2, "  "), ""]
    for result in results:
        if result.formula:
            rows += [
                *_wrapped(result.says, room),
                *_wrapped(f"{result.formula.says} [{result.formula.unit}]", room, 4, "  "),
            ]
            rows += _wrapped(" ".join(cleandoc(result.formula.fn.__doc__ or "").split()), room, 4)
            rows += _parts(result, room) if moved else []
            rows.append("")
    rows += _wrapped(f"Source: {calculation.source}.", room)
    rows += _wrapped(CAUTION, room)
    return "\n".join(rows) + "\n"


def _says_input(each: Input) -> str:
    if each.kind == "choice":
        said = f"{each.says}: {', '.join(each.choices)}"
    elif each.kind == "number":
        said = says_number(each).removeprefix("It is ").removesuffix(".")
    else:
        said = each.says
    if each.default is None:
        return said
    return (
        f"{said}; may be left out"
        if each.default == ""
        else f"{said} (default: {each.default.removesuffix('+-0')})"
    )


def _parts(result: Result, room: int) -> list[str]:
    if result.amount is None:
        return []
    parts = [(name, reach) for name, reach in parts_of(result.amount) if reach > 1e-9]
    if not parts:
        return []
    unit = "" if result.amount.unit == "1" else result.amount.unit
    told = "; ".join(f"{name.replace('_', ' ')} {reach:.2g} {unit}".rstrip() for name, reach in parts)
    return _wrapped(f"Moved either way by: {told}.", room, 4)


def _wrapped(text: str, room: int, indent: int = 0, first: str | None = None) -> list[str]:
    ahead = (Span(" " * indent if first is None else first),) if indent else ()
    return joined(wrap(text, room, first=ahead, indent=indent)).split("\n")
