"""What a file that hands a walk over holds, and how large it may be.

    {
     "shorewalk-walk": 1,
     "sum": "...",
     "walk": {
      "id": "...", "tree": "arrival", "shipped": true, "content": "...", "meter": "basic,tenths",
      "written": "2024-05-01T18:45:00Z", "site": "14", "park": "Someday Flats",
      "answers": [
       {"tree": "arrival", "at": "before_you_start", "nth": 1, "done": true, "time": "2024-05-01T18:30:00Z"},
       {"tree": "arrival", "at": "sockets_30.hot_neutral", "nth": 1, "reading": "121.8", "time": "..."}
      ]
     }
    }

`shorewalk-walk` is the version of this form. `sum` is of everything under `walk`, however it is laid out: it finds
damage, not forgery. An answer is what JSON lines call one, with the question it was given to.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Any

from shorewalk.walk.answers import Answered

VERSION = 1
ENDING = ".walk.json"
"""How the name of such a file ends."""
LARGEST = 512 * 1024
"""Bytes."""
MOST_ANSWERS = 2_000
"""Ten times the longest recorded walk, and more."""
LONGEST = 200
"""Letters of any one text."""
MARK, SUM, WALK = "shorewalk-walk", "sum", "walk"


class NotTaken(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """The file is not taken over; the sentences say why, and what to do."""


@dataclass(frozen=True, slots=True)
class Handed:
    """One walk as the file has it. Times are as written there, which is no reason to trust them.

    `id`: 32 hexadecimal digits, the same on every machine. `content`: what the trees were; None where not known.
    """

    id: str
    tree: str
    shipped: bool
    meter: str
    written: str
    answers: tuple[Answered, ...]
    content: str | None = None
    park: str | None = None
    site: str | None = None
    outlet: str | None = None
    visited: str | None = None


def sum_of(walk: dict[str, Any]) -> str:
    """Return the sum of what stands under `walk`: 64 hexadecimal digits."""
    plain = json.dumps(walk, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(plain.encode()).hexdigest()
