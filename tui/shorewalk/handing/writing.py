"""A walk as the text of a file."""

from __future__ import annotations

import json
from typing import Any

from shorewalk.journal.entry import LABELS
from shorewalk.walk.answers import Answered, to_json

from .handed import MARK, SUM, VERSION, WALK, Handed, sum_of


def text_of(handed: Handed) -> str:
    """Return the text of the file: ASCII, an answer a line."""
    walk = plain_of(handed)
    answers = [json.dumps(answer) for answer in walk.pop("answers")]
    head = json.dumps(walk, indent=1)[2:-2].replace("\n", "\n ")
    lines = ",\n   ".join(answers)
    whole = sum_of(plain_of(handed))
    return (
        f'{{\n "{MARK}": {VERSION},\n "{SUM}": "{whole}",\n "{WALK}": {{\n {head},\n'
        f'  "answers": [\n   {lines}\n  ]\n }}\n}}\n'
    )


def plain_of(handed: Handed) -> dict[str, Any]:
    """Return what stands under `walk`; what is not known is left out."""
    data: dict[str, Any] = {
        "id": handed.id,
        "tree": handed.tree,
        "shipped": handed.shipped,
        "meter": handed.meter,
        "written": handed.written,
    }
    data |= {
        name: getattr(handed, name) for name in ("content", *LABELS) if getattr(handed, name) is not None
    }
    return data | {"answers": [_answer(answered) for answered in handed.answers]}


def _answer(answered: Answered) -> dict[str, Any]:
    stamps = {"time": answered.time, "resumed": answered.resumed}
    return plain_answer(answered) | {name: stamp for name, stamp in stamps.items() if stamp is not None}


def plain_answer(answered: Answered) -> dict[str, Any]:
    """Return an answer with the question it was given to, without times."""
    data = {"tree": answered.tree, "at": answered.at, "nth": answered.nth, **to_json(answered.answer)}
    if isinstance(text := data.get("reading"), str):
        data["reading"] = " ".join(text.split())  # blanks that cannot be seen would be refused
    return data
