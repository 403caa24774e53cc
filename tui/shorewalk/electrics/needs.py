"""What a function asks of its numbers; each refusal is one line a person can act on."""

from __future__ import annotations

import math


def positive(value: float, says: str, unit: str) -> float:
    """Return `value` where it is more than 0; raise `ValueError` in one line where it is not."""
    if not 0 < value < math.inf:
        raise ValueError(f"{says} of {value:g} {unit} cannot be: it is more than 0 {unit}.")
    return value


def within(value: float, says: str, unit: str, low: float, high: float) -> float:
    """Return `value` where it lies from `low` to `high`; raise `ValueError` in one line where it does not."""
    if not low <= value <= high:
        raise ValueError(f"{says} of {value:g} {unit} cannot be: {low:g} to {high:g} {unit} can.")
    return value
