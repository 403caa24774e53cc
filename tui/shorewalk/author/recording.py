"""Walks as recorded files: the answers that were given, and the ending they must lead to from now on."""

from __future__ import annotations

import os
import re
from pathlib import Path

from shorewalk import folders
from shorewalk.journal import meter_text
from shorewalk.saving import write_beside
from shorewalk.walk.answers import Answer, Choose, Read, Running, to_json
from shorewalk.walk.ending import ending
from shorewalk.walk.walk import Walk

PLAIN = re.compile(r"[A-Za-z_][A-Za-z0-9_.-]*")
NOT_PLAIN = ("yes", "no", "on", "off", "true", "false", "none", "null")
"""Words that a YAML reader of others takes for something else."""


def walks_of(trees: Path) -> Path:
    """Return where recorded walks of these trees lie; those of the shipped ones are in the invented campground."""
    return folders.demo_data() / "walks" if _shipped(trees) else trees / "walks"


def named_from(folder: Path, trees: Path, tree: str) -> str:
    """Return how a recorded walk in `folder` names a tree: a shipped one by its name, any other by its file."""
    if _shipped(trees):
        return tree
    return Path(os.path.relpath(trees.resolve() / f"{tree}.yaml", folder.resolve())).as_posix()


def record_walk(walk: Walk, trees: Path) -> Path:
    """Write an ended walk of a tree in the folder `trees` to a new file and return it; raise `OSError`."""
    folder = walks_of(trees)
    about = f"Ends at {walk.now.node.name}. Say here what this walk is about."
    text = recorded_text(walk, named_from(folder, trees, walk.tree), (about,))
    folder.mkdir(exist_ok=True)
    return write_beside(folder, f"{walk.tree}-{walk.now.node.name}".replace(".", "-"), ".yaml", text)


def recorded_text(walk: Walk, tree: str, about: tuple[str, ...]) -> str:
    """Return the file; `tree` is how it names the tree, `about` its sentences."""
    end = ending(walk)
    lines = [
        f"walk: {tree}",
        "about: >-",
        *(f"  {sentence}" for sentence in about),
        f"meter: {meter_text(walk.meter)}",
        "answers:",
    ]
    lines += [
        f"  - {{at: {_word(answered.at)}, {_answer(answered.answer)}{_time(answered.time)}}}"
        for answered in walk.answers
    ]
    of = {} if end.tree == walk.tree else {"tree": end.tree}
    ends = {**of, "at": end.at, "verdict": end.verdict, "call": end.call}
    lines.append(f"ends: {{{', '.join(f'{key}: {_word(value)}' for key, value in ends.items())}}}")
    return "\n".join(lines) + "\n"


def _shipped(trees: Path) -> bool:
    return trees.resolve() == folders.trees().resolve()


def _answer(answer: Answer) -> str:
    match answer:
        case Choose(name):
            return f"choose: {_word(name)}"
        case Read(text, confirmed):
            return f'reading: "{text}"' + (', confirmed: "true"' if confirmed else "")
        case Running(loads):
            return "running: {" + ", ".join(f'{load}: "{count}"' for load, count in loads) + "}"
    (key,) = to_json(answer)
    return f'{key}: "true"'


def _time(time: str | None) -> str:
    return f', time: "{time}"' if time else ""


def _word(word: str) -> str:
    return word if PLAIN.fullmatch(word) and word.lower() not in NOT_PLAIN else f'"{word}"'
