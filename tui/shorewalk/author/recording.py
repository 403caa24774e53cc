"""A walk as a recorded file: the answers that were given, and the ending they must lead to from now on."""

from __future__ import annotations

import json
from pathlib import Path

from shorewalk import folders
from shorewalk.journal import meter_text
from shorewalk.saving import write_beside
from shorewalk.walk.answers import to_json
from shorewalk.walk.ending import ending
from shorewalk.walk.walk import Walk


def record_walk(walk: Walk, trees: Path) -> Path:
    """Write an ended walk of a tree in the folder `trees` into `walks` beside it; raise `OSError`.

    Walks of the shipped trees go to those of the invented campground. Nothing is written over.
    """
    shipped = trees.resolve() == folders.trees().resolve()
    folder = folders.demo_data() / "walks" if shipped else trees / "walks"
    text = recorded_text(walk, walk.tree if shipped else f"../{walk.tree}.yaml")
    folder.mkdir(exist_ok=True)
    return write_beside(folder, f"{walk.tree}-{walk.now.node.name}".replace(".", "-"), ".yaml", text)


def recorded_text(walk: Walk, tree: str) -> str:
    """Return the file; `tree` is how it names the tree: a shipped one, or the file of another."""
    end = ending(walk)
    lines = [
        f"walk: {tree}",
        f"about: Ends at {end.at}. Say here what this walk is about.",
        f"meter: {meter_text(walk.meter)}",
        "answers:",
    ]
    for answered in walk.answers:
        pairs = ", ".join(f"{key}: {_value(value)}" for key, value in to_json(answered.answer).items())
        lines.append(f"  - {{at: {answered.at}, {pairs}}}")
    ends = {"tree": end.tree, "at": end.at, "verdict": end.verdict, "call": end.call, "first": end.first}
    lines.append(f"ends: {{{', '.join(f'{key}: {value}' for key, value in ends.items() if value)}}}")
    return "\n".join(lines) + "\n"


def _value(value: object) -> str:
    """Return a value as YAML that any reader takes for the word it is."""
    if isinstance(value, dict):
        return f"{{{', '.join(f'{key}: {_value(each)}' for key, each in value.items())}}}"
    return json.dumps("true" if value is True else str(value), ensure_ascii=False)
