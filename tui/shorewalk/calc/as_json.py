"""Results for programs."""

from __future__ import annotations

import json
from typing import Any

from shorewalk.walk.interval import Amount, finite

from .calculation import Calculation, Given, Result
from .text import CAUTION


def results_json(calculation: Calculation, given: Given, results: list[Result]) -> str:
    """Return one object: what was put in, with its bounds, and what came out."""
    inputs: dict[str, Any] = {name: _amount(amount) for name, amount in given.amounts.items()}
    told = {
        "calc": calculation.name,
        "inputs": inputs | {name: word for name, word in given.words.items() if word},
        "meter": _meter(given) if calculation.by_meter else None,
        "results": [_result(result) for result in results],
        "source": calculation.source,
        "caution": " ".join(filter(None, (calculation.beware, CAUTION))),
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _meter(given: Given) -> dict[str, Any]:
    meter = given.meter
    return {"name": meter.name, "percent": meter.percent, "counts": meter.counts, "tenths": meter.tenths}


def _amount(amount: Amount) -> dict[str, Any]:
    low, high = map(finite, amount.span)
    return {"value": finite(amount.value), "low": low, "high": high, "unit": amount.unit}


def _result(result: Result) -> dict[str, Any]:
    return {
        "id": result.id,
        "says": result.says,
        **(_amount(result.amount) if result.amount else {}),
        "shows": result.shows,
        "formula": result.formula.says if result.formula else None,
        "numbers": result.numbers or None,
        "grade": result.grade,
        "notes": list(result.notes),
    }


def listing_json() -> str:
    """Return every calculation with what it takes."""
    from .catalog import CALCULATIONS

    told = [
        {
            "calc": each.name,
            "says": each.says,
            "inputs": [
                {
                    "name": one.name,
                    "says": one.says,
                    "unit": one.unit or None,
                    "kind": one.kind,
                    "choices": list(one.choices) or None,
                    "default": one.default,
                }
                for one in each.inputs
            ],
            "example": each.example,
            "source": each.source,
        }
        for each in CALCULATIONS.values()
    ]
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"
