"""What a calculation takes, its formulas with their sources, and what moves a result most."""

from __future__ import annotations

from collections.abc import Callable
from inspect import cleandoc

from .calculation import Calculation, Input, Result
from .given import says_number
from .parts import parts_of
from .text import CAUTION, entry, wrapped


def explained(calculation: Calculation, results: list[Result], room: int, *, moved: bool) -> str:
    """Return what it takes, each formula with its source; with `moved`, which number moves a result how far."""
    rows = [*wrapped(f"{calculation.name}: {calculation.says}.", room), "", "It takes"]
    for each in calculation.inputs:
        rows += entry(each.name, _says_input(each), room)
    if calculation.by_meter:
        rows += entry(
            "meter", "basic, good or its own error like 1%+3; then ,tenths or ,whole (default: basic)", room
        )
    rows += ["", *wrapped("A number may be 121.8, 118-121, 11.7+-0.5 or 11.7+-5%, with its unit.", room)]
    rows += ["", *wrapped(f"shorewalk calc {calculation.name} {calculation.example}", room, 2, "  "), ""]
    for result in results:
        if result.formula:
            rows += [
                *wrapped(result.says, room),
                *wrapped(f"{result.formula.says} [{result.formula.unit}]", room, 4, "  "),
            ]
            rows += wrapped(_own_words(result.formula.fn), room, 4)
            rows += _parts(result, room) if moved else []
            rows.append("")
    for function in calculation.functions:
        rows += [*wrapped(_own_words(function), room), ""]
    rows += wrapped(f"Source: {calculation.source}.", room)
    rows += wrapped(CAUTION, room)
    return "\n".join(rows) + "\n"


def _own_words(function: Callable[..., object]) -> str:
    """Return what a function says of itself: units, range, errors and source."""
    written = getattr(function, "func", function).__doc__ or ""
    text = " ".join(cleandoc(written).split()).replace("`", "").removeprefix("Return ")
    text = text.replace("Raise ValueError", "It is refused").replace("math.inf", "endless")
    return text[:1].upper() + text[1:]


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
    return wrapped(f"Moved either way by: {told}.", room, 4)
