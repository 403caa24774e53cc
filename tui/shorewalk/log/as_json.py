"""Walks as JSON: all that is kept of them, and the readings taken from it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from shorewalk.walk.answers import to_json

from .kept import Kept, Reading
from .working_out import work_out

VERSION = 1
"""Grows with every change that breaks whoever reads it; a new key does not."""


def walks_json(walks: Iterable[Kept], now: str) -> str:
    """Return walks as JSON, in their order. Times are ISO 8601 in UTC, units stand beside the values."""
    walks = [*walks]
    work_out(walks)
    data = {"version": VERSION, "exported": now, "walks": [_walk(walk) for walk in walks]}
    return json.dumps(data, indent=1, ensure_ascii=False) + "\n"


def _walk(kept: Kept) -> dict[str, Any]:
    entry, where = kept.entry, kept.where
    return {
        "walk": entry.id,
        "uuid": entry.uuid,
        "tree": entry.tree,
        "symptom": kept.symptom,
        "park": where.park,
        "site": where.site,
        "cord_in": where.outlet,
        "stay_from": where.visited,
        "begun": entry.begun,
        "changed": entry.changed,
        "meter": entry.meter,
        "whole": kept.whole,
        "ending": entry.ending,
        "answers": [
            {
                "tree": answered.tree,
                "at": answered.at,
                "nth": answered.nth,
                "time": answered.time,
                "resumed": answered.resumed,
                **to_json(answered.answer),
            }
            for answered in kept.answers
        ],
        "readings": [_reading(reading) for reading in kept.readings],
    }


def _reading(reading: Reading) -> dict[str, Any]:
    known = reading.known
    return {
        "time": reading.time,
        "of": reading.about,
        "place": known.place,
        "from": known.from_,
        "to": known.to,
        "quantity": known.quantity,
        "load": known.load,
        "breaker_off": reading.dead,
        "shows": known.shows,
        "value": known.value,
        "unit": known.unit,
        "low": known.low,
        "high": known.high,
        "grade": known.grade,
    }
